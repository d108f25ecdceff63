import { headerTee } from '@sunlap/data/headerTee';
import { type Joinable, joinableOf, sizeText } from '@sunlap/data/joinable';
import type { Tap } from '@sunlap/project/schema/path';
import { inLine, type Line } from './line';
import { type Gathering, joinedSets, jointsOn, NO_JOINTS, passes, put } from './strand';

const SMALL = 'pvc-sch40-1/2';
const SMALL_METRIC = 'pvcu-pn16-20';

/** Half-inch pipe, or 20 mm, on which cocks and vents sit. */
export function smallPipe(pipe: Joinable): Joinable {
  return joinableOf(pipe.base === 'metric' || pipe.base === 'metricPe' ? SMALL_METRIC : SMALL)!;
}

const TAP_WORD: Record<Tap['purpose'], readonly [part: string, label: string]> = {
  drain: ['ballValve', 'Drain cock'],
  bleed: ['ballValve', 'Bleed cock'],
  airVent: ['airVent', 'Automatic air vent'],
  vacuumBreaker: ['vacuumBreaker', 'Vacuum breaker'],
};

/** The cock, vent or breaker with its short pipe. */
export function tapParts(g: Gathering, on: Joinable, purpose: Tap['purpose'], pointer: string): void {
  const small = smallPipe(on);
  const [part, label] = TAP_WORD[purpose];
  const cock = purpose === 'drain' || purpose === 'bleed';
  put(
    g.bag,
    {
      part: cock ? `${part}-${small.pipe.nominal}` : part,
      label: `${label}, ${sizeText(small.pipe.nominal, small.base)}`,
      kind: cock ? 'cock' : purpose === 'airVent' ? 'vent' : 'breaker',
      joints: cock ? [{ nominal: small.pipe.nominal, count: 1 }] : [],
      dryJoints: cock ? 0 : 1,
      takes_m: 0,
      known: 'standard',
    },
    1,
    pointer,
  );
  if (!cock)
    put(
      g.bag,
      {
        part: `threadAdapter-${small.pipe.nominal}`,
        label: `Threaded adapter, ${sizeText(small.pipe.nominal, small.base)}`,
        kind: 'adapter',
        joints: [{ nominal: small.pipe.nominal, count: 1 }],
        dryJoints: 0,
        takes_m: 0,
        known: 'standard',
      },
      1,
      pointer,
    );
  if (!cock && !g.bag.fittings.some((f) => f.kind === 'tape'))
    put(
      g.bag,
      {
        part: 'threadTape',
        label: 'Thread seal tape, roll',
        kind: 'tape',
        joints: [],
        takes_m: 0,
        known: 'common practice',
      },
      1,
      pointer,
    );
  g.bag.pieces.push({
    pipe: small.pipe.id,
    length_m: Math.max(0.1, 2 * small.socket_m),
    count: 1,
    use: 'branch',
    path: pointer,
    label: `${label}, short pipe`,
    inFlow: false,
    onSite: false,
  });
}

/** A tee in line whose branch takes a cock, vent or breaker. */
export function tapInLine(g: Gathering, line: Line, purpose: Tap['purpose'], pointer: string): void {
  inLine(
    g,
    line,
    (pipe) => {
      const small = smallPipe(pipe);
      const tee = headerTee(pipe, small, g.options.measured);
      const branch = tee.adapter
        ? { ...NO_JOINTS, joints: [{ nominal: tee.branchNominal, count: 1 }] }
        : jointsOn(small, 1);
      if (tee.adapter)
        put(
          g.bag,
          { ...tee.adapter, kind: 'adapter', ...jointsOn(small, 1), takes_m: 0, known: 'standard' },
          1,
          pointer,
        );
      return {
        part: tee.part,
        label: tee.label,
        kind: 'tee',
        ...joinedSets(jointsOn(pipe, 2), branch),
        takes_m: 2 * tee.run_m,
        known: tee.known,
      };
    },
    pointer,
  );
  passes(g.bag, 'tapTee', 1, line.pipe!, pointer, 'node');
  tapParts(g, line.pipe!, purpose, pointer);
}
