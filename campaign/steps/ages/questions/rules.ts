/**
 * What is asked of one radiocarbon date in use. A rule asks, and never refuses: each says what is odd, what was expected and what to do.
 * The limits are common practice without a source, unless one is named.
 */
import type { Severity } from '@stillstand/campaign/problems';
import type { Row } from '@stillstand/campaign/tables';
import { carbonOf } from './carbon-of.ts';

export interface AskedDate {
  row: Row<'determinations'>;
  /** What was dated, else what its sample is of. */
  material: string | null;
  /** Conventional age and 1 sigma, 14C yr. */
  c14_age: number;
  error_yr: number;
  /** Of its hole; null where nobody said. */
  latitude_deg: number | null;
  /** On a published curve of the air, or on one of the sea; a curve of the campaign's own may be either. */
  isOfAir: boolean;
  isOfSea: boolean;
  isBombCurve: boolean;
  hasMarineShare: boolean;
}

export interface Question {
  code: string;
  column: string;
  found: string;
  expected: string;
  fix: string;
  severity: Severity;
}

/** 1 sigma below which an error is no laboratory's for one sample: the best routine is near 0.15 % of F14C, 12 yr. */
const LEAST_ERROR_YR = 10;
/** δ13C, ‰ VPDB: sea carbonate; plants of both paths of photosynthesis, and their peat and charcoal. */
const DELTA13C = { sea: [-5, 5], land: [-36, -8] } as const;
/** Reservoir ages of the open sea are near 400 to 600 yr; few ΔR are as large. */
const PERHAPS_WHOLE_AGE_YR = 300;
/** Beyond these latitudes the air is surely of the other hemisphere's curve, or the sea polar (Heaton et al. 2020). */
const OTHER_HEMISPHERE_DEG = 15;
const POLAR_DEG = 60;

