import { pumpPlot } from '@sunlap/drawing/pumpPlot';
import { narrow, referenceStudy, study, units } from '../../app/state';
import { Picture } from '../../parts/Picture';
import { useSize } from '../../parts/useSize';
import { say, show } from '../../shape/quantity';
import { t } from '../../text/catalogue';
import { loopText } from '../../text/loop';

/** The pump's curve against the loop with the collector in and out. */
export function PumpPlot() {
  const { ref, width } = useSize<HTMLDivElement>();
  const now = study.value;
  const u = units.value;
  const r = now?.flow.result;
  const held = referenceStudy.value?.flow.result;
  const height = narrow.value ? 260 : 236;
  const plain = (text: string) => text.replace(/\.0+$/, '');
  const sheet =
    r === undefined || width < 80
      ? null
      : pumpPlot(
          {
            pump: r.loop.pumpCurve,
            through: r.loop.curveThrough,
            now: r.loop.curveNow,
            past: r.loop.curvePast,
            operating: { flow_m3s: r.flow_m3s, head_m: r.pump.head_m },
            ...(held === undefined
              ? {}
              : {
                  ghost: {
                    pump: held.loop.pumpCurve,
                    operating: { flow_m3s: held.flow_m3s, head_m: held.pump.head_m },
                  },
                }),
          },
          {
            width,
            height,
            flowText: (v) => plain(show(v, 'flow', u).number),
            headText: (v) => plain(show(v, 'head', u).number),
            flowUnit_m3s: u === 'us' ? 6.30902e-5 : 1 / 60000,
            headUnit_m: u === 'us' ? 0.3048 : 1,
            words: {
              pump: loopText.pump,
              through: loopText.through,
              now: loopText.now,
              past: loopText.past,
              flow: `${loopText.flow}, ${show(0.001, 'flow', u).unit}`,
              head: `${loopText.headAxis}, ${show(1, 'head', u).unit}`,
            },
          },
        );
  return (
    <div class="plot" ref={ref}>
      {sheet !== null && r !== undefined && (
        <Picture
          items={sheet.items}
          width={sheet.width}
          height={sheet.height}
          name="plot"
          title={t.picture.plot}
          says={`${t.read.pumpFlow} ${say(r.flow_m3s, 'flow', u)} ${t.read.pumpHead} ${say(r.pump.head_m, 'head', u)}.`}
        />
      )}
    </div>
  );
}
