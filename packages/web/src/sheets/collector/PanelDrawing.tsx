import { signal } from '@preact/signals';
import { type PanelFrame, panelSheet } from '@sunlap/drawing/panelSheet';
import type { Notice } from '@sunlap/engine/numeric/notice';
import { useApp } from '../../app/context';
import {
  answered,
  doc,
  focus,
  narrow,
  reference,
  study,
  trueScale,
  tubeOpen,
  tubesShow,
  units,
} from '../../app/state';
import { Chip } from '../../parts/Chip';
import { type FieldRow, FieldRows } from '../../parts/FieldRows';
import type { Field } from '../../parts/field';
import { later } from '../../parts/later';
import { Picture } from '../../parts/Picture';
import { useSize } from '../../parts/useSize';
import { heatScale, panelData, panelInput } from '../../shape/panelInput';
import { t } from '../../text/catalogue';
import { loopText } from '../../text/loop';
import { HeaderEnds } from './HeaderEnds';
import { NoteFlags } from './NoteFlags';
import { PanelViews } from './PanelViews';
import { labels, shareLabels } from './panel-labels';
import { nearestTube } from './panel-places';
import { panelSays } from './says';

// what moves comes behind the first answer
const DragHandle = later(async () => (await import('./DragHandle')).DragHandle);
const WaterMotion = later(async () => (await import('../../parts/WaterMotion')).WaterMotion);

export const scaleText = signal('');

function frameFor(width: number, height: number, small: boolean, only: string | null): PanelFrame {
  return {
    width,
    height,
    margin: small
      ? { left: 82, right: 52, top: 94, bottom: 50 }
      : { left: 186, right: only === null ? 96 : 150, top: 92, bottom: 56 },
    dimensionGap: small ? 65 : 58,
    countGap: small ? 62 : 96,
    numberGap: only === null || small ? 25 : 52,
    mode: tubesShow.value,
    leastPitch: small ? 9 : 12,
    trueScale: trueScale.value,
    ...(only === null ? {} : { only }),
  };
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
    length: loopText.word.length,
    tube: t.chip.tube,
    pitch: t.chip.pitch,
    header: t.chip.header,
    nested: t.chip.lie,
    joining: t.chip.join,
    direction: t.chip.runs,
  };
  return (
    <section class="drawing panel-drawing" aria-label={t.picture.panel}>
      <PanelViews only={only} />
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
            {answered.value && tubesShow.value === 'heat' && !coils && (
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
            {answered.value && !small && (
              <DragHandle what="length" sheet={sheet} field={field('length')} store={store} />
            )}
            {answered.value && <DragHandle what="count" sheet={sheet} field={field('count')} store={store} />}
            {answered.value && small && (
              <DragHandle what="length" sheet={sheet} field={field('length')} store={store} />
            )}
            <HeaderEnds sheet={sheet} all={only !== null || collector.sections.length === 1} small={small} />
            <NoteFlags notices={notices} sheet={sheet} />
          </>
        )}
      </div>
      <div class="chip-row">
        {chipRow.map((id) => (
          <Chip key={id} field={field(id)} word={words[id]} />
        ))}
      </div>
      <details class="schedule">
        <summary>{t.views.parts}</summary>
        <FieldRows rows={more} />
      </details>
    </section>
  );
}
