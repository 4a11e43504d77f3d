/** The steps of a campaign in order: readings to holes, samples, dates, points, curve. Pure, seeded, remembered. */

import { chainProblems } from '@stillstand/campaign/chain';
import type { Campaign } from '@stillstand/campaign/document';
import {
  gearProblems,
  instrumentProblems,
  pipeProblems,
  positionOf,
  positionProblems,
  riskProblems,
  safetyProblems,
  targetProblems,
} from '@stillstand/campaign/holes';
import { bySeverity, type Problem, problem } from '@stillstand/campaign/problems';
import type { Results } from '@stillstand/campaign/results';
import { readSettings } from '@stillstand/campaign/settings';
import { linkHoles } from '@stillstand/science/rig';
import { sectionThrough } from '@stillstand/science/survey';
import { agesAgainstDepth } from './ages/age-depth.ts';
import { type Dates, dateAll, factorsAtHand, type Published, publishedCurve } from './ages/dates.ts';
import { withEvents } from './ages/events.ts';
import { leadProfiles } from './ages/lead-profiles.ts';
import { questions } from './ages/questions/questions.ts';
import { withSequences } from './ages/sequences.ts';
import { outOfOrder } from './ages/succession.ts';
import { environments } from './environments/environments.ts';
import { bringHeightsTogether } from './heights/heights.ts';
import { siteLevels } from './heights/site-levels.ts';
import { tideOrder } from './heights/tide-order.ts';
import { correlations } from './hole/correlations.ts';
import { expectations } from './hole/expectations.ts';
import { holeResult } from './hole/hole-result.ts';
import { type ModelledHole, modelHole } from './hole/holes.ts';
import { placeMeasurements } from './hole/measurements.ts';
import { placePhotographs } from './hole/photographs.ts';
import { datesByHole, neverMeasured, proposals } from './hole/proposals.ts';
import { placeSamples } from './hole/samples.ts';
import { placedUnits, unitResults } from './hole/units.ts';
import { laboratory } from './laboratory/laboratory.ts';
import { digest } from './runner/digest.ts';
import { type Memo, stepRunner } from './runner/runner.ts';
import type { Known, LongJob } from './runner/step.ts';
import type { Trace } from './runner/trace.ts';
import { type CurveInput, curveInputs } from './sea/curve-input.ts';
import { gaugeMeans } from './sea/gauge-means.ts';
import { curvesBeside } from './sea/other-curves.ts';
import { type MadePoint, makePoints } from './sea/points.ts';
import { publishedPoints } from './sea/published-points.ts';
import { ratesCompared, seaLevel } from './sea/sea-level.ts';
import { sections } from './section/sections.ts';

/** Changes whenever a number can change, so that no memo and no results file outlives its computation. */
export const COMPUTATION = '10';

export interface Computation {
  results: Results;
  trace: Trace;
  /** What the curve of the report is computed from, for whoever wants to look at it before it is; null where there can be none. */
  curveInput:
    | (Pick<CurveInput, 'points'> & { settings: CurveInput['settings']['value']; key: string })
    | null;
  /** Steps computed and steps remembered. */
  count: { computed: number; remembered: number };
}

export interface ComputeOptions {
  /** False leaves the curve out, and ages against depth: everything else is computed. */
  withCurve: boolean;
  /** Kept by the caller between computations; an edit then recomputes only what depends on it. */
  memo?: Memo | null;
  /** Hears of the curve's progress; may throw to give the computation up, the memo then keeps what was done. */
  onProgress?: (done: number, of: number) => void;
  /**
   * Long steps that the memo does not have are put here instead of being computed, and left out of the results. Once
   * each is done (`doLongJob`) and its result in the memo under its key, the same computation is whole.
   */
  later?: LongJob[] | undefined;
  /** For tests of the memo alone: which inputs of a step its keys leave out. */
  forgets?: (step: string, input: string) => boolean;
}

/**
 * Computes a campaign. `found` are the problems of reading and parsing; they come back with those of the steps, the
 * gravest first. Never throws for bad input: what a problem makes impossible is left out, the rest is computed.
 */
