/** What the trace says of the curve and its numbers. */
import {
  type GaugeResult,
  type Interval,
  type OtherCurveResult,
  sitesNamed,
} from '@stillstand/campaign/results';
import type {
  AnsweredQuestion,
  CurveResult,
  CurveSettings,
  Difference,
  RatesCompared,
} from '@stillstand/science/curve';
import type { Told } from '../runner/step.ts';

type PointInCurve = CurveResult['points'][number];

/** `sites`: null for points without one. */
export const settingsInWords = (s: CurveSettings, sites: readonly (string | null)[]): string => {
  const tie = s.tie === null ? 'no constraint at present' : `0 ± ${s.tie.sd_m} m at ${s.tie.year_ce}`;
  const taken = [
    `points of ${sitesNamed(sites)}`,
    tie,
    rateInWords(s.rate_model),
    s.outliers === null ? 'every date and height as its error says' : 'any date or height may be an outlier',
    ...(s.extra_scatter_m > 0 ? [`extra scatter half-normal ${s.extra_scatter_m} m`] : []),
  ];
  return `${taken.join('; ')}; sd of the rate half-normal ${s.priors.rate_sd_scale_mm_yr} mm/yr, length lognormal ${s.priors.length_median_ka} ka; seed ${s.seed}`;
};

function rateInWords({ kind, changes, jump_sd_m }: CurveSettings['rate_model']): string {
  if (kind === 'constant') return 'constant rate';
  const breaks =
    kind === 'stepwise' ? `, ${changes} changes` : changes > 0 ? `, at most ${changes} breaks` : '';
  return `${kind} rate${breaks}${changes > 0 && jump_sd_m > 0 ? `, jumps ± ${jump_sd_m} m` : ''}`;
}

const CURVE_NAMES = {
  smooth: 'Curve of a smooth rate',
  stepwise: 'Curve of a stepwise rate',
  constant: 'Line of a constant rate',
} as const;

export const tellGauge = ({ gauge, blocks, sd_m, correlation, zero_elevation_m }: GaugeResult): Told => ({
  label: `Annual means of gauge ${gauge}`,
  how: `${blocks.reduce((sum, { years }) => sum + years, 0)} years in ${blocks.length} blocks; a year scatters by ${sd_m.toFixed(3)} m (1 sd), correlation with the next ${correlation.toFixed(2)}; ${zero_elevation_m === null ? 'zero not related to the datum' : 'zero on the campaign datum'}`,
  value: null,
  sigma: null,
  unit: '',
});

/** Models of the rate compared. */
export const tellRates = (compared: RatesCompared): Told => ({
  label: 'Models of the rate compared',
  how: `${compared.length} models, each computed from the same points, by leave-one-out scores`,
  value: null,
  sigma: null,
  unit: '',
});

export const tellCurve = ({ points, settings, diagnostics }: CurveResult): Told => ({
  label: `${CURVE_NAMES[settings.rate_model.kind]} through all points`,
  how: `${points.length} points, ${settings.chains} chains of ${settings.draws} draws, ${diagnostics.converged ? 'converged' : 'not converged'}`,
  value: null,
  sigma: null,
  unit: '',
});

/** Said of every number of a curve that has not converged: it may be read far from where that is said of the whole. */
export const unlessConverged = (told: Told, { diagnostics }: Pick<CurveResult, 'diagnostics'>): Told =>
  diagnostics.converged
    ? told
    : { ...told, label: `${told.label}, not converged`, how: `${told.how}; not converged, not to be used` };

export const tellInterval = (
  { older_cal_bp, younger_cal_bp }: Interval,
  rate_mm_yr: number,
  sd: number | null,
): Told => ({
  label: `Rate from ${older_cal_bp} to ${younger_cal_bp} cal BP`,
  how: 'level at the younger end − level at the older end, over the years between',
  value: rate_mm_yr,
  sigma: sd,
  unit: 'mm/yr',
  signed: true,
});

type OtherUse = OtherCurveResult['use'];
const besideInWords = (name: string, use: OtherUse): string =>
  use === 'subtract' ? `without ${name}` : `less that of ${name}`;
const HOW_BESIDE: Readonly<Record<OtherUse, string>> = {
  compare: 'all pairs of a draw of the curve and one of the other, which know nothing of each other',
  subtract: 'each draw of the curve less the prediction, whose error is one for all ages',
};

export const tellBesideLevel = (
  name: string,
  use: OtherUse,
  age_cal_bp: number,
  level: Difference,
): Told => ({
  label: `RSL at ${age_cal_bp} cal BP ${besideInWords(name, use)}`,
  how: HOW_BESIDE[use],
  value: level.mean,
  sigma: level.sd,
  unit: 'm',
  signed: true,
});

