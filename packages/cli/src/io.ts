/** What a command may touch of the world; tests give it a world of their own. */
export interface Io {
  out(text: string): void;
  err(text: string): void;
  /** @returns size in bytes, or a reason why there is no such file */
  size(path: string): Promise<number | { reason: string }>;
  read(path: string): Promise<Uint8Array>;
  /** The same text for every way to name one file. */
  realPath(path: string): Promise<string>;
  /** Writes a new file; never replaces one. @returns a reason when it could not */
  writeNew(path: string, text: string): Promise<{ reason: string } | undefined>;
  /** Writes a file that the person named as output, replacing what is there. */
  write(path: string, text: string): Promise<{ reason: string } | undefined>;
  /** Width of the terminal in characters; undefined when the output is not one. */
  columns: number | undefined;
  /** The day that the calendar shows in a time zone, ISO 8601. */
  today(timeZone: string): string;
}

/** Exit codes of the program. */
export const EXIT = { fine: 0, danger: 1, wrong: 2, notConverged: 3 } as const;

/** The person's arguments or file are wrong; the text says where and what was expected. */
export class WrongInput extends Error {
  override name = 'WrongInput';
}
