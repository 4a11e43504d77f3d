/** Tide levels of a site that are computed from a gauge, as the table `tide_reductions` asks for them. */
import type { Campaign } from '@stillstand/campaign/document';
import { traceId } from '@stillstand/campaign/results';
import { momentOf, type Row, TIDE_LEVELS } from '@stillstand/campaign/tables';
import { inQuadrature } from '@stillstand/science/base';
import type { SiteTideLevel } from '@stillstand/science/points';
import {
  constituentNamed,
  formNumber,
  type ObservedLevels,
  observedLevels,
  type PredictedLevels,
  predictedLevels,
  type TidalConstant,
} from '@stillstand/science/tide';
import { type Complain, complaints } from '../complaint.ts';
import type { Runner } from '../runner/runner.ts';
import { type Known, step, type Traced } from '../runner/step.ts';
import { tellConstants, tellReadings, tellZero } from '../words/tide.ts';
import { gaugeRecords } from './gauge-record.ts';
import { type GaugeZero, gaugeZero } from './gauge-zero.ts';
import type { CampaignDatum, Heights } from './heights.ts';

type Reduction = Row<'tide_reductions'>;

export interface ComputedLevel extends SiteTideLevel {
  sigma_m: number;
  row: Reduction;
  method: 'constants' | 'means';
  /** How, for the trace. */
  how: string;
  /** What it is made of. */
  parts: readonly Traced[];
}

/** Above what the tide swings about: an edit of the zero computes nothing again. */
const ofConstants = step(
  'tide levels of constants',
  ({ constants, first_year }: { constants: readonly TidalConstant[]; first_year: number }) =>
    predictedLevels({ mean_m: 0, constants }, first_year),
);

/** Above the zero of the gauge. */
const ofReadings = step(
  'tide levels of readings',
  ({ record }: { record: { time_ms: readonly number[]; height_m: readonly number[] } }): ObservedLevels =>
    observedLevels(record),
);

/** Conventions of semidiurnal tides; no use where the tide is mixed (form number above 0.25, or none). */
const SEMIDIURNAL: ReadonlySet<string> = new Set(['MHWS', 'MHWN', 'MLWN', 'MLWS']);
const DAY_MS = 86_400_000;
/** Nineteen years about today's sea where the datum has no epoch of its own. */
const USUAL_FIRST_YEAR = 2002;

/**
 * Levels of every site on the campaign datum, by its label; of two rows that give a level the first counts. `stated`: the
 * level of that name as entered for the site, on the campaign datum.
 */
export function computedLevels(
  run: Runner,
  campaign: Campaign,
  heights: Heights,
  stated: (site: string, level: string) => Known<SiteTideLevel> | null,
) {
  const { rows } = campaign;
  const asked = complaints<Reduction>(campaign, 'tide_reductions', (row) => `${row.site} from ${row.gauge}`);
  const zeros = complaints<Row<'gauges'>>(campaign, 'gauges', (row) => row.gauge);
  const records = rows.tide_reductions.length === 0 ? [] : gaugeRecords(campaign);
  const bySite = new Map<string, ComputedLevel[]>();
  for (const row of rows.tide_reductions) {
    const gauge = rows.gauges.find(({ gauge: label }) => label === row.gauge);
    if (gauge === undefined) continue;
    const of = { run, campaign, heights, row, gauge, complain: asked.complain };
    const zeroOf = (): GaugeZero | null =>
      gaugeZero(gauge, heights, zeros.complain, `No tide levels of ${row.site} are computed until then.`);
    const record = records.find(({ gauge: label }) => label === row.gauge);
    const made =
      row.method === 'means'
        ? fromReadings(of, zeroOf, record)
        : fromConstants(of, zeroOf, stated(row.site, 'MSL'));
    const known = bySite.get(row.site) ?? [];
    bySite.set(row.site, [
      ...known,
      ...made.filter(({ level }) => known.every((before) => before.level !== level)),
    ]);
  }
  return {
    of: (site: string): readonly ComputedLevel[] => bySite.get(site) ?? [],
    problems: [...asked.problems, ...zeros.problems],
  };
}

