import { bench, describe } from 'vitest';
import { solvePanel } from '../src/collector/panel';
import { preparePanel } from '../src/collector/panel-prepare';
import { rowFrame } from '../src/collector/row-frame';
import { rowLight } from '../src/collector/row-light';
import { evenRow, rowSight } from '../src/collector/row-sight';
import { conditions, evenFlow, seriesPanel } from '../test/collector/panel-fixture';

const BANKS = 6;
const TUBES = 40;
const layout = seriesPanel(BANKS, TUBES);
const flow = evenFlow(BANKS, TUBES, 1.4);
const warm = preparePanel(layout);
const sun = conditions(layout);
const sky = {
  sunZenith_deg: 35,
  sunAzimuth_deg: 160,
  directNormal_Wm2: 850,
  diffuseHorizontal_Wm2: 90,
  extraterrestrial_Wm2: 1367,
};
const frame = rowFrame(20, 180, 90);
const sight = rowSight(evenRow(BANKS * TUBES, 0.023, 0.02134));
let nudge = 0;

/** The aim beyond flow is 3 ms for 240 tubes: light, surroundings and a cold solution together. */
describe(`heat of ${BANKS} banks × ${TUBES} tubes`, () => {
  bench('a new moment: light on the row, fresh surroundings, cold start', () => {
    rowLight(frame, sight, { absorptance: 0.94, backing: null }, { sky, albedo: 0.2 });
    solvePanel(preparePanel(layout), flow, 27, conditions(layout));
  });
  bench('the same moment, another flow: warm start', () => {
    nudge = (nudge + 1) % 7;
    solvePanel(
      warm,
      flow.map((m) => m * (1 + nudge * 1e-3)),
      27,
      sun,
    );
  });
  bench('another layout: views of 240 tubes', () => {
    rowSight(evenRow(BANKS * TUBES, 0.023, 0.02134));
  });
});
