import { findSky } from '@sunlap/data/skies';
import { type Notice, rankNotices } from '@sunlap/engine/numeric/notice';
import type { WeatherSeries } from '@sunlap/engine/weather/series';
import type { Project } from '@sunlap/project/schema/project';
import { type PanelGeometry, panelGeometry } from '../assembly/geometry';
import { STANDARD_TABLES } from '../assembly/standard-tables';
import { solveFlow } from '../flow/flow-basic';
import { sayIn } from '../flow/say';
import { flowValues } from '../flow/values';
import { hottestDry_C } from '../heat/hottest-dry';
import type { MomentOptions } from '../heat/moment';
import type { Answer, FlowAnswer, HeatAnswer, Moment } from '../results';
import type { SeasonAnswer } from '../season/values';
import { type Fitting, newBag, type Piece } from './bag';
import { type CutSheet, cutSheets } from './cutting';
import { type Gluing, glueLines, gluingOf } from './gluing';
import { type HeaderPlan, headerPlans } from './header-plan';
import { type LifeCard, lifeCards } from './life-cards';
import { addLoopParts } from './loop-parts';
import { type MoneyPlan, moneyPlan } from './money';
import { type BuildOptions, completeOptions } from './options';
import { type Module, modulesOf, type WorkStep, workSteps } from './order-of-work';
import { type PressurePlan, pressurePlan } from './pressure-plan';
import { SHOP_ORDER, type ShopLine, type ShopTotal, shopList, shopTotal } from './shop';
import { type SlopeCase, slopeCases } from './slope-compare';
import { longestStock_m, stockLengths } from './stock-lengths';
import type { Gathering } from './strand';
import { type SupportPlan, supportPlan } from './support-plan';
import { weatherFacts } from './weather-facts';

/** Everything that building and owning a design takes. */
export interface BuildValues {
  readonly scope: 'heater' | 'all';
  readonly pieces: readonly Piece[];
  readonly fittings: readonly Fitting[];
  readonly cutting: readonly CutSheet[];
  readonly shop: readonly ShopLine[];
  readonly shopTotal: ShopTotal;
  readonly currency: string;
  /** First-class counts: labour, and places that can leak. */
  readonly counts: {
    readonly sawCuts: number;
    readonly gluedJoints: number;
    readonly dryJoints: number;
    readonly pipe_m: number;
  };
  readonly gluing: Gluing;
  readonly headers: readonly HeaderPlan[];
  readonly modules: readonly Module[];
  readonly steps: readonly WorkStep[];
  readonly supports: SupportPlan;
  readonly slopes: readonly SlopeCase[];
  readonly pressure: PressurePlan;
  readonly cards: readonly LifeCard[];
  readonly money: MoneyPlan;
  /** Tube length that is a whole stick, nearest to the one drawn; null where it is one. */
  readonly wholeStick_m: number | null;
  readonly volume_m3: number;
}

export type BuildAnswer = Answer<BuildValues>;

/** Studies that are at hand; figures that need them are left out without. */
export interface BuildStudies {
  readonly flow?: FlowAnswer;
  readonly heat?: HeatAnswer;
  /** The year, or how to run it once the price of the parts is known; money is of the moment only without. */
  readonly season?: SeasonAnswer | ((collectorPrice: number) => SeasonAnswer);
  /** Hours of a weather file; the project's climate when absent. */
  readonly weather?: WeatherSeries | null;
}

/**
 * Parts, cutting plan, shop list, headers, order of work, supports, pressure and heat, life cards and money of a design.
 * Never throws for a parsed file: what cannot be built is a notice with its remedy.
 *
 * @example build(project).result.counts.gluedJoints
 */
