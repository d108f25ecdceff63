import type { Item } from '@sunlap/drawing/display';
import { edges } from '@sunlap/drawing/panelPlan';
import { type PanelSheet, panelSheet } from '@sunlap/drawing/panelSheet';
import { useApp } from '../app/context';
import { doc, narrow, study, units } from '../app/state';
import { spacing_m } from '../edits/extent';
import { setCount, setLength } from '../edits/panel';
import { Picture } from '../parts/Picture';
import { useSize } from '../parts/useSize';
import { WaterMotion } from '../parts/WaterMotion';
import { heatScale, panelData, panelInput } from '../shape/panelInput';
import { say } from '../shape/quantity';
import { panelSays } from '../sheets/collector/says';
import type { Doc } from '../store/doc';
import { t } from '../text/catalogue';
import { f } from '../text/first';
import { PullHandle } from './PullHandle';
import { beside, lengthsOfSticks, nearest } from './sticks';

const MOST_TUBES = 80;

/** Where the water comes and goes, said at the ends. */
function waterEnds(sheet: PanelSheet, small: boolean): Item[] {
  const { collector } = doc.value.project;
  const out: Item[] = [];
  for (const s of collector.sections) {
    const [first, last] = [s.banks[0].id, s.banks[s.banks.length - 1].id];
    for (const e of sheet.ends) {
      if (e.section !== s.id || !e.open) continue;
      const inlet = e.bank === first && e.header === 'supply';
      const outlet = e.bank === last && e.header === 'gather';
      if (!inlet && !outlet) continue;
      const [ox, oy] = e.outward;
      const [x, y] = e.at;
      const [a, b]: [readonly [number, number], readonly [number, number]] = inlet
        ? [
            [x + ox * 24, y + oy * 24],
            [x + ox * 7, y + oy * 7],
          ]
        : [
            [x + ox * 7, y + oy * 7],
            [x + ox * 24, y + oy * 24],
          ];
      out.push(
        { kind: 'line', layer: 'flag', from: a, to: b, ink: 'ink', width: 2 },
        {
          kind: 'polyline',
          layer: 'flag',
          points: arrow(a, b),
          closed: true,
          ink: 'ink',
          width: 1,
          fill: 'ink',
        },
      );
      if (sheet.boxes.length > 1) continue;
      const left = x < sheet.width / 2;
      out.push({
        kind: 'text',
        layer: 'text',
        at: [x + (left ? 12 : -12), y + oy * 20 + 4],
        text: inlet ? t.ends.fromPool : t.ends.toPool,
        size: small ? 12 : 12.5,
        weight: 550,
        ink: 'ink',
        anchor: left ? 'start' : 'end',
        halo: 'sheet',
      });
    }
  }
  return out;
}

function arrow(from: readonly [number, number], to: readonly [number, number]): [number, number][] {
  const l = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
  const [dx, dy] = [(to[0] - from[0]) / l, (to[1] - from[1]) / l];
  return [
    [to[0], to[1]],
    [to[0] - dx * 8 - dy * 4, to[1] - dy * 8 + dx * 4],
    [to[0] - dx * 8 + dy * 4, to[1] - dy * 8 - dx * 4],
  ];
}

/** Compass letters at the panel's edges, so that yard and screen agree. */
function compassLetters(sheet: PanelSheet, small: boolean): Item[] {
  const letter = edges(doc.value.project.collector.placement.facing_deg);
  const at = (x: number, y: number, text: string): Item => ({
    kind: 'text',
    layer: 'text',
    at: [x, y],
    text,
    size: 12,
    weight: 680,
    ink: 'soft',
    anchor: 'middle',
  });
  // a quarter down, where no handle stands; on a phone the tube numbers leave no room there
  const mid = sheet.boxes.reduce((sum, b) => sum + b.y + b.height / 4, 0) / (sheet.boxes.length || 1);
  const y = small ? 18 : mid + 4;
  return [
    at(small ? 14 : 10, y, letter.left),
    at(sheet.width - (small ? 14 : 10), y, letter.right),
    at(sheet.width / 2, sheet.height - 6, letter.bottom),
  ];
}

const withCollector = (d: Doc, collector: Doc['project']['collector']): Doc => ({
  ...d,
  project: { ...d.project, collector },
});

