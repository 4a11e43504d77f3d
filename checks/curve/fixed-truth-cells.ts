/**
 * Fixed truths in cells: six seas, four numbers of points and five faults, of which a third of all combinations is taken,
 * so that every level of each meets every level of each other: sea t, number k and fault f with t + k + f divisible by
 * three, 40 of 120. Laid down before the first run. Points are radiocarbon dates on IntCal20, one in six a limit, heights
 * with an own error and one shared by all.
 */
import { exp, mean, type RandomStream, randomStream, square } from '@stillstand/science/base';
import {
  type CurvePoint,
  type CurveResult,
  type CurveSettings,
  computeCurve,
  DEFAULT_CURVE_SETTINGS,
  disagreeing,
  isAbrupt,
  movedErrors,
  probableOutliers,
} from '@stillstand/science/curve';
import type { YearlyCurve } from '@stillstand/science/dating';

/** A triangle with rounded ends, of 1.5 ka, between −1 and 1. */
const wave = (ka: number): number => {
  const turn = ka / 1.5 - Math.floor(ka / 1.5);
  const x = 2 * Math.abs(2 * turn - 1) - 1;
  return (x * (3 - square(x))) / 2;
};

/** Level, m, at an age, ka. */
const SEAS: Record<string, (ka: number) => number> = {
  constant: (t) => -1.2 * t,
  slowing: (t) => -0.3 * t - 6.5 * 1.6 * (exp(-(8 - t) / 1.6) - exp(-8 / 1.6)),
  jump: (t) => -1 * t - (t > 5 ? 3 : 0),
  stillstand: (t) => -5 * Math.max(0, t - 5),
  highstand: (t) => 1.5 * exp(-square((t - 4.5) / 1.2)) - 2.5 * Math.max(0, t - 6.5),
  oscillation: (t) => -0.5 * t + 0.75 * wave(t),
};
const COUNTS = [10, 20, 40, 80];
const FAULTS = ['none', 'dates', 'lowered, stated', 'lowered', 'shared offset'] as const;

export interface Cell {
  sea: string;
  points: number;
  fault: (typeof FAULTS)[number];
}

export const CELLS: Cell[] = Object.keys(SEAS).flatMap((sea, t) =>
  COUNTS.flatMap((points, k) =>
    FAULTS.flatMap((fault, f) => ((t + k + f) % 3 === 0 ? [{ sea, points, fault }] : [])),
  ),
);

/** Ages of the truth, ka; the headline is the mean rate over the interval. */
const OLDEST_KA = 7.8;
const YOUNGEST_KA = 0.3;
const HEADLINE = { older_cal_bp: 7000, younger_cal_bp: 1000 };
const settings: CurveSettings = {
  ...DEFAULT_CURVE_SETTINGS,
  ages_cal_bp: Array.from({ length: 13 }, (_, i) => 500 * (i + 2)),
  intervals: [
    HEADLINE,
    ...Array.from({ length: 6 }, (_, i) => ({
      older_cal_bp: 1000 * (i + 2),
      younger_cal_bp: 1000 * (i + 1),
    })),
  ],
  age_range_cal_bp: { youngest: 0, oldest: 20_000 },
};

interface Simulated {
  points: CurvePoint[];
  /** Points whose date or height is wrong, untold. */
  wrong: Set<string>;
}

/** One set of a cell. */
function simulate(cell: Cell, set: number, curve: YearlyCurve): Simulated {
  const stream = randomStream(81).split(cell.sea).split(cell.points).split(cell.fault).split(set);
  const level = SEAS[cell.sea]!;
  const bench = stream.normal();
  const offset = cell.fault === 'shared offset' ? stream.normal() : 0;
  const wrong = new Set<string>();
  const points = Array.from({ length: cell.points }, (_, i): CurvePoint => {
    const id = `P${i + 1}`;
    const age = 1000 * (YOUNGEST_KA + (OLDEST_KA - YOUNGEST_KA) * stream.uniform());
    const isDateWrong = cell.fault === 'dates' && i < Math.max(1, Math.round(cell.points / 10));
    const dated = isDateWrong ? Math.min(12_000, Math.max(50, age + faultOf(stream))) : age;
    const year = Math.round(dated) - curve.from_cal_bp;
    const error_yr = 25 + 35 * stream.uniform();
    const c14_age =
      curve.c14_age[year]! + 100 * offset + Math.hypot(error_yr, curve.sigma_yr[year]!) * stream.normal();
    const sigma_m = 0.15 + 0.2 * stream.uniform();
    const kind = i % 6 === 5 ? (i % 12 === 5 ? 'terrestrial' : 'marine') : 'index';
    const isLow = cell.fault.startsWith('lowered') && kind === 'index' && stream.uniform() < 0.3;
    const isTold = cell.fault === 'lowered, stated';
    const low = isLow ? 0.3 + 1.2 * stream.uniform() : 0;
    const clear = kind === 'index' ? 0 : (kind === 'terrestrial' ? 1 : -1) * stream.exponential();
    if (isDateWrong || (isLow && !isTold)) wrong.add(id);
    return {
      id,
      kind,
      height_m: level(age / 1000) - low + clear + sigma_m * stream.normal() + 0.1 * bench,
      sigma_m,
      half_range_m: 0,
      // Stated of the points that may be lowered: here those that are.
      lowering_m: isTold && isLow ? 1 : 0,
      shared: [{ group: 'bench mark', sigma_m: 0.1 }],
      age: {
        kind: 'radiocarbon',
        c14_age,
        error_yr,
        curve,
        offset_yr: 0,
        offset_sd_yr: cell.fault === 'shared offset' ? 100 : 0,
        delta_r_group: cell.fault === 'shared offset' ? 'shells' : null,
      },
    };
  });
  return { points, wrong };
}

