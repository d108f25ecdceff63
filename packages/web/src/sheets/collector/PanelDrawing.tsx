import { signal } from '@preact/signals';
import type { Item } from '@sunlap/drawing/display';
import { edges } from '@sunlap/drawing/panelPlan';
import { type PanelFrame, type PanelSheet, panelSheet } from '@sunlap/drawing/panelSheet';
import type { SheetTube } from '@sunlap/drawing/sheetTube';
import type { Notice } from '@sunlap/engine/numeric/notice';
import { useApp } from '../../app/context';
import { doc, focus, narrow, reference, study, trueScale, tubeOpen, tubesShow, units } from '../../app/state';
import { neighboursOf } from '../../edits/plumbing';
import { Chip } from '../../parts/Chip';
import { type FieldRow, FieldRows } from '../../parts/FieldRows';
import type { Field } from '../../parts/field';
import { Flag, noteKey, noteOpen } from '../../parts/Notes';
import { Picture } from '../../parts/Picture';
import { useSize } from '../../parts/useSize';
import { WaterMotion } from '../../parts/WaterMotion';
import { heatScale, panelData, panelInput } from '../../shape/panelInput';
import { say } from '../../shape/quantity';
import { t } from '../../text/catalogue';
import { p } from '../../text/pieces';
import { DragHandle } from './DragHandle';
import { HeaderEnds } from './HeaderEnds';
import { panelSays } from './says';

export const scaleText = signal('');

function frameFor(width: number, height: number, small: boolean, only: string | null): PanelFrame {
  return {
    width,
    height,
    margin: small
      ? { left: 82, right: 52, top: 84, bottom: 50 }
      : { left: 186, right: only === null ? 96 : 150, top: 92, bottom: 56 },
    dimensionGap: small ? 56 : 58,
    countGap: small ? 62 : 96,
    numberGap: only === null || small ? 25 : 52,
    mode: tubesShow.value,
    leastPitch: small ? 9 : 12,
    trueScale: trueScale.value,
    ...(only === null ? {} : { only }),
  };
}

/** Words at the ends where water comes and goes, and at the edges of the compass. */
function labels(sheet: PanelSheet, width: number, height: number, small: boolean): Item[] {
  const { collector } = doc.value.project;
  const out: Item[] = [];
  const next = neighboursOf(collector.plumbing);
  const heat = study.value?.heat?.result;
  const names = (ids: string[]) =>
    ids.map((id) => collector.sections.find((s) => s.id === id)?.id ?? id).join(', ');
  for (const s of collector.sections) {
    const n = next.get(s.id);
    const first = s.banks[0].id;
    const last = s.banks[s.banks.length - 1].id;
    const here = heat?.banks.filter((b) => b.section === s.id) ?? [];
    for (const e of sheet.ends) {
      const inlet = e.section === s.id && e.bank === first && e.header === 'supply';
      const outlet = e.section === s.id && e.bank === last && e.header === 'gather';
      if (!e.open || !(inlet || outlet)) continue;
      const ids = (inlet ? n?.from : n?.to) ?? [];
      const where = ids.includes('pool')
        ? inlet
          ? t.ends.fromPool
          : t.ends.toPool
        : inlet
          ? t.ends.fromSection(names(ids))
          : t.ends.toSection(names(ids));
      const t_C = inlet
        ? here.find((b) => b.id === first)?.inlet_C
        : here.find((b) => b.id === last)?.outlet_C;
      const value = t_C === undefined ? '' : ` ${say(t_C, 'temperature', units.value)}`;
      const vertical = Math.abs(e.outward[1]) > Math.abs(e.outward[0]);
      const box = sheet.boxes.find((b) => b.id === s.id);
      const leftSide = box === undefined || e.at[0] < box.x + box.width / 2;
      const far = small && sheet.boxes.length > 1;
      if (far) continue;
      out.push({
        kind: 'text',
        layer: 'text',
        at: vertical
          ? [e.at[0] + (leftSide ? 16 : -16), e.at[1] + e.outward[1] * 30 + 4]
          : [e.at[0] + e.outward[0] * 20, e.at[1] + (e.header === 'supply' ? 24 : -18)],
        text: where + value,
        size: small ? 11.5 : 12.5,
        weight: 550,
        ink: 'ink',
        anchor: vertical ? (leftSide ? 'start' : 'end') : e.outward[0] > 0 ? 'start' : 'end',
        halo: 'sheet',
      });
    }
  }
  const letter = edges(collector.placement.facing_deg);
  const box = sheet.boxes.reduce(
    (a, b) => ({
      x0: Math.min(a.x0, b.x),
      y0: Math.min(a.y0, b.y),
      x1: Math.max(a.x1, b.x + b.width),
      y1: Math.max(a.y1, b.y + b.height),
    }),
    { x0: width, y0: height, x1: 0, y1: 0 },
  );
  const mid = (box.y0 + box.y1) / 2;
  const edge = (x: number, y: number, text: string): Item => ({
    kind: 'text',
    layer: 'text',
    at: [x, y],
    text,
    size: 12.5,
    weight: 680,
    ink: 'soft',
    anchor: 'middle',
  });
  out.push(
    edge(small ? 14 : 22, small ? 24 : mid + 4, letter.left),
    edge(width - (small ? 14 : 22), small ? 24 : mid + 4, letter.right),
  );
  if (sheet.boxes.length > 1)
    for (const b of sheet.boxes)
      out.push({
        kind: 'text',
        layer: 'text',
        at: [b.x + b.width - 26, b.y + b.height + (small ? 20 : 22)],
        text: b.id,
        size: 13,
        weight: 680,
        ink: 'ink',
        anchor: 'middle',
        halo: 'sheet',
      });
  return out;
}