export const RULES: readonly ((date: AskedDate) => Question | null)[] = [
  ({ row, material, isOfAir, hasMarineShare }) =>
    carbonOf(material) === 'sea' && isOfAir && !hasMarineShare
      ? warning(
          'sea-material-on-air',
          'calibration_curve',
          `${material} on ${row.calibration_curve}`,
          'the marine curve with the ΔR of its water, or a marine share',
          'On the curve of the air a shell comes out centuries too old: name marine20 and ΔR, or correct the material.',
        )
      : null,
  ({ row, material, isOfSea }) =>
    carbonOf(material) === 'land' && isOfSea
      ? warning(
          'land-material-on-sea',
          'calibration_curve',
          `${material} on ${row.calibration_curve}`,
          'the curve of the air: intcal20 or shcal20',
          'On the marine curve a plant comes out centuries too young: name the curve of the air, or correct the material.',
        )
      : null,
  ({ row, isOfSea, hasMarineShare }) =>
    (isOfSea || hasMarineShare) && row.delta_r === null
      ? warning(
          'delta-r-missing',
          'delta_r',
          '',
          'the ΔR of its water for this curve, with its error',
          'It is taken as 0 and exact, which is too sure: ΔR of shells of known age nearby, or a pair, belongs here.',
        )
      : null,
  ({ row }) =>
    row.delta_r !== null && (row.delta_r_error ?? 0) === 0
      ? warning(
          'delta-r-exact',
          'delta_r_error',
          String(row.delta_r_error ?? ''),
          'the 1 sd of ΔR for one more sample of that water',
          'ΔR is taken as exact: shells of one water differ by tens of years. Write its 1 sd.',
        )
      : null,
  ({ row, isOfSea }) =>
    isOfSea && (row.delta_r ?? 0) >= PERHAPS_WHOLE_AGE_YR
      ? note(
          'delta-r-perhaps-whole-age',
          'delta_r',
          String(row.delta_r),
          `ΔR, the difference from the marine curve (mostly below ${PERHAPS_WHOLE_AGE_YR})`,
          'The whole reservoir age R is some hundreds of years and is in the marine curve already. If this is R, write ΔR.',
        )
      : null,
  ({ row, isOfAir, hasMarineShare }) =>
    isOfAir && !hasMarineShare && (row.delta_r ?? 0) < 0
      ? warning(
          'offset-on-air-negative',
          'delta_r',
          String(row.delta_r),
          'on the curve of the air a hard-water offset, above 0',
          'Old carbon makes a sample too old, not too young. Name the marine curve if this is its ΔR, or correct the sign.',
        )
      : null,
  ({ row, isOfAir, hasMarineShare }) =>
    isOfAir && !hasMarineShare && (row.delta_r ?? 0) > 0
      ? note(
          'offset-on-air',
          'delta_r',
          String(row.delta_r),
          'none for what lived on the air; the hard-water offset of its water for what lived in a lake or river',
          'It is added to the curve of the air. Remove it if the sample took its carbon from the air.',
        )
      : null,
  ({ row, error_yr }) =>
    error_yr < LEAST_ERROR_YR
      ? warning(
          'error-very-small',
          'error',
          row.reported_as === 'f14c' ? `F14C ± ${row.error}` : `± ${row.error}`,
          `1 sigma of at least ${LEAST_ERROR_YR} 14C yr for one sample`,
          'Look at the report: the error may be of F14C or in %, or a mean of several results, which has systematic parts too.',
        )
      : null,
  ({ row, material }) => {
    const carbon = carbonOf(material);
    if (carbon === null || row.delta13c_permil === null) return null;
    const [least, most] = DELTA13C[carbon];
    if (row.delta13c_permil >= least && row.delta13c_permil <= most) return null;
    return warning(
      'delta13c-not-of-material',
      'delta13c_permil',
      `${row.delta13c_permil} ‰ for ${material}`,
      `${least} to ${most} ‰ for ${carbon === 'sea' ? 'carbonate of the sea' : 'plants and what is left of them'}`.replaceAll(
        '-',
        '−',
      ),
      'Is it the right sample, and the right sign? A shell far below 0 ‰ may have lived in fresh water.',
    );
  },
  after1950,
  ({ row, latitude_deg }) => {
    const curve = row.calibration_curve;
    const isOther =
      latitude_deg !== null &&
      ((curve === 'intcal20' && latitude_deg < -OTHER_HEMISPHERE_DEG) ||
        (curve === 'shcal20' && latitude_deg > OTHER_HEMISPHERE_DEG));
    return isOther
      ? warning(
          'curve-of-other-hemisphere',
          'calibration_curve',
          `${curve} at ${Math.abs(latitude_deg)}° ${latitude_deg < 0 ? 'S' : 'N'}`,
          'intcal20 in the north, shcal20 in the south',
          'Correct the curve, or the position of the hole.',
        )
      : null;
  },
  ({ row, latitude_deg }) =>
    row.calibration_curve === 'marine20' && latitude_deg !== null && Math.abs(latitude_deg) > POLAR_DEG
      ? warning(
          'marine20-in-polar-sea',
          'calibration_curve',
          `marine20 at ${Math.abs(latitude_deg)}° ${latitude_deg < 0 ? 'S' : 'N'}`,
          'a sea outside the polar regions',
          'Marine20 does not hold there (Heaton et al. 2020): use ΔR of that sea and time with a wide error, or a curve of your own.',
        )
      : null,
];

/** A result of after 1950 on a curve that ends before: mostly not dated at all, and asked about all the same. */
export function after1950({ row, c14_age, isBombCurve, isOfSea }: AskedDate): Question | null {
  return c14_age < 0 && !isBombCurve
    ? warning(
        'after-1950-on-older-curve',
        'calibration_curve',
        `${Math.round(c14_age)} BP on ${row.calibration_curve}`,
        'a curve that holds the years after 1950',
        isOfSea
          ? 'No curve of the bomb years of the sea is published: take it as younger than 1950.'
          : 'Name the zone of the bomb years it grew in, such as bomb21_nh1 or bomb21_sh1_2.',
      )
    : null;
}

type Said = [code: string, column: string, found: string, expected: string, fix: string];
const question = (severity: Severity, [code, column, found, expected, fix]: Said): Question => ({
  code,
  column,
  found,
  expected,
  fix,
  severity,
});
function warning(...said: Said): Question {
  return question('warning', said);
}
function note(...said: Said): Question {
  return question('note', said);
}
