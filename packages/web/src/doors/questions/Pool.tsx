import type { Item } from '@sunlap/drawing/display';
import { units } from '../../app/state';
import { Picture } from '../../parts/Picture';
import { QuantityInput } from '../../parts/QuantityInput';
import { useSize } from '../../parts/useSize';
import { say } from '../../shape/quantity';
import { f } from '../../text/first';
import type { QuestionProps } from './props';

/** Pool from above and from the side, both to one scale. */
function poolItems(l: number, w: number, d: number, width: number, height: number): Item[] {
  const scale = Math.min((width - 40) / l, (height - 96) / (w + d));
  const [pl, pw, pd] = [l * scale, w * scale, d * scale];
  const x = (width - pl) / 2;
  const top = 26;
  const side = top + pw + 38;
  const word = (at: readonly [number, number], text: string): Item => ({
    kind: 'text',
    layer: 'text',
    at,
    text,
    size: 12,
    ink: 'soft',
  });
  const waves = (y: number): Item[] =>
    [0.2, 0.5, 0.8].map((u) => ({
      kind: 'line',
      layer: 'dimension',
      from: [x + pl * u - 14, y],
      to: [x + pl * u + 14, y],
      ink: 'hair',
      width: 1.2,
    }));
  return [
    {
      kind: 'polyline',
      layer: 'built',
      points: [
        [x, top],
        [x + pl, top],
        [x + pl, top + pw],
        [x, top + pw],
      ],
      closed: true,
      ink: 'ink',
      width: 2,
      fill: 'sheet',
    },
    ...[0.3, 0.5, 0.7].flatMap((u) => waves(top + pw * u)),
    word([x, top - 9], f.pool.top),
    {
      kind: 'polyline',
      layer: 'built',
      points: [
        [x, side],
        [x, side + pd * 0.8],
        [x + pl * 0.45, side + pd * 0.85],
        [x + pl * 0.7, side + pd * 1.2],
        [x + pl, side + pd * 1.2],
        [x + pl, side],
      ],
      ink: 'ink',
      width: 2,
    },
    { kind: 'line', layer: 'dimension', from: [x, side + 2], to: [x + pl, side + 2], ink: 'soft', width: 1 },
    word([x, side - 9], f.pool.side),
  ];
}

export function Pool({ answers: a, put }: QuestionProps) {
  const { ref, width, height } = useSize<HTMLDivElement>();
  const u = units.value;
  const [l, w, d] = [a.poolLength_m, a.poolWidth_m, a.poolDepth_m];
  const text = (v: number) => say(v, 'length', u);
  return (
    <>
      <div class="canvas ask-picture" ref={ref}>
        {width > 60 && (
          <Picture
            items={poolItems(l, w, d, width, height)}
            width={width}
            height={height}
            name="pool-picture"
            title={f.ask.pool}
            says={f.pool.picture(text(l), text(w), text(d))}
          />
        )}
      </div>
      <div class="ask-fields ask-three">
        <QuantityInput
          label={f.pool.length}
          kind="length"
          value={l}
          min={1}
          max={60}
          onValue={(poolLength_m) => put(f.set.pool, { poolLength_m })}
        />
        <QuantityInput
          label={f.pool.width}
          kind="length"
          value={w}
          min={1}
          max={40}
          onValue={(poolWidth_m) => put(f.set.pool, { poolWidth_m })}
        />
        <QuantityInput
          label={f.pool.depth}
          kind="length"
          value={d}
          min={0.3}
          max={6}
          onValue={(poolDepth_m) => put(f.set.pool, { poolDepth_m })}
        />
      </div>
      <p class="ask-fact">{f.pool.holds(say(l * w * d, 'volume', u))}</p>
    </>
  );
}
