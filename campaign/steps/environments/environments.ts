/** Environments through time: of each hole with ages against depth and a levelled ground, and along the section lines. */
import type { Campaign } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import {
  type EnvironmentResult,
  type HoleHistory,
  type HoleResult,
  type LineThroughTime,
  type SectionResult,
  traceId,
} from '@stillstand/campaign/results';
import type { ComputationSettings } from '@stillstand/campaign/settings';
import type { CurveResult } from '@stillstand/science/curve';
import type { SeaDraws } from '@stillstand/science/environments';
import type { HoleByDepth, NotByDepth } from '../ages/by-depth.ts';
import type { Runner } from '../runner/runner.ts';
import type { Known } from '../runner/step.ts';
import { roundAges } from '../section/times.ts';
import { tellEnvironments, tellLine } from '../words/environments.ts';
import { agesAsked } from './ages.ts';
import { holeInTime, spellings } from './columns.ts';
import { environmentsOfHole } from './of-hole.ts';
import { lineThroughTime } from './of-line.ts';
import { complainOfEdge, complainOfUnsaid } from './unsaid.ts';

export interface ThroughTime {
  made: EnvironmentResult[];
  lines: LineThroughTime[];
  problems: Problem[];
}

/** Nothing where no hole has ages against depth: they are computed where the settings or a point ask for them. */
export function environments(
  run: Runner,
  campaign: Campaign,
  settings: ComputationSettings,
  holes: readonly HoleResult[],
  known: {
    againstDepth: ReadonlyMap<string, HoleByDepth | NotByDepth>;
    sections: readonly SectionResult[];
    /** The curve of the report. */
    curve: Known<CurveResult> | null;
  },
): ThroughTime {
  const aged = holes.flatMap((hole) => {
    const of = known.againstDepth.get(hole.hole);
    const history = of === undefined || typeof of === 'string' ? null : of.history;
    return history === null || hole.ground_elevation_m === null ? [] : [{ hole, history }];
  });
  if (aged.length === 0) return { made: [], lines: [], problems: [] };
  const atOnce = new Set(
    campaign.rows.units.filter((row) => row.event_bed === true).map((row) => row.row_id),
  );
  const written = spellings(holes);
  const ages = run.plain(agesAsked(aged.map(({ history }) => history.value)));
  const sea = known.curve === null ? null : run.plain(drawsOf(known.curve.value));
  const inside = run.plain(settings.edge_inside);
  const parts = known.curve === null ? [] : [known.curve];
  const made = aged.flatMap(({ hole, history }) => {
    const { value } = run.do(
      environmentsOfHole,
      traceId.environments(hole.hole),
      {
        hole: run.plain(holeInTime(hole, 0, atOnce, written)),
        history,
        words: run.plain(
          hole.units.map(({ unit, row_id, sediment }) => ({ unit, unit_row_id: row_id, sediment })),
        ),
        ages_cal_bp: ages,
        inside,
        sea,
      },
      (result) => tellEnvironments(hole.hole, result),
      () => [history, ...unitRows(run, campaign, hole), ...parts],
    );
    return value === null ? [] : [value];
  });
  const lines = known.sections.flatMap((section): LineThroughTime[] => {
    const on = section.holes.flatMap(({ hole, along_m }) => {
      const found = aged.find((each) => each.hole.hole === hole);
      return found === undefined || !made.some((each) => each.hole === hole) ? [] : [{ ...found, along_m }];
    });
    if (on.length === 0) return [];
    const { value } = run.do(
      lineThroughTime,
      traceId.lineThroughTime(section.line),
      {
        holes: run.plain(on.map(({ hole, along_m }) => holeInTime(hole, along_m, atOnce, written))),
        histories: on.map(({ history }) => history),
        ages_cal_bp: ages,
        section_ages_cal_bp: run.plain(
          settings.section_ages.length > 0 ? settings.section_ages : chosenAges(on),
        ),
        inside,
        sea,
      },
      (result) => tellLine(section.line, result),
      () => [...on.map(({ history }) => history), ...parts],
    );
    return [{ line: section.line, row_id: section.row_id, ...value }];
  });
  return {
    made,
    lines,
    problems: [
      ...complainOfUnsaid(
        campaign,
        aged.map(({ hole }) => hole),
      ),
      ...complainOfEdge(
        campaign,
        aged.map(({ hole }) => hole),
      ),
    ],
  };
}

const unitRows = (run: Runner, campaign: Campaign, { hole }: HoleResult) =>
  campaign.rows.units
    .filter((row) => row.hole === hole)
    .map((row) => run.row('units', row, `unit ${row.unit ?? ''}`));

const drawsOf = ({ ages_cal_bp, draws }: CurveResult): SeaDraws => ({ ages_cal_bp, level_m: draws.level_m });

/** Round ages that two holes reach; the section of today is drawn elsewhere. */
const chosenAges = (
  on: readonly { hole: HoleResult; along_m: number; history: Known<HoleHistory> }[],
): number[] =>
  roundAges(
    on.map(({ hole, along_m, history: { value } }) => ({
      hole: hole.hole,
      along_m,
      ages: Array.from(value.age_cal_bp.median, (age_cal_bp) => ({ age_cal_bp, elevation_m: 0 })),
    })),
  ).filter((age_cal_bp) => age_cal_bp > 0);