export function computeCampaign(
  campaign: Campaign,
  published: Published,
  found: readonly Problem[],
  { withCurve, memo = null, onProgress, later, forgets }: ComputeOptions,
): Computation {
  const run = stepRunner({ computation: COMPUTATION, memo, onProgress, later, forgets });
  const { settings, problems: settingProblems } = readSettings(campaign.rows.settings);
  const heights = bringHeightsTogether(run, campaign, settings.datum);
  const holes = new Map<string, ModelledHole>();
  for (const row of campaign.rows.holes) {
    holes.set(row.hole, modelHole(run, campaign, heights, settings, row));
  }
  const samples = placeSamples(run, campaign, heights, holes);
  const measurements = placeMeasurements(run, campaign, holes, samples);
  const measured = laboratory(run, campaign, measurements.placed, settings.grain_size_scale);
  const leads = leadProfiles(run, campaign, measurements.made, settings.seed);
  const photographs = placePhotographs(run, campaign, holes);
  const dates = withSequences(
    run,
    campaign,
    withEvents(
      run,
      campaign,
      dateAll(run, campaign, published, settings.curve.age_range_cal_bp, {
        named: factorsAtHand(published, settings.dose_factors),
        depthOf: (sample) => samples.of.get(sample)?.value.depth_m ?? null,
      }),
    ),
  );
  const tides = siteLevels(run, campaign, heights);
  const sites = new Map(campaign.rows.sites.map((site) => [site.site, site.name]));
  const places = sectionThrough([...holes.values()].map(({ row }) => positionOf(row)));
  const described = [...holes.values()].map((hole, i) => {
    const { units, problems } = placedUnits(run, campaign, hole);
    const siteName = hole.row.site === null ? null : (sites.get(hole.row.site) ?? null);
    const along_m = places[i]?.along_m ?? null;
    const result = holeResult(run, hole, siteName, unitResults(hole, units), along_m);
    return { hole, problems: [...hole.problems, ...problems], result };
  });
  const againstDepth = agesAgainstDepth(
    run,
    campaign,
    settings,
    withCurve,
    leads.of,
    new Map(
      described.map(({ hole, result }) => [hole.row.hole, { hole, bottom_m: result.penetration_m ?? 0 }]),
    ),
    samples,
    dates,
  );
  const points = makePoints(
    run,
    campaign,
    heights,
    tides,
    samples,
    dates,
    againstDepth.of,
    settings.inclination_percent,
  );
  const fromLiterature = publishedPoints(run, campaign, heights, (name) =>
    publishedCurve(run, published, name),
  );
  const gauges = gaugeMeans(run, campaign, heights);
  const forCurves = curveInputs(run, points.made, gauges.made, settings, heights.datum, campaign.rows.sites);
  const [main] = forCurves.inputs;
  const isReady = ({ sites }: CurveInput): boolean =>
    withCurve && !sites.some((site) => points.waiting.has(site));
  const seas = forCurves.inputs.map((input) => ({
    input,
    sea: isReady(input) ? seaLevel(run, input) : null,
  }));
  const beside = curvesBeside(run, campaign, heights, seas[0]?.sea?.curve ?? null);
  const rates_compared =
    settings.compare_rates && main !== undefined && isReady(main) ? ratesCompared(run, main) : [];

  const holeResults = described.map(({ result }) => result);
  const datesOf = datesByHole(campaign, samples, dates);
  const correlated = correlations(campaign, holeResults, datesOf, settings.correlation_years_per_m);
  const proposed = proposals(run, campaign, settings, holeResults, {
    decided: correlated.decided,
    samples,
    measurements: measurements.made,
    dates,
  });
  const expected = expectations(run, campaign, holeResults, {
    correlations: correlated.made,
    proposals: [...proposed.made, ...proposed.across],
    horizons: correlated.horizons,
    histories: againstDepth.made,
    dates: datesOf,
  });
  const drawn = sections(run, campaign, holeResults, {
    correlations: correlated.made,
    offsets_m: new Map(
      described.flatMap(({ result }, i) => {
        const offset_m = places[i]?.offset_m;
        return offset_m === undefined ? [] : [[result.hole, offset_m]];
      }),
    ),
    histories: againstDepth.made,
    dates: datesOf,
  });
  const throughTime = environments(run, campaign, settings, holeResults, {
    againstDepth: againstDepth.of,
    sections: drawn.made,
    curve: seas[0]?.sea?.curve ?? null,
  });
  const problems = bySeverity([
    ...found,
    ...settingProblems,
    ...heights.problems,
    ...described.flatMap((hole) => hole.problems),
    ...correlated.problems,
    ...drawn.problems,
    ...expected.problems,
    ...throughTime.problems,
    ...neverMeasured(campaign, settings, measurements.made),
    ...linkProblems(campaign),
    ...positionProblems(campaign),
    ...targetProblems(campaign),
    ...pipeProblems(campaign),
    ...gearProblems(campaign),
    ...safetyProblems(campaign),
    ...riskProblems(campaign),
    ...instrumentProblems(campaign),
    ...tides.problems,
    ...tideOrder(campaign, tides.made),
    ...chainProblems(campaign),
    ...samples.problems,
    ...measurements.problems,
    ...measured.problems,
    ...leads.problems,
    ...photographs.problems,
    ...dates.problems,
    ...questions(campaign, dates),
    ...outOfOrder(campaign, samples, dates),
    ...points.problems,
    ...fromLiterature.problems,
    ...gauges.problems,
    // What waits for ages of a hole is no curve yet.
    ...forCurves.problems.filter(({ code }) => points.waiting.size === 0 || code !== 'no-curve'),
    ...seas.flatMap(({ sea }) => sea?.problems ?? []),
    ...beside.problems,
    ...againstDepth.problems,
  ]);
  const dated = new Set(campaign.rows.determinations.map((row) => row.sample));
  const components = new Map(points.made.map((m) => [m.value.result.sample, m.value.result.components]));
  const results: Results = {
    format: 'stillstand-results',
    version: 5,
    computation: COMPUTATION,
    campaign: campaign.id,
    name: campaign.name,
    seed: settings.seed,
    inputs: digest([
      COMPUTATION,
      campaign.name,
      campaign.rows,
      campaign.skipped_rows,
      campaign.lines,
      published.curves,
    ]),
    datum: { label: heights.datum.label, kind: heights.datum.kind, epoch: heights.datum.epoch },
    problems,
    holes: holeResults,
    correlations: correlated.made,
    horizons: correlated.horizons,
    correlation_proposals: proposed.made,
    sections: drawn.made,
    expectations: expected.made,
    tides: tides.made,
    samples: [...samples.of.values()].map(({ value }) => ({
      ...value.result,
      dated: dated.has(value.sample),
      components: components.get(value.sample) ?? [],
    })),
    measurements: measurements.made,
    logs: measured.logs,
    grain_sizes: measured.grain_sizes,
    photographs: photographs.made,
    dates: [...dates.of.values()].map(({ value }) => value.result),
    dose_rates: [...dates.rates],
    lead_profiles: leads.made,
    histories: againstDepth.made,
    environments: throughTime.made,
    lines_through_time: throughTime.lines,
    points: points.made.map((m) => m.value.result),
    undated: points.undated,
    published: fromLiterature.made,
    groups: groupsOf(points.made, dates),
    curves: seas.map(({ input, sea }) => ({
      id: input.id,
      role: input === main ? 'headline' : 'of its own',
      sites: input.sites,
      gauges: input.gauges.map(({ value }) => value.result),
      curve: sea?.curve.value ?? null,
      // Other models, other curves and predictions are held against that of the report alone.
      rates_compared: input === main ? rates_compared : [],
      others: input === main ? beside.others : [],
    })),
    settings: settings.listed,
  };
  return {
    results,
    trace: run.trace(),
    curveInput: main === undefined ? null : lookable(main),
    count: run.count,
  };
}

