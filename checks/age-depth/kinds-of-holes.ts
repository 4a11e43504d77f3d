/** Six kinds of holes by seed: of the prior, and five that are no draws of it. Their dates are radiocarbon as it would be measured. */
import { type RandomStream, randomStream } from '@stillstand/science/base';
import {
  type AgeDepthInput,
  ageDepthDefaults,
  ageFromF14C,
  calibrate,
  type DatedHorizon,
  type YearlyCurve,
} from '@stillstand/science/dating';
import { drawHole } from './simulated-hole.ts';

const KINDS = ['of the prior', 'even', 'sevenfold', 'hiatus', 'bomb years', 'three out of place'] as const;
type Kind = (typeof KINDS)[number];

export interface KindOfHole {
  kind: Kind;
  input: AgeDepthInput;
}

/** True ages, cal BP, at a depth in m; a hiatus of `gap_yr` at `at_m`. */
const TRUTHS: Record<Exclude<Kind, 'of the prior'>, (d: number, at_m: number, gap_yr: number) => number> = {
  even: (d) => -60 + d / 0.0012,
  'three out of place': (d) => -60 + d / 0.0012,
  sevenfold: (d) => -60 + Math.min(d, 2.5) / 0.0028 + Math.max(0, d - 2.5) / 0.0004,
  hiatus: (d, at_m, gap_yr) => -60 + d / 0.0015 + (d > at_m ? gap_yr : 0),
  'bomb years': (d) => -55 + d / 0.006,
};

/** 100 states of the depths; of the bomb years sigma 5 mm common and 3 mm own, else 4 cm and 2 cm. */
export function kindOfHole(seed: number, intcal: YearlyCurve, bomb: YearlyCurve): KindOfHole {
  const kind = KINDS[seed % KINDS.length]!;
  const stream = randomStream(seed).split(kind);
  if (kind === 'of the prior') {
    const shape = { bottom_m: 5, sd_yr: 60, shift_m: 0.04, own_m: 0.02 };
    const dates = 4 + stream.integer(8);
    const { input } = drawHole(ageDepthDefaults, { ...shape, dates, breaks: stream.integer(2) }, stream);
    return { kind, input };
  }
  const isBomb = kind === 'bomb years';
  const n = isBomb ? 8 : 5 + stream.integer(8);
  const bottom_m = isBomb ? 1 : 6;
  const shift = Float64Array.from({ length: 100 }, () => (isBomb ? 0.005 : 0.04) * stream.normal());
  const state = stream.integer(shift.length);
  const at_m = 1 + 4 * stream.uniform();
  const gap_yr = 2000 * stream.uniform();
  const wrong = new Set<number>();
  const count = kind === 'three out of place' ? 3 : kind === 'sevenfold' ? 1 : 0;
  while (wrong.size < count) wrong.add(stream.integer(n));
  const horizons = Array.from({ length: n }, (_, i): DatedHorizon => {
    const depth = (bottom_m * (i + 0.2 + 0.6 * stream.uniform())) / n;
    const depth_m = shift.map((s) => Math.max(0.001, depth + s + (isBomb ? 0.003 : 0.02) * stream.normal()));
    let cal_bp = TRUTHS[kind](depth_m[state]!, at_m, gap_yr);
    if (wrong.has(i)) {
      const by = (stream.uniform() < 0.5 ? -1 : 1) * (300 + 1200 * stream.uniform());
      cal_bp = Math.max(0, cal_bp + by);
    }
    return { id: `D${i + 1}`, depth_m, age: measured(cal_bp, intcal, isBomb ? bomb : intcal, bomb, stream) };
  });
  return {
    kind,
    input: {
      horizons,
      surface: { age_cal_bp: -60, sd_yr: 1 },
      breaks: kind === 'hiatus' ? [{ id: 'contact', depth_m: shift.map((s) => at_m + s) }] : [],
      bottom_m,
    },
  };
}

/** Measured to 0.003 in F14C of the bomb years, to 30 yr before them; where no calibrated age is left, the year within two. */
function measured(
  cal_bp: number,
  intcal: YearlyCurve,
  by: YearlyCurve,
  bomb: YearlyCurve,
  stream: RandomStream,
): DatedHorizon['age'] {
  const age = cal_bp < -4 ? inTheBombYears(cal_bp, bomb, stream) : before(cal_bp, intcal, stream);
  const calibrated = calibrate({ ...age, offset_yr: 0, offset_sd_yr: 0 }, by);
  if (calibrated.kind === 'calibrated') return calibrated;
  return { from_cal_bp: Math.floor(cal_bp) - 2, density: Float64Array.of(1, 3, 3, 1) };
}

function inTheBombYears(cal_bp: number, { months }: YearlyCurve, stream: RandomStream) {
  const { year_ce, f14c } = months!;
  const k = year_ce.findIndex((year) => year >= 1950 - cal_bp);
  const { c14_age, error_yr } = ageFromF14C(
    f14c[k < 0 ? f14c.length - 1 : k]! + 0.003 * stream.normal(),
    0.003,
  ) as {
    c14_age: number;
    error_yr: number;
  };
  return { c14_age, error_yr };
}

function before(cal_bp: number, { from_cal_bp, c14_age, sigma_yr }: YearlyCurve, stream: RandomStream) {
  const y = Math.round(Math.max(0, cal_bp)) - from_cal_bp;
  return { c14_age: c14_age[y]! + Math.hypot(30, sigma_yr[y]!) * stream.normal(), error_yr: 30 };
}