/** Least and most tube, said on the tube. */
function shareLabels(sheet: PanelSheet): Item[] {
  const banks = study.value?.flow.result.collector.banks ?? [];
  const out: Item[] = [];
  for (const b of banks) {
    const live = b.tubes.filter((x) => x.state === 'full' || x.state === 'outfall');
    if (live.length < 2) continue;
    const low = live.reduce((p, q) => (q.share < p.share ? q : p));
    const high = live.reduce((p, q) => (q.share > p.share ? q : p));
    for (const x of [low, high]) {
      const line = sheet.tubes.find(
        (s) => s.section === b.section && s.bank === b.id && s.position === x.position,
      );
      if (line === undefined) continue;
      const d = Math.round((x.share - 1) * 100);
      if (d === 0) continue;
      const u = Math.min(x.share / 2, 1);
      const way = line.to[0] >= line.from[0] ? 1 : -1;
      out.push({
        kind: 'text',
        layer: 'text',
        at: [
          line.from[0] + (line.to[0] - line.from[0]) * u + way * 8,
          line.from[1] + (line.to[1] - line.from[1]) * u + 4,
        ],
        text: `${d > 0 ? '+' : '−'}${Math.abs(d)} %`,
        size: 11.5,
        weight: 550,
        ink: 'ink',
        anchor: way > 0 ? 'start' : 'end',
        halo: 'sheet',
      });
    }
  }
  return out;
}

/** Where on the drawing a place in the file lies. */
function placeOf(path: string, sheet: PanelSheet): { x: number; y: number } | null {
  const found = /^\/collector\/sections\/(\d+)(?:\/banks\/(\d+))?/.exec(path);
  if (found === null) return null;
  const section = doc.value.project.collector.sections[Number(found[1])];
  if (section === undefined) return null;
  const bank = found[2] === undefined ? undefined : section.banks[Number(found[2])];
  const tubes = sheet.tubes.filter(
    (s) => s.section === section.id && (bank === undefined || s.bank === bank.id),
  );
  if (tubes.length === 0) return null;
  const t0 = tubes[Math.floor(tubes.length / 2)];
  return { x: t0.from[0] * 0.22 + t0.to[0] * 0.78, y: t0.from[1] * 0.22 + t0.to[1] * 0.78 };
}

function nearestTube(sheet: PanelSheet, x: number, y: number): SheetTube | null {
  let best: SheetTube | null = null;
  let least = 14;
  for (const tube of sheet.tubes) {
    const [dx, dy] = [tube.to[0] - tube.from[0], tube.to[1] - tube.from[1]];
    const l2 = dx * dx + dy * dy || 1;
    const u = Math.max(0, Math.min(1, ((x - tube.from[0]) * dx + (y - tube.from[1]) * dy) / l2));
    const d = Math.hypot(x - tube.from[0] - dx * u, y - tube.from[1] - dy * u);
    if (d < least) {
      least = d;
      best = tube;
    }
  }
  return best;
}