interface Asked {
  run: Runner;
  campaign: Campaign;
  heights: Heights;
  row: Reduction;
  gauge: Row<'gauges'>;
  complain: Complain<Reduction>;
}

function fromConstants(
  { run, campaign, heights, row, gauge, complain }: Asked,
  zeroOf: () => GaugeZero | null,
  MSL: Known<SiteTideLevel> | null,
): ComputedLevel[] {
  const all = campaign.rows.constituents.filter((each) => each.gauge === row.gauge);
  const constants = all.filter((each) => !isMean(each));
  const unknown = constants.filter(({ constituent }) => constituentNamed(constituent) === null);
  if (constants.length === unknown.length) {
    complain(
      row,
      'tide-reduction-without-constants',
      'gauge',
      `no tidal constants of ${row.gauge}`,
      'tidal constants of the gauge',
      `Enter them, or find them in its readings. No tide levels of ${row.site} are computed until then.`,
    );
    return [];
  }
  if (unknown.length > 0)
    complain(
      row,
      'tide-constants-unknown',
      'gauge',
      unknown.map(({ constituent }) => constituent).join(', '),
      'constituents that can be predicted with',
      'Check their names. The levels are computed without them.',
      'note',
    );
  const mean = meanLevel({ run, heights, row, gauge, complain }, all.find(isMean) ?? null, zeroOf, MSL);
  if (mean === null) return [];
  const first_year = firstYear(row, heights.datum);
  const levels = run.untold(ofConstants, {
    constants: run.plain(
      constants.map(({ constituent, amplitude_m, phase_deg, amplitude_sigma_m, phase_sigma_deg }) => ({
        constituent,
        amplitude_m,
        phase_deg,
        amplitude_sigma_m,
        phase_sigma_deg,
      })),
    ),
    first_year: run.plain(first_year),
  }).value as PredictedLevels | null;
  if (levels === null) return [];
  const isMixed = !(formNumber(constants) <= 0.25);
  const parts = [
    run.row('tide_reductions', row, `tide levels of ${row.site} from ${row.gauge}`),
    run.part(
      traceId.gaugeLevels(row.gauge, row.site, 'constants'),
      null,
      tellConstants(row.gauge, constants.length - unknown.length, first_year),
      all.map((each) => run.row('constituents', each, `${each.constituent} of ${row.gauge}`)),
    ),
    ...mean.parts,
  ];
  return TIDE_LEVELS.filter((level) => !(isMixed && SEMIDIURNAL.has(level))).map((level) => ({
    level,
    elevation_m: mean.elevation_m + levels[`${level}_m`],
    sigma_m: inQuadrature(levels.sigma_m[level], mean.sigma_m),
    row,
    method: 'constants',
    how: `prediction over 19 years from ${first_year}`,
    parts,
  }));
}

const isMean = ({ constituent }: { constituent: string }): boolean =>
  constituent.trim().toUpperCase() === 'Z0';

/** The year of the first day, else that of the datum's epoch. */
const firstYear = ({ from }: Reduction, { epoch }: CampaignDatum): number =>
  from !== null ? Number(from.slice(0, 4)) : epoch !== null ? Number.parseInt(epoch, 10) : USUAL_FIRST_YEAR;