export function build(project: Project, options: BuildOptions = {}, studies: BuildStudies = {}): BuildAnswer {
  const year = weatherFacts(project, studies.weather);
  const complete = {
    ...completeOptions(options, project),
    coldest_C: options.coldest_C ?? project.build?.coldest_C ?? year.coldest_C,
  };
  const geometry: PanelGeometry = panelGeometry(project.collector, STANDARD_TABLES.sizes);
  const bag = newBag();
  const say = sayIn(project.units);
  const g: Gathering = { bag, options: complete, say, longest_m: (pipe) => longestStock_m(project, pipe) };
  addLoopParts(g, project, geometry);
  const notices: Notice[] = bag.notices;
  const heat = studies.heat ?? null;
  const flow = studies.flow ?? heat?.flow ?? null;
  const dry_C = Math.max(hottestDry_C(project, complete.hottest_C), heat?.result.dryStanding_C ?? -Infinity);
  const headers = headerPlans(g, project, geometry);
  const pressure = pressurePlan(g, project, dry_C, notices);
  const supports = supportPlan(g, project, geometry, dry_C, notices);
  const modules = modulesOf(project, geometry, headers, notices);
  const cutting = cutSheets(bag, project, complete);
  tooLong(cutting, notices, g);
  const gluing = gluingOf(bag, complete);
  const shop = [...shopList(bag, cutting, project, complete), ...glueLines(gluing, project)].sort(
    (a, b) => SHOP_ORDER.indexOf(a.group) - SHOP_ORDER.indexOf(b.group),
  );
  const total = shopTotal(shop);
  const slopes = slopeCases(project, heat ? momentOf(heat.result.moment) : null);
  const drawn = slopes.find((s) => s.which === 'asDrawn');
  const heatNow = heat?.solver.converged ? heat.result.heat_W : null;
  const season = typeof studies.season === 'function' ? studies.season(total.cost) : studies.season;
  const money = moneyPlan(project, total, {
    heatNow_W: heatNow,
    extraPump_W: flow?.solver.converged ? extraPump_W(project, flow.result.pump.power_W) : null,
    season: season ?? null,
    air_C: year.air_C,
  });
  const result: BuildValues = {
    scope: complete.scope,
    pieces: bag.pieces,
    fittings: bag.fittings,
    cutting,
    shop,
    shopTotal: total,
    currency: money.currency,
    counts: {
      sawCuts: cutting.reduce((sum, s) => sum + s.plan.sawCuts, 0),
      gluedJoints: gluing.glued,
      dryJoints: gluing.dry,
      pipe_m: cutting.reduce((sum, s) => sum + s.pipe_m, 0),
    },
    gluing,
    headers,
    modules,
    steps: workSteps(g, project, headers, modules, cutting, supports, gluing),
    supports,
    slopes,
    pressure,
    cards: lifeCards(g, project, {
      volume_m3: geometry.volume_m3,
      flow,
      heat,
      supports,
      stays_m3: (drawn?.litresLeft ?? geometry.volume_m3 * 1000) / 1000,
      staysIn: drawn
        ? placeNames(
            project,
            geometry,
            drawn.holds.map((h) => h.path),
          )
        : ['coils and absorbers'],
      dry_C,
      year,
      fittings: bag.fittings,
      glued: gluing.glued,
      cure_s: gluing.longestCure_s,
    }),
    money,
    wholeStick_m: wholeStick(project),
    volume_m3: geometry.volume_m3,
  };
  const proven = cutting.every((s) => s.plan.proven);
  return {
    result,
    solver: { converged: true, iterations: 0, residual: 0 },
    band: {},
    notices: rankNotices(notices),
    complete: proven,
  };
}

/** The conditions of a study, to study them again. */
function momentOf(m: Moment): MomentOptions {
  const { at, water_C, air_C, dewPoint_C, wind_ms } = m;
  return { at, water_C, air_C, dewPoint_C, wind_ms, sky: findSky(m.sky)?.id ?? m.global_Wm2 };
}

/** Pump power through the collector over that past it [W]; all of it where nothing else runs the pump. */
function extraPump_W(project: Project, through_W: number): number {
  if (project.loop.bypass.kind === 'none') return through_W;
  const past = solveFlow(project, { toCollector: 0 });
  if (!past.solution.converged) return through_W;
  const { assembled, solution, water_C, speed } = past;
  return Math.max(0, through_W - flowValues(project, assembled, solution, water_C, speed).pump.power_W);
}

function tooLong(cutting: readonly CutSheet[], notices: Notice[], g: Gathering): void {
  for (const sheet of cutting)
    for (const i of sheet.plan.tooLong) {
      const piece = sheet.pieces[i];
      if (notices.some((n) => n.code === 'build-longer-than-stock')) continue;
      notices.push({
        code: 'build-longer-than-stock',
        severity: 'damage',
        path: '/prices/parts',
        message: `${piece.labels[0]} needs ${g.say(piece.length_m, 'length')} of ${sheet.label}; no stock length is that long.`,
        remedy: 'Name a longer stock length with its price, allow couplings, or shorten it.',
      });
    }
  for (const sheet of cutting)
    for (const { piece, count } of sheet.plan.short) {
      const { length_m, labels } = sheet.pieces[piece];
      notices.push({
        code: 'build-stock-short',
        severity: 'damage',
        path: '/stock/pipes',
        message: `The ${sheet.label} on hand does not reach: ${count} of ${g.say(length_m, 'length')} (${labels[0]}) cannot be cut from it, and no length on sale is that long.`,
        remedy: 'Find more of that length, name a longer stock length with its price, or allow couplings.',
      });
    }
}

/** Names of banks for pointers of tubes and headers. */
function placeNames(project: Project, geometry: PanelGeometry, paths: readonly string[]): string[] {
  const out = new Set<string>();
  for (const path of paths) {
    const bank = geometry.banks.find((b) => path.startsWith(b.path));
    const spec = bank && project.collector.sections[bank.section].banks[bank.bank];
    const what = /\/(supply|gather)$/.test(path) ? 'headers' : 'tubes';
    out.add(`${what} of ${spec ? (spec.name ?? spec.id) : path}`);
  }
  return [...out];
}

/** Nearest tube length that is a whole stick, where the drawn one is not; coils have none. */
function wholeStick(project: Project): number | null {
  const bank = project.collector.sections.flatMap((s) => s.banks).find((b) => b.kind === 'tubes');
  if (bank?.kind !== 'tubes') return null;
  const sticks = stockLengths(project, bank.pipe).filter((s) => s.per === 'stick');
  if (sticks.length === 0) return null;
  const stick = Math.max(...sticks.map((s) => s.length_m));
  const n = Math.max(1, Math.round(bank.length_m / stick));
  return Math.abs(bank.length_m - n * stick) < 1e-3 ? null : n * stick;
}
