import type { Io } from './io';

const WIDTH = 24;

/** A bar that grows on a terminal and is gone when the work is done; silent elsewhere. */
export function progressBar(io: Io): { show(share: number, doing: string): void; clear(): void } {
  let shown = -1;
  let longest = 0;
  return {
    show(share, doing) {
      if (io.columns === undefined) return;
      const percent = Math.floor(share * 100);
      if (percent === shown) return;
      shown = percent;
      const full = Math.floor(Math.min(1, share) * WIDTH);
      const line =
        `${'█'.repeat(full)}${'░'.repeat(WIDTH - full)} ${String(percent).padStart(3)} %  ${doing}`.slice(
          0,
          Math.max(30, io.columns - 1),
        );
      longest = Math.max(longest, line.length);
      io.err(`\r${line.padEnd(longest)}`);
    },
    clear() {
      if (longest > 0) io.err(`\r${' '.repeat(longest)}\r`);
    },
  };
}