/** Errors that several share, each with those that carry it. */
function groupsOf(made: readonly Known<MadePoint>[], dates: Dates): Results['groups'] {
  const heights = made.flatMap(({ value: { result } }) =>
    result.components.map(({ shared_group }) => ({ id: shared_group, member: result.point })),
  );
  const offsets = [...dates.of.values()].map(({ value: { result } }) => ({
    id: result.delta_r_group,
    member: result.lab_code,
  }));
  const doses = [...dates.of.values()].map(({ value: { result, age } }) => ({
    id: age?.kind === 'normal' ? (age.systematic?.group ?? null) : null,
    member: result.lab_code,
  }));
  return (
    [
      ['height', heights],
      ['delta_r', offsets],
      ['dose', doses],
    ] as const
  ).flatMap(([kind, carried]) =>
    [...Map.groupBy(carried, ({ id }) => id)].flatMap(([id, by]) =>
      id === null ? [] : [{ id, kind, members: [...new Set(by.map(({ member }) => member))] }],
    ),
  );
}

/** The key changes with anything a curve of it depends on. */
function lookable({ points, settings: { value: settings } }: CurveInput): Computation['curveInput'] {
  return {
    points,
    settings,
    get key() {
      return digest([points, settings]);
    },
  };
}

/** What cannot be so, or is not said, of a hole beside a lost one. */
function linkProblems(campaign: Campaign): Problem[] {
  const rows = campaign.rows.holes;
  return linkHoles(rows).flatMap((link, i) =>
    link.doubts.map((found) =>
      problem({
        severity: rows[i]!.replaces === null ? 'note' : 'warning',
        code: 'hole-link',
        table: 'holes',
        row_id: rows[i]!.row_id,
        line: campaign.lines.get(rows[i]!.row_id) ?? null,
        label: link.hole,
        column: 'replaces',
        found,
        expected:
          rows[i]!.replaces === null
            ? 'its replacement hole, if there is one'
            : 'a lost hole, and the distance from it that the positions give',
        fix:
          rows[i]!.replaces === null
            ? 'Name this hole in the new one as the replaced hole; no action needed where there is none.'
            : 'Correct the replaced hole, the distance or the position; depths and elevations do not depend on it.',
      }),
    ),
  );
}
