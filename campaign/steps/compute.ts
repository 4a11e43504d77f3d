/** The steps of a campaign in order: readings to holes, samples, dates, points, curve. Pure, seeded, remembered. */
import type { Campaign } from '@stillstand/campaign/document';
import { bySeverity, type Problem, problem } from '@stillstand/campaign/problems';
import type { HoleResult, Results } from '@stillstand/campaign/results';
import { linkHoles } from '@stillstand/science/rig';
import { sectionThrough } from '@stillstand/science/survey';
import { agesAgainstDepth } from './age-depth.ts';
import { dateAll, type Published } from './dates.ts';
import { bringHeightsTogether } from './heights.ts';
import { type ModelledHole, modelHole, rivalResults } from './holes.ts';
import { makePoints } from './points.ts';
import { type Memo, stepRunner } from './runner.ts';
import { placeSamples, placeUnits } from './samples.ts';
import { type CurveLook, seaLevel } from './sea-level.ts';
import { readSettings } from './settings.ts';
import { outOfOrder } from './succession.ts';
import { tideOrder } from './tide-order.ts';
import type { Trace } from './trace.ts';

/** Changes whenever a number can change, so that no memo and no results file outlives its computation. */
export const COMPUTATION = '2';

export interface Computation {
  results: Results;
  trace: Trace;
  /** Steps computed anew and steps remembered. */
  count: { computed: number; remembered: number };
}

export interface ComputeOptions {
  /** False leaves the curve out: everything else is computed. */
  withCurve: boolean;
  /** Kept by the caller between computations; an edit then recomputes only what hangs on it. */
  memo?: Memo;
  /** Hears of the curve's progress; may throw to give the computation up, the memo then keeps what was done. */
  onProgress?: (done: number, of: number) => void;
  /** A curve to look at while the real one is computed, in its place. */
  look?: CurveLook;
}

/**
 * Computes a campaign. `found` are the problems of reading and parsing; they come back with those of the steps, the
 * gravest first. Never throws for bad input: what a problem makes impossible is left out, the rest is computed.
 */
export function computeCampaign(
  campaign: Campaign,
  published: Published,
  found: readonly Problem[],
  options: ComputeOptions,
): Computation {
  const run = stepRunner(COMPUTATION, options.memo ?? new Map());
  const { settings, problems: settingProblems } = readSettings(campaign.rows.settings);
  const heights = bringHeightsTogether(run, campaign, settings.datum);
  const holes = new Map<string, ModelledHole>();
  for (const row of campaign.rows.holes) {
    holes.set(row.hole, modelHole(run, campaign, heights, settings, row));
  }
  const samples = placeSamples(run, campaign, heights, holes);
  const dates = dateAll(run, campaign, published, settings.curve.age_range_cal_bp);
  const points = makePoints(run, campaign, heights, samples, dates, settings.lean_percent);
  const sea = options.withCurve
    ? seaLevel(run, points.made, settings, heights.datum, options.onProgress, options.look ?? null)
    : { curve: null, problems: [] };

  // Nothing of it enters the curve: it comes with the whole one, so that a look never waits for it.
  const agesBetween =
    options.withCurve && options.look === undefined
      ? agesAgainstDepth(run, campaign, settings, holes, samples, dates)
      : { made: [], problems: [] };
  const units = new Map([...holes.values()].map((hole) => [hole.row.hole, placeUnits(campaign, hole)]));
  const problems = bySeverity([
    ...found,
    ...settingProblems,
    ...heights.problems,
    ...[...holes.values()].flatMap((hole) => [
      ...hole.problems,
      ...(units.get(hole.row.hole)?.problems ?? []),
    ]),
    ...linkProblems(campaign),
    ...tideOrder(campaign),
    ...samples.problems,
    ...dates.problems,
    ...outOfOrder(campaign, samples, dates),
    ...points.problems,
    ...sea.problems,
    ...agesBetween.problems,
  ]);
  const places = sectionThrough(
    [...holes.values()].map(({ row }) =>
      row.latitude_deg === null || row.longitude_deg === null
        ? null
        : { latitude_deg: row.latitude_deg, longitude_deg: row.longitude_deg },
    ),
  );
  const holeResults = [...holes.values()].map((hole, i): HoleResult => {
    const described = units.get(hole.row.hole)?.units ?? [];
    return {
      ...hole.result,
      section_m: places[i]?.along_m ?? null,
      units: described,
      rivals: rivalResults(hole.core, described),
    };
  });
  const dated = new Set(campaign.rows.determinations.map((row) => row.sample));
  const components = new Map(points.made.map((m) => [m.value.result.sample, m.value.result.components]));
  const results: Results = {
    format: 'stillstand-results',
    version: 2,
    computation: COMPUTATION,
    name: campaign.name,
    seed: settings.seed,
    inputs: run.everything(),
    datum: { label: heights.datum.label, epoch: heights.datum.epoch },
    problems,
    holes: holeResults,
    samples: [...samples.of.values()].map(({ value }) => ({
      ...value.result,
      dated: dated.has(value.row.sample),
      components: components.get(value.row.sample) ?? [],
    })),
    dates: [...dates.of.entries()].flatMap(([id, { value }]) =>
      id.startsWith('pooled:') ? [] : [value.result],
    ),
    age_depth: agesBetween.made,
    points: points.made.map((m) => m.value.result),
    undated: points.undated,
    curve: sea.curve?.value ?? null,
    settings: settings.listed,
  };
  return { results, trace: run.trace(), count: run.count };
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
            ? 'the hole beside it that replaces it, if there is one'
            : 'a lost hole, and the distance from it that the positions give',
        mend:
          rows[i]!.replaces === null
            ? 'Name this hole in `replaces` of the new one; nothing need be done where there is none.'
            : 'Correct the link, the offset or the position; depths and heights do not hang on it.',
      }),
    ),
  );
}
