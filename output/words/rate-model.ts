/** The model of the rate and what it found, in words. */
import { type CurveResult, isAbrupt, type RateModel, type RatesCompared } from '@stillstand/science/curve';
import { counted, decimalsFor, printed, range, signed, years } from './number.ts';

/** "a stepwise rate, 2 changes, each with a jump of the level (1 sd 2.0 m)": a fragment. */
export function rateModelInWords({ kind, changes, jump_sd_m, slowing_mm_yr_ka }: RateModel): string {
  const parts = [
    kind === 'stepwise'
      ? `a stepwise rate, ${counted(changes, 'change')}`
      : kind === 'constant'
        ? 'a constant rate'
        : changes > 0
          ? `a smooth rate with at most ${counted(changes, 'break')}`
          : 'a smooth rate',
  ];
  if (changes > 0 && jump_sd_m > 0)
    parts.push(`each with a jump of the level (1 sd ${printed(jump_sd_m, 1)} m)`);
  if (slowing_mm_yr_ka > 0)
    parts.push(`a mean that slowed (half-normal, ${printed(slowing_mm_yr_ka, 2)} mm/yr per ka)`);
  return parts.join(', ');
}

/** A sentence for each change of a stepwise rate, the oldest first; how many breaks a smooth one has; how much it slowed. */
export function changesInWords(
  curve: Pick<CurveResult, 'changes' | 'breaks_p' | 'slowing_mm_yr_ka' | 'scatter_m'>,
): string[] {
  const found = curve.changes.map(({ age_cal_bp, older_mm_yr, younger_mm_yr, jump_m }, k) => {
    const rate = (r: typeof older_mm_yr): string => {
      const decimals = decimalsFor(2 * r.sd, 1);
      return `${signed(r.median, decimals)} (95 % ${range(r.lower95, r.upper95, decimals)})`;
    };
    const decimals = jump_m === null ? 0 : decimalsFor(2 * jump_m.sd, 1);
    const jump =
      jump_m === null
        ? ''
        : `; the level jumped by ${signed(jump_m.median, decimals)} m (95 % ${range(jump_m.lower95, jump_m.upper95, decimals)})`;
    return `Change ${printed(k + 1)}: ${years(age_cal_bp.median)} cal BP (95 % ${years(age_cal_bp.upper95)} to ${years(age_cal_bp.lower95)}), from ${rate(older_mm_yr)} to ${rate(younger_mm_yr)} mm/yr${jump}`;
  });
  if (curve.breaks_p.length > 0)
    found.push(
      `Breaks of the rate: ${curve.breaks_p.map((p, k) => `${k === 0 ? 'none' : printed(k)} ${printed(p, 2)}`).join(', ')} (probabilities)`,
    );
  if (curve.slowing_mm_yr_ka !== null) {
    const { median, lower95, upper95, sd } = curve.slowing_mm_yr_ka;
    const decimals = decimalsFor(2 * sd, 2);
    found.push(
      `The mean rate slowed by ${printed(median, decimals)} mm/yr in a thousand years (95 % ${printed(lower95, decimals)} to ${printed(upper95, decimals)})`,
    );
  }
  if (curve.scatter_m !== null) {
    const { median, lower95, upper95, sd } = curve.scatter_m;
    const decimals = decimalsFor(2 * sd, 2);
    found.push(
      `Index points scatter by ${printed(median, decimals)} m (1 sd, 95 % ${printed(lower95, decimals)} to ${printed(upper95, decimals)}) beyond their errors`,
    );
  }
  return found;
}

/** That a smooth rate does not fit; null where it does, or where that was not asked. */
export function abruptChange(curve: Pick<CurveResult, 'one_break'>): string | null {
  if (!isAbrupt(curve)) return null;
  return `A smooth rate does not fit: one abrupt change near ${years(curve.one_break!.age_cal_bp)} cal BP suits the heights better. The band is too narrow there; compare with a stepwise rate, or allow breaks`;
}

/**
 * How short a swing of the sea the index points could show at all: two of them to a swing, evenly spread (Shannon 1949, Proc.
 * IRE 37:10–21). Null with fewer than three, or where the rate is no process that could swing.
 */
export function shortestSwing({ points, settings }: Pick<CurveResult, 'points' | 'settings'>): string | null {
  const ages = points.filter(({ kind }) => kind === 'index').map(({ age_cal_bp }) => age_cal_bp.median);
  if (ages.length < 3 || settings.rate_model.kind !== 'smooth') return null;
  const shortest = (2 * (Math.max(...ages) - Math.min(...ages))) / (ages.length - 1);
  const rounded = Number(shortest.toPrecision(1));
  return `Swings of the sea shorter than about ${years(rounded)} yr would not show with these ${printed(ages.length)} index points; the band takes the rate as smooth and does not allow for them`;
}

/** The same in few words, for lists: "stepwise, 2 changes, jumps". */
export function rateName({ kind, changes, jump_sd_m, slowing_mm_yr_ka }: RateModel): string {
  const parts: string[] = [kind];
  if (changes > 0)
    parts.push(kind === 'stepwise' ? counted(changes, 'change') : `up to ${counted(changes, 'break')}`);
  if (changes > 0 && jump_sd_m > 0) parts.push('jumps');
  if (slowing_mm_yr_ka > 0) parts.push('slowing');
  return parts.join(', ');
}

/** What the data say of one of several models compared. */
export const saidOf = ({ behind, undecided, converged }: RatesCompared[number]): string => {
  if (!converged) return 'not converged';
  if (behind === null) return 'best score';
  if (undecided === 'not converged') return 'the best did not converge';
  return undecided === null ? 'the data decide against it' : `the data do not decide: ${undecided}`;
};

/** What the scores of several models come to. */
export function ratesVerdict(compared: RatesCompared): string {
  if (compared.length === 0) return 'No model of the rate was compared.';
  const settled = compared.filter(({ converged }) => converged);
  const open = settled.filter(({ behind, undecided }) => behind === null || undecided !== null);
  const left = compared.length - settled.length;
  const unsettled =
    left === 0
      ? ''
      : ` ${counted(left, 'model')} did not converge and ${left === 1 ? 'is' : 'are'} not compared.`;
  if (!compared[0]!.converged)
    return `The data do not decide: the best score is of a model that did not converge.${unsettled}`;
  if (open.length === 1)
    return `The data decide for one model: ${rateName(open[0]!.rate_model)}.${unsettled}`;
  const against = settled.length - open.length;
  return `The data do not decide between ${printed(open.length)} models: ${open.map(({ rate_model }) => rateName(rate_model)).join('; ')}.${against === 0 ? '' : ` They decide against ${printed(against)}.`}${unsettled}`;
}
