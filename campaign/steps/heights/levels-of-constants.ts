/** Tide levels of a site from the tidal constants of a gauge. */
import { traceId } from '@stillstand/campaign/results';
import { type Row, TIDE_LEVELS } from '@stillstand/campaign/tables';
import { inQuadrature } from '@stillstand/science/base';
import { ASSUMED_TIDE_LEVEL_SIGMA_M, type SiteTideLevel } from '@stillstand/science/points';
import {
  constituentNamed,
  formNumber,
  type PredictedLevels,
  predictedLevels,
  type TidalConstant,
} from '@stillstand/science/tide';
import { type Known, step, type Traced } from '../runner/step.ts';
import { tellConstants } from '../words/tide.ts';
import { type GaugeZero, tracedZero, zeroSigma } from './gauge-zero.ts';
import type { CampaignDatum } from './heights.ts';
import type { Asked, ComputedLevel, Reduction } from './levels-asked.ts';

/** Above what the tide swings about: an edit of the zero computes nothing again. */
const ofConstants = step(
  'tide levels of constants',
  ({ constants, first_year }: { constants: readonly TidalConstant[]; first_year: number }) =>
    predictedLevels({ mean_m: 0, constants }, first_year),
);

/** Conventions of semidiurnal tides; no use where the tide is mixed (form number above 0.25, or none). */
const SEMIDIURNAL: ReadonlySet<string> = new Set(['MHWS', 'MHWN', 'MLWN', 'MLWS']);
/** Nineteen years about today's sea where the datum has no epoch of its own. */
const USUAL_FIRST_YEAR = 2002;

/** `MSL`: as stated for the site, on the campaign datum. */
export function fromConstants(
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
  if (MSL !== null) {
    const { elevation_m, sigma_m } = MSL.value;
    if (sigma_m === null)
      complain(
        row,
        'tide-reduction-mean-without-sigma',
        'gauge',
        `MSL of ${row.site} without its sigma`,
        '1 sigma of the tide level MSL',
        `Enter it. Until then ${ASSUMED_TIDE_LEVEL_SIGMA_M} m is assumed, as for points.`,
        'warning',
      );
    return { elevation_m, sigma_m: sigma_m ?? ASSUMED_TIDE_LEVEL_SIGMA_M, parts: [MSL] };
  }
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