/** What the tide swings about: Z0 above the gauge's zero, else MSL as stated for the site, else the zero of such a datum. */
function meanLevel(
  { run, heights, row, gauge, complain }: Omit<Asked, 'campaign'>,
  Z0: Row<'constituents'> | null,
  zeroOf: () => GaugeZero | null,
  MSL: Known<SiteTideLevel> | null,
): { elevation_m: number; sigma_m: number; parts: readonly Traced[] } | null {
  if (Z0 !== null) {
    const zero = zeroOf();
    if (zero === null) return null;
    return {
      elevation_m: zero.elevation_m + Z0.amplitude_m,
      sigma_m: inQuadrature(zeroSigma(zero), Z0.amplitude_sigma_m ?? 0),
      parts: [tracedZero(run, gauge, zero)],
    };
  }
  if (MSL !== null)
    return { elevation_m: MSL.value.elevation_m, sigma_m: MSL.value.sigma_m ?? 0, parts: [MSL] };
  if (heights.datum.kind === 'mean_sea_level') return { elevation_m: 0, sigma_m: 0, parts: [] };
  complain(
    row,
    'tide-reduction-without-mean',
    'gauge',
    `no mean level of ${row.gauge} on ${heights.datum.label}`,
    'Z0 among the constants of the gauge, or the tide level MSL of the site',
    `Enter one of them. No tide levels of ${row.site} are computed until then.`,
  );
  return null;
}

function fromReadings(
  { run, row, gauge, complain }: Asked,
  zeroOf: () => GaugeZero | null,
  record: ReturnType<typeof gaugeRecords>[number] | undefined,
): ComputedLevel[] {
  const [from, to] = [momentOf(`${row.from}T00:00Z`), momentOf(`${row.to}T00:00Z`)];
  const isUsed = (time_ms: number): boolean =>
    (from === null || time_ms >= from) && (to === null || time_ms < to + DAY_MS);
  const at = [...(record?.time_ms ?? []).keys()].filter((i) => isUsed(record!.time_ms[i]!));
  const levels = run.untold(ofReadings, {
    record: run.plain({
      time_ms: at.map((i) => record!.time_ms[i]!),
      height_m: at.map((i) => record!.height_m[i]!),
    }),
  }).value;
  if (!levels.ok) {
    complain(
      row,
      'tide-reduction-too-short',
      'from',
      `${levels.readings} readings of ${row.gauge}, ${levels.days.toFixed(1)} days of them without a gap`,
      `${levels.needs_days} days of readings through day and night, 2 h apart or closer, with date and time and without a flag`,
      `Read the gauge longer, or compute the levels from its constants. No tide levels of ${row.site} are computed until then.`,
    );
    return [];
  }
  const zero = zeroOf();
  if (zero === null) return [];
  const parts = [
    run.row('tide_reductions', row, `tide levels of ${row.site} from ${row.gauge}`),
    run.part(
      traceId.gaugeLevels(row.gauge, row.site, 'readings'),
      null,
      tellReadings(row.gauge, levels),
      at.map((i) => run.row('gauge_readings', record!.rows[i]!, `reading of ${row.gauge}`)),
    ),
    tracedZero(run, gauge, zero),
  ];
  return TIDE_LEVELS.flatMap((level): ComputedLevel[] => {
    if (!(level in levels.levels)) return [];
    const { height_m, sigma_m } = levels.levels[level as keyof typeof levels.levels];
    return [
      {
        level,
        elevation_m: zero.elevation_m + height_m,
        sigma_m: inQuadrature(sigma_m, zeroSigma(zero)),
        row,
        method: 'means',
        how: `mean of ${levels.days.toFixed(0)} days of readings`,
        parts,
      },
    ];
  });
}

const zeroSigma = ({ sigma_m, to }: GaugeZero): number =>
  inQuadrature(sigma_m, ...to.value.shifts.map((shift) => shift.sigma_m));

const tracedZero = (run: Runner, gauge: Row<'gauges'>, zero: GaugeZero): Traced =>
  run.part(
    traceId.gaugeZero(gauge.gauge),
    zero.elevation_m,
    tellZero(gauge.gauge, zero.elevation_m, zeroSigma(zero)),
    [run.row('gauges', gauge, `gauge ${gauge.gauge}`), zero.to],
  );