/** The person's own panel: its water, its dimensions, and diamonds that make it longer and wider. */
export function OwnPanel({ pulls = true }: { pulls?: boolean }) {
  const { store } = useApp();
  const { ref, width, height } = useSize<HTMLDivElement>();
  const { project } = doc.value;
  const { collector } = project;
  const now = study.value;
  const small = narrow.value;
  const ready = width > 60 && height > 60;
  const sheet = ready
    ? panelSheet(panelInput(collector), panelData(now, heatScale(now)), {
        width,
        height,
        margin: small
          ? { left: 68, right: 42, top: 76, bottom: 46 }
          : { left: 132, right: 70, top: 84, bottom: 54 },
        dimensionGap: small ? 46 : 50,
        countGap: small ? 50 : 86,
        numberGap: small ? 24 : 27,
        mode: 'heat',
        leastPitch: small ? 7 : 9,
        trueScale: false,
      })
    : null;
  const section = collector.sections[0];
  const bank = section.banks[0];
  const upright = section.direction === 'slope';
  const lengths = bank.kind === 'tubes' ? lengthsOfSticks(project, bank.pipe) : [];
  const anchor = (id: string) => sheet?.anchors.find((a) => a.id === id);
  const lengthText = say(bank.length_m, 'length', units.value);
  const apply = (name: string, next: Doc['project']['collector'], undo: 'commit' | 'drag') =>
    store.apply(name, { doc: withCollector(store.get().doc, next), undo });
  const putLength = (v: number, undo: 'commit' | 'drag') => {
    const { collector: at } = store.get().doc.project;
    if (Math.abs(at.sections[0].banks[0].length_m - v) < 1e-9) return;
    apply(t.steps.length(say(v, 'length', units.value)), setLength(at, null, v), undo);
  };
  const putCount = (v: number, undo: 'commit' | 'drag') => {
    const count = Math.min(MOST_TUBES, Math.max(1, Math.round(v)));
    const { collector: at } = store.get().doc.project;
    if (at.sections[0].banks[0].count === count) return;
    apply(t.steps.count(String(count)), setCount(at, null, count), undo);
  };
  const end = { letGo: () => store.endDrag(), cancel: () => store.cancelDrag() };
  const flows = new Map(
    (now?.flow.result.collector.banks ?? []).flatMap((b) =>
      b.tubes.map((x) => [`${b.section}/${b.id}/${x.position}`, x] as const),
    ),
  );
  const live = [...flows.values()].filter((x) => x.velocity_ms > 0);
  const mean = live.reduce((sum, x) => sum + x.velocity_ms, 0) / (live.length || 1);
  const [lengthAt, countAt] = [anchor('drag-length'), anchor('drag-count')];
  const [lengthChip, countChip] = [anchor('length'), anchor('count')];
  return (
    <div class="canvas own-panel" ref={ref}>
      {sheet !== null && (
        <>
          <Picture
            items={[...sheet.items, ...waterEnds(sheet, small), ...compassLetters(sheet, small)]}
            width={width}
            height={height}
            name="own-panel"
            title={f.home.drawn}
            says={panelSays(project, now, units.value)}
          />
          <WaterMotion
            width={width}
            height={height}
            streams={sheet.tubes.map((s) => {
              const x = flows.get(`${s.section}/${s.bank}/${s.position}`);
              const runs = x !== undefined && (x.state === 'full' || x.state === 'outfall');
              return {
                from: s.from,
                to: s.to,
                width: s.width,
                speed: runs && mean > 0 ? x.velocity_ms / mean : 0,
              };
            })}
          />
          {lengthChip !== undefined && (
            <span class="own-number" style={{ left: `${lengthChip.x}px`, top: `${lengthChip.y}px` }}>
              {lengthText}
            </span>
          )}
          {countChip !== undefined && (
            <span class="own-number" style={{ left: `${countChip.x}px`, top: `${countChip.y}px` }}>
              {small ? bank.count : t.chip.tubes(bank.count)}
            </span>
          )}
          {pulls && lengthAt !== undefined && lengths.length > 0 && (
            <PullHandle
              label={f.panel.length}
              at={lengthAt}
              across={!upright}
              value={bank.length_m}
              min={lengths[0]}
              max={lengths[lengths.length - 1]}
              text={lengthText}
              perPixel={1 / (upright ? sheet.scale.v : sheet.scale.u)}
              pull={(v) => putLength(nearest(lengths, v), 'drag')}
              step={(way) => putLength(beside(lengths, bank.length_m, way), 'commit')}
              {...end}
            />
          )}
          {pulls && countAt !== undefined && (
            <PullHandle
              label={f.panel.count}
              at={countAt}
              across={upright}
              value={bank.count}
              min={1}
              max={MOST_TUBES}
              text={t.chip.tubes(bank.count)}
              perPixel={1 / ((upright ? sheet.scale.u : sheet.scale.v) * spacing_m(bank))}
              pull={(v) => putCount(v, 'drag')}
              step={(way) => putCount(bank.count + way, 'commit')}
              {...end}
            />
          )}
        </>
      )}
    </div>
  );
}