/** How far a wrong date is off, yr: 200 to 3,000, too old in five of six. */
function faultOf(stream: RandomStream): number {
  const off = 200 + 2800 * stream.uniform();
  return stream.uniform() < 5 / 6 ? off : -off;
}

export interface Score {
  cell: Cell;
  sets: number;
  /** Shares of levels and of the rates over millennia that lie in their 95 % interval. */
  levels: number;
  rates: number;
  /** The same of the levels of those sets that converged, named no point and were said to fit; how many there were. */
  silent_levels: number | null;
  silent: number;
  converged: number;
  /** Mean interval score of the level, m (Gneiting & Raftery 2007, J. Am. Stat. Assoc. 102:359), and mean width, m. */
  interval_score_m: number;
  width_m: number;
  /** Root mean square error of the level, m, and of the headline rate, mm/yr; that of the rate without the wrong points. */
  rms_m: number;
  rate_rms: number;
  oracle_rate_rms: number | null;
}

/** Sets of a cell, computed by the settings of the product. `outliers` null: every date and height as given. */
export function score(
  cell: Cell,
  sets: number,
  curve: YearlyCurve,
  changed: Partial<CurveSettings> = {},
): Score {
  const level = SEAS[cell.sea]!;
  const truths = settings.ages_cal_bp.map((age) => level(age / 1000));
  const rateOf = ({ older_cal_bp, younger_cal_bp }: typeof HEADLINE): number =>
    (1000 * (level(younger_cal_bp / 1000) - level(older_cal_bp / 1000))) / (older_cal_bp - younger_cal_bp);
  const held: number[] = [];
  const rates: number[] = [];
  const silent: number[] = [];
  const scores: number[] = [];
  const widths: number[] = [];
  const squares: number[] = [];
  const rateSquares: number[] = [];
  const oracle: number[] = [];
  let converged = 0;
  for (let set = 0; set < sets; set++) {
    const { points, wrong } = simulate(cell, set, curve);
    const found = computeCurve(points, { ...settings, ...changed, seed: set });
    const { lower95, upper95, mean: middle } = found.level_m;
    const inside = truths.map((truth, k) => (truth >= lower95[k]! && truth <= upper95[k]! ? 1 : 0));
    held.push(mean(inside));
    truths.forEach((truth, k) => {
      const width = upper95[k]! - lower95[k]!;
      widths.push(width);
      scores.push(width + (2 / 0.05) * (Math.max(0, lower95[k]! - truth) + Math.max(0, truth - upper95[k]!)));
      squares.push(square(middle[k]! - truth));
    });
    rates.push(
      mean(
        found.intervals.slice(1).map(({ rate_mm_yr: rate, ...interval }) => {
          const truth = rateOf(interval);
          return truth >= rate.lower95 && truth <= rate.upper95 ? 1 : 0;
        }),
      ),
    );
    const headline = (of: CurveResult): number => square(of.intervals[0]!.rate_mm_yr.mean - rateOf(HEADLINE));
    rateSquares.push(headline(found));
    if (wrong.size > 0) {
      const sound = points.filter(({ id }) => !wrong.has(id));
      oracle.push(headline(computeCurve(sound, { ...settings, ...changed, seed: set })));
    }
    if (found.diagnostics.converged) {
      converged++;
      const isSilent =
        disagreeing(found).length + probableOutliers(found).length + movedErrors(found).length === 0 &&
        !isAbrupt(found);
      if (isSilent) silent.push(mean(inside));
    }
  }
  return {
    cell,
    sets,
    levels: mean(held),
    rates: mean(rates),
    silent_levels: silent.length === 0 ? null : mean(silent),
    silent: silent.length,
    converged,
    interval_score_m: mean(scores),
    width_m: mean(widths),
    rms_m: Math.sqrt(mean(squares)),
    rate_rms: Math.sqrt(mean(rateSquares)),
    oracle_rate_rms: oracle.length === 0 ? null : Math.sqrt(mean(oracle)),
  };
}