export const tellBesideRate = (
  name: string,
  use: OtherUse,
  { older_cal_bp, younger_cal_bp }: Interval,
  rate: Difference,
): Told => ({
  label: `Rate from ${older_cal_bp} to ${younger_cal_bp} cal BP ${besideInWords(name, use)}`,
  how: HOW_BESIDE[use],
  value: rate.mean,
  sigma: rate.sd,
  unit: 'mm/yr',
  signed: true,
});

export const tellIntervalUnder = (
  interval: Interval,
  assumption: string,
  how: string,
  rate_mm_yr: number,
): Told => {
  const told = tellInterval(interval, rate_mm_yr, null);
  return { ...told, label: `${told.label}, ${assumption}`, how };
};

export const tellAtAge = (
  what: 'level' | 'rate',
  age_cal_bp: number,
  { mean, sd }: { mean: number; sd: number },
): Told => ({
  label: `${what === 'level' ? 'RSL' : 'Rate'} at ${age_cal_bp} cal BP`,
  how: 'mean of the draws',
  value: mean,
  sigma: sd,
  unit: what === 'level' ? 'm' : 'mm/yr',
  signed: true,
});

export const tellResidual = ({ id, residual_m }: PointInCurve): Told => ({
  label: `Residual of ${id}`,
  how: 'elevation − level of the curve at its age − shared errors, mean of the draws',
  value: residual_m,
  sigma: null,
  unit: 'm',
  signed: true,
});

export const tellAgeInCurve = ({ id, age_cal_bp: { median, sd } }: PointInCurve): Told => ({
  label: `Age of ${id} in the model`,
  how: 'its date, shifted by what the other points say of the sea',
  value: median,
  sigma: sd,
  unit: 'cal BP',
});

type Answer = AnsweredQuestion['answer'];

/** The number an answer is quoted by, and the draws it is of. */
export function tellAnswer(
  answered: AnsweredQuestion,
  { draws, ages_cal_bp, diagnostics, settings }: CurveResult,
): Told {
  const between = settings.rate_model.kind === 'smooth' ? 'a cubic' : 'straight';
  const { label, amount, unit, what } = quoted(answered);
  const kept = draws.level_m.length / ages_cal_bp.length;
  const when = 'window' in answered.answer ? during(answered.answer) : '';
  return {
    label: `${label}${when}`,
    how:
      amount === null
        ? `${what}: too few of ${kept} draws show it`
        : `median over ${kept} draws (${diagnostics.chains} chains) of ${what}; each draw is a path through its levels and rates at the reported ages, ${between} between them`,
    value: amount?.median ?? null,
    sigma: amount?.sd ?? null,
    unit,
    ...(unit === 'cal BP' ? {} : { signed: true }),
  };
}

const during = ({ window: { older_cal_bp, younger_cal_bp } }: Extract<Answer, { window: unknown }>): string =>
  `, ${older_cal_bp} to ${younger_cal_bp} cal BP`;

type Amount = Extract<Answer, { rate_mm_yr: unknown }>['rate_mm_yr'];

function quoted(answered: AnsweredQuestion): {
  label: string;
  amount: Amount | null;
  unit: string;
  what: string;
} {
  switch (answered.kind) {
    case 'mean rate above':
      return {
        label: 'Mean rate',
        amount: answered.answer.rate_mm_yr,
        unit: 'mm/yr',
        what: 'the rise between the two ends over the years between',
      };
    case 'rate above':
      return {
        label: `Rate at ${answered.question.age_cal_bp} cal BP`,
        amount: answered.answer.rate_mm_yr,
        unit: 'mm/yr',
        what: 'the rate at that age',
      };
    case 'passed':
      return {
        label: `First rise through ${answered.question.level_m} m`,
        amount: answered.answer.age_cal_bp,
        unit: 'cal BP',
        what: 'the oldest age at which the path rises through it, where it does',
      };
    case 'highest':
      return {
        label: 'Highest stand',
        amount: answered.answer.level_m,
        unit: 'm',
        what: 'the highest level of the path',
      };
    case 'fastest':
      return {
        label: `Rate of the fastest ${answered.question.years} yr`,
        amount: answered.answer.fastest.rate_mm_yr,
        unit: 'mm/yr',
        what: 'the largest mean rate of the path over such a time',
      };
    case 'slowed':
      return {
        label: `Rate first below ${answered.question.mm_yr} mm/yr`,
        amount: answered.answer.first.age_cal_bp,
        unit: 'cal BP',
        what: 'the oldest age at which the rate falls below it, where it does',
      };
    case 'acceleration':
      return {
        label: 'Acceleration',
        amount: answered.answer.mm_yr_per_ka,
        unit: 'mm/yr per 1,000 yr',
        what: 'the mean rate of the younger half less that of the older, over the time between their middles',
      };
  }
}
