import type { Notice } from '@sunlap/engine/numeric/notice';
import { whyOpen } from '../app/state';
import type { WHY, WhyText } from '../text/why';
import { later } from './later';
import type { Readout } from './readout';

export interface WhyProps {
  readouts: readonly Readout[];
  /** Why this answer is what it is; equations that several sheets share come with the part itself. */
  text: (id: string, shared: typeof WHY) => WhyText | null;
  notices: readonly Notice[];
}

const Box = later(async () => (await import('./WhyBox')).WhyBox);

/** Why an answer is what it is, while someone asks. */
export const Why = (props: WhyProps) => (whyOpen.value === null ? null : <Box {...props} />);
