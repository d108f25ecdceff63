/** Colours of a sheet. `cool → sand → warm` is water temperature and nothing else; `flag` is for notices only. */
export interface Palette {
  paper: string;
  sheet: string;
  ink: string;
  soft: string;
  hair: string;
  grid: string;
  cool: string;
  sand: string;
  warm: string;
  flag: string;
  flagFill: string;
}

export type Ink = Exclude<keyof Palette, 'cool' | 'sand' | 'warm'>;

export const LIGHT: Palette = {
  paper: '#f5f2ea',
  sheet: '#fbf9f4',
  ink: '#22303a',
  soft: '#5d6972',
  hair: '#cfc9ba',
  grid: '#efebe0',
  cool: '#1d7386',
  sand: '#d8bd7d',
  warm: '#c8501e',
  flag: '#8a5a00',
  flagFill: '#fbeecb',
};

export const DARK: Palette = {
  paper: '#151b20',
  sheet: '#1b2329',
  ink: '#e8e4da',
  soft: '#98a3aa',
  hair: '#3a464e',
  grid: '#202930',
  cool: '#5cb6c8',
  sand: '#cdb98a',
  warm: '#f08a52',
  flag: '#f0c15c',
  flagFill: '#3a3017',
};

/** Black on white, for paper and files. */
export const PRINT: Palette = {
  ...LIGHT,
  paper: '#ffffff',
  sheet: '#ffffff',
  ink: '#000000',
  soft: '#404040',
  hair: '#9a9a9a',
  grid: '#ececec',
};