function AirKey() {
  const tubes = study.value?.flow.result.collector.banks.flatMap((b) => b.tubes) ?? [];
  if (!tubes.some((x) => x.air === 'holds' || x.state !== 'full')) return null;
  return (
    <span class="air-key">
      <svg width="10" height="10" viewBox="0 0 10 10" aria-hidden="true">
        <circle cx="5" cy="5" r="3.4" fill="none" stroke="currentColor" />
      </svg>
      {t.tube.air.holds}
    </span>
  );
}

function HeatKey() {
  const scale = heatScale(study.value);
  if (study.value?.heat === null || study.value === null) return null;
  const say1 = (v: number) => say(v, 'temperature', units.value);
  return (
    <div class="heat-key">
      <span>{say1(scale.low_C)}</span>
      <span class="heat-ramp" aria-hidden="true" />
      <span>{say1(scale.high_C)}</span>
    </div>
  );
}

export function PanelDrawing({
  fields,
  more,
  notices,
}: {
  fields: readonly Field[];
  more: readonly FieldRow[];
  notices: readonly Notice[];
}) {
  const { store } = useApp();
  const { ref, width, height } = useSize<HTMLDivElement>();
  const small = narrow.value;
  const { collector } = doc.value.project;
  const only = collector.sections.some((s) => s.id === focus.value) ? focus.value : null;
  const field = (id: string) => fields.find((f) => f.id === id);
  const now = study.value;
  const scale = heatScale(now);
  const ready = width > 40 && height > 40;
  const frame = frameFor(width, height, small, only);
  const sheet = ready
    ? panelSheet(panelInput(collector), panelData(now, scale), {
        ...frame,
        ...(reference.value === null ? {} : { ghost: panelInput(reference.value.doc.project.collector) }),
      })
    : null;
  if (sheet !== null) {
    const per = (v: number) => String(Math.round(1 / (v * 0.0002645833)));
    const upright = collector.sections.every(
      (s) => (only !== null && s.id !== only) || s.direction === 'slope',
    );
    const along = upright ? sheet.scale.v : sheet.scale.u;
    const across = upright ? sheet.scale.u : sheet.scale.v;
    const text =
      Math.abs(along / across - 1) < 0.02 ? t.read.scale(per(along)) : t.read.scales(per(along), per(across));
    if (scaleText.peek() !== text) queueMicrotask(() => (scaleText.value = text));
  }
  const banks = now?.flow.result.collector.banks ?? [];
  const speeds = new Map(
    banks.flatMap((b) => b.tubes.map((x) => [`${b.section}/${b.id}/${x.position}`, x] as const)),
  );
  const moving = [...speeds.values()].filter((x) => x.velocity_ms > 0).map((x) => x.velocity_ms);
  const mean = moving.reduce((a, b) => a + b, 0) / (moving.length || 1);
  const coils = collector.sections.some((s) => s.banks.some((b) => b.kind === 'coil'));
  const open = tubeOpen.value;
  const marked = sheet?.tubes.find(
    (s) =>
      open !== null && s.section === open.section && s.bank === open.bank && s.position === open.position,
  );
  const at = (id: string) => sheet?.anchors.find((a) => a.id === id);
  const chipRow = [
    ...(small ? ['count'] : []),
    ...(coils ? ['length'] : []),
    'tube',
    'pitch',
    'header',
    'passes',
    'nested',
    'sections',
    'joining',
    'direction',
  ];
  const words: Record<string, string> = {
    length: t.loop.word.length,
    tube: t.chip.tube,
    pitch: t.chip.pitch,
    header: t.chip.header,
    nested: t.chip.lie,
    joining: t.chip.join,
    direction: t.chip.runs,
  };
  return (
    <section class="drawing panel-drawing" aria-label={t.picture.panel}>
      <div class="drawing-top">
        <fieldset class="segments" aria-label={t.views.colourBy}>
          {(['heat', 'share'] as const).map((mode) => (
            <button
              key={mode}
              type="button"
              aria-pressed={tubesShow.value === mode}
              onClick={() => {
                tubesShow.value = mode;
              }}
            >
              {t.views[mode]}
            </button>
          ))}
        </fieldset>
        {collector.sections.length > 1 && (
          <fieldset class="segments" aria-label={t.views.part}>
            <button type="button" aria-pressed={only === null} onClick={() => (focus.value = null)}>
              {t.views.all}
            </button>
            {collector.sections.map((s) => (
              <button
                key={s.id}
                type="button"
                aria-pressed={only === s.id}
                aria-label={s.name ?? s.id}
                onClick={() => (focus.value = s.id)}
              >
                {s.id}
              </button>
            ))}
          </fieldset>
        )}
        <label class="tick" title={t.views.trueScaleHint}>
          <input
            type="checkbox"
            checked={trueScale.value}
            onChange={(event) => {
              trueScale.value = event.currentTarget.checked;
            }}
          />
          {t.views.trueScale}
        </label>
        <button
          type="button"
          class="quiet"
          onClick={() => {
            const section = collector.sections.find((s) => s.id === only) ?? collector.sections[0];
            tubeOpen.value = { section: section.id, bank: section.banks[0].id, position: 1 };
          }}
        >
          {t.tube.choose}
        </button>
        <AirKey />
        {tubesShow.value === 'heat' && <HeatKey />}
      </div>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: the button above opens the same card by keyboard */}
      {/* biome-ignore lint/a11y/useKeyWithClickEvents: as above */}
      <div
        class="canvas"
        ref={ref}
        onClick={(event) => {
          if (sheet === null || (event.target as Element).closest('button') !== null) return;
          const box = event.currentTarget.getBoundingClientRect();
          const tube = nearestTube(sheet, event.clientX - box.left, event.clientY - box.top);
          tubeOpen.value =
            tube === null ? null : { section: tube.section, bank: tube.bank, position: tube.position };
        }}
      >
        {sheet !== null && (
          <>
            <Picture
              items={[
                ...sheet.items,
                ...labels(sheet, width, height, small),
                ...(tubesShow.value === 'share' ? shareLabels(sheet) : []),
              ]}
              width={width}
              height={height}
              name="panel"
              title={t.picture.panel}
              says={panelSays(doc.value.project, now, units.value)}
            >
              {marked !== undefined && (
                <line
                  class="tube-marked"
                  x1={marked.from[0]}
                  y1={marked.from[1]}
                  x2={marked.to[0]}
                  y2={marked.to[1]}
                  stroke-width={marked.width + 5}
                />
              )}
            </Picture>
            {tubesShow.value === 'heat' && !coils && (
              <WaterMotion
                width={width}
                height={height}
                streams={sheet.tubes.map((s) => {
                  const x = speeds.get(`${s.section}/${s.bank}/${s.position}`);
                  const flows = x !== undefined && (x.state === 'full' || x.state === 'outfall');
                  return {
                    from: s.from,
                    to: s.to,
                    width: s.width,
                    speed: flows && mean > 0 ? x.velocity_ms / mean : 0,
                  };
                })}
              />
            )}
            {at('length') !== undefined && <Chip field={field('length')} at={at('length')} />}
            {!small && <Chip field={field('count')} at={at('count')} />}
            {!small && <DragHandle what="length" sheet={sheet} field={field('length')} store={store} />}
            <DragHandle what="count" sheet={sheet} field={field('count')} store={store} />
            {small && <DragHandle what="length" sheet={sheet} field={field('length')} store={store} />}
            <HeaderEnds sheet={sheet} all={only !== null || collector.sections.length === 1} small={small} />
            {notices.map((n, i) => {
              const place = placeOf(n.path, sheet);
              const isOpen = noteOpen.value === noteKey(n);
              return place === null || (i > 2 && !isOpen) ? null : (
                <button
                  key={noteKey(n)}
                  type="button"
                  class="flag-button"
                  aria-label={`${i + 1}: ${n.message}`}
                  style={{ left: `${place.x + (i % 3) * 26}px`, top: `${place.y}px` }}
                  onClick={() => {
                    noteOpen.value = isOpen ? null : noteKey(n);
                  }}
                >
                  <Flag n={i + 1} open={isOpen} />
                </button>
              );
            })}
          </>
        )}
      </div>
      <div class="chip-row">
        {chipRow.map((id) => (
          <Chip key={id} field={field(id)} word={words[id]} />
        ))}
      </div>
      <details class="schedule">
        <summary>{p.parts}</summary>
        <FieldRows rows={more} />
      </details>
    </section>
  );
}
