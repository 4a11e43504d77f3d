/**
 * The chosen age, large: its density standing on the time staff, and hanging under the same staff
 * how far the calibration curve of each year lies from what was measured. Where the curve runs through the measured
 * band, the density stands.
 */
import type { DateResult } from '@stillstand/campaign/results';
import {
  AgeDensity,
  INKS,
  InkContext,
  isMarine,
  LINE,
  LyingStaff,
  type Scale,
  SIZE,
  scale,
  staffStep,
  TEXT_FAMILY,
  Text,
  type Theme,
  textWidth,
  UprightStaff,
  useInk,
} from '@stillstand/output/drawing';
import { isLimit, printed, years } from '@stillstand/output/words';
import { ageFromF14C, type YearlyCurve } from '@stillstand/science/dating';
import { PX } from './lane.ts';
import { placeLabels } from './place-labels.ts';
import { setWords } from './set-words.ts';
import './large-age.css';

/** A figure of five with its sign stands left of the upright staff. */
const LEFT = 39;
const RIGHT = 14;

/** What the curve says of each year, with the reservoir offset in it, in 14C years. */
export interface Calibrated {
  curve: YearlyCurve;
  offset_yr: number;
  offset_sd_yr: number;
}

export function LargeAge({
  date,
  on,
  isF14C,
  theme,
  width: pixels,
  height: tall,
}: {
  date: DateResult;
  /** Null for an age in calendar years. */
  on: Calibrated | null;
  /** What the laboratory gave is F14C. */
  isF14C: boolean;
  theme: Theme;
  width: number;
  height: number;
}) {
  const width = pixels / PX;
  const height = tall / PX;
  const { older, younger } = reach(date);
  const x = scale(older, younger, LEFT, width - RIGHT);
  const base = on === null ? height - 40 : height * 0.47;
  const staffY = base + 22;
  const step = staffStep(x.k, 14, 34);
  return (
    <svg
      className="large-age"
      width={pixels}
      height={tall}
      viewBox={`0 0 ${width} ${height}`}
      fontFamily={TEXT_FAMILY}
      fontSize={SIZE.text}
      role="img"
      aria-label={ageWords(date)}
    >
      <InkContext value={INKS[theme]}>
        <Drops date={date} x={x} from={base} to={on === null ? staffY : height - 4} />
        {on === null ? null : (
          <Distance
            date={date}
            on={on}
            measured={measuredWords(date, isF14C)}
            x={x}
            top={staffY + 24}
            bottom={height - 5}
            right={width - RIGHT}
          />
        )}
        <AgeDensity date={date} x={x} y={base} height={base - 14} />
        <SetLabels date={date} x={x} y={base + 13} width={width} />
        <LyingStaff y={staffY} scale={x} low={younger} high={older} labels="below" label={years} {...step} />
        <Text x={0} y={staffY + 3.4} voice="ink2">
          cal BP
        </Text>
        <MedianMark date={date} x={x} y={base} />
      </InkContext>
    </svg>
  );
}

/** The 95 % set with room beside it, and all of the density that the eye can see, cal BP. */
function reach(date: DateResult): { older: number; younger: number } {
  const old = date.sets_95[0]?.older_cal_bp ?? date.median_cal_bp;
  const young = date.sets_95.at(-1)?.younger_cal_bp ?? date.median_cal_bp;
  const room = Math.max(50, (old - young) * 0.28);
  const { density, from_cal_bp } = date;
  const seen = Math.max(...density) * 0.004;
  const first = from_cal_bp + density.findIndex((p) => p > seen);
  const last = from_cal_bp + density.findLastIndex((p) => p > seen);
  return { older: Math.ceil(Math.max(old + room, last)), younger: Math.floor(Math.min(young - room, first)) };
}

/** Ends of the 95 % set, down through everything that shares the staff. */
function Drops({ date, x, from, to }: { date: DateResult; x: Scale; from: number; to: number }) {
  const ink = useInk();
  const d = date.sets_95
    .map((set) => `M${x(set.older_cal_bp)} ${from}V${to}M${x(set.younger_cal_bp)} ${from}V${to}`)
    .join('');
  return <path d={d} stroke={ink.line} strokeWidth={LINE.hair} fill="none" />;
}

function MedianMark({ date, x, y }: { date: DateResult; x: Scale; y: number }) {
  const ink = useInk();
  const at = x(date.median_cal_bp);
  return (
    <g>
      <path d={`M${at} ${y - 1}V${y + 1.6}`} stroke={ink.paper} strokeWidth={1.2} />
    </g>
  );
}

/** Each part of the 95 % set under its line, the likeliest first, as far as there is room. */
function SetLabels({ date, x, y, width }: { date: DateResult; x: Scale; y: number; width: number }) {
  const words = date.sets_95.map((set) => setWords(set, date.sets_95.length > 1));
  const places = placeLabels(
    date.sets_95.map((set, i) => ({
      middle: (x(set.older_cal_bp) + x(set.younger_cal_bp)) / 2,
      half: textWidth(words[i]!) / 2,
      weight: set.probability,
    })),
    width,
    6,
  );
  return (
    <g>
      {places.map((at, i) =>
        at === null ? null : (
          <Text key={words[i]} x={at} y={y} anchor="middle" halo>
            {words[i]}
          </Text>
        ),
      )}
    </g>
  );
}

/** Curve minus measured, in 14C years: the band is what was measured, the ribbon the curve with its 1 sigma. */
/** The year 1950 − t CE lies from t + ½ to t − ½ cal BP. */
const CAL_BP_OF_DECIMAL_YEAR = 1950.5;
/** cal BP of the last year before a bomb curve's months. */
const BEFORE_MONTHS = 9;

function Distance({
  date,
  on,
  measured,
  x,
  top,
  bottom,
  right,
}: {
  date: DateResult;
  on: Calibrated;
  /** What the laboratory gave. */
  measured: string;
  x: Scale;
  top: number;
  bottom: number;
  right: number;
}) {
  const ink = useInk();
  const { curve, offset_yr, offset_sd_yr } = on;
  const { months } = curve;
  const first = Math.max(months === undefined ? curve.from_cal_bp : BEFORE_MONTHS, Math.floor(x.to));
  const last = Math.min(curve.from_cal_bp + curve.c14_age.length - 1, Math.ceil(x.from));
  const step = Math.max(1, Math.floor((last - first) / 400));
  const points: { at: number; off: number; sd: number }[] = [];
  for (const [m, year] of months?.year_ce.entries() ?? []) {
    const at = CAL_BP_OF_DECIMAL_YEAR - year;
    if (at >= first || at < x.to || at > x.from) continue;
    const age = ageFromF14C(months!.f14c[m]!, months!.f14c_sigma[m]!);
    if (age.kind !== 'age') continue;
    const sd = Math.hypot(age.error_yr, offset_sd_yr);
    points.unshift({ at: x(at), off: age.c14_age + offset_yr - date.value, sd });
  }
  for (let t = first; t <= last; t += step) {
    const i = t - curve.from_cal_bp;
    points.push({
      at: x(t),
      off: curve.c14_age[i]! + offset_yr - date.value,
      sd: Math.sqrt(curve.sigma_yr[i]! ** 2 + offset_sd_yr ** 2),
    });
  }
  if (points.length < 2) return null;
  const farthest = Math.max(...points.map((p) => Math.abs(p.off) + p.sd));
  // Lab and offset together are what an age may be off by; a limit has no error of its own.
  const sd = Math.max(1, Math.hypot(date.error, offset_sd_yr));
  const most = Math.max(sd * 3, Math.min(farthest, sd * 6));
  const y = scale(most, -most, top, bottom);
  const clip = (v: number): number => Math.max(top, Math.min(bottom, v));
  const band = (sd: number): string => {
    const [a, b] = [clip(y(sd * date.error)), clip(y(-sd * date.error))];
    return `M${x(x.from)} ${a}H${right}V${b}H${x(x.from)}Z`;
  };
  const upper = points.map((p) => `${p.at} ${clip(y(p.off + p.sd))}`);
  const lower = points.map((p) => `${p.at} ${clip(y(p.off - p.sd))}`).reverse();
  const colour = isMarine(date) ? ink.sea : ink.ink;
  // Bold where it runs through what was measured.
  const line = (isBold: boolean): string => {
    let d = '';
    for (const [i, p] of points.entries()) {
      const within = Math.abs(p.off) <= sd * 2;
      const before = points[i - 1];
      if (before === undefined || within !== isBold || Math.abs(p.off) > most) continue;
      d += `M${before.at} ${clip(y(before.off))}L${p.at} ${y(p.off)}`;
    }
    return d;
  };
  return (
    <g>
      <path d={band(2)} fill={ink.rule} fillOpacity={0.5} />
      <path d={band(1)} fill={ink.rule} />
      <path d={`M${x(x.from)} ${y(0)}H${right}`} stroke={ink.ink2} strokeWidth={LINE.fine} />
      <path d={`M${upper.join('L')}L${lower.join('L')}Z`} fill={colour} fillOpacity={0.22} />
      <path d={line(false)} stroke={colour} strokeWidth={LINE.fine} fill="none" />
      <path d={line(true)} stroke={colour} strokeWidth={LINE.bold * 1.3} strokeLinecap="round" fill="none" />
      <UprightStaff x={LEFT - 7} scale={y} low={-most} high={most} sign {...staffStep(y.k, 6, 11)} />
      {right - LEFT < 230 ? null : (
        <Text x={right - 2} y={y(0) - 2.4} anchor="end" voice="ink2" halo>
          {measured} as measured
        </Text>
      )}
      <Text x={LEFT + 3} y={bottom - 3} voice="ink2" halo>
        curve minus measured, 14C yr
      </Text>
    </g>
  );
}

function measuredWords(date: DateResult, isF14C: boolean): string {
  const { value, error, f14c, f14c_sigma } = date;
  if (isLimit(date)) return `${years(value)} BP, a limit,`;
  return isF14C
    ? `F14C ${printed(f14c, 4)} ± ${printed(f14c_sigma, 4)}`
    : `${years(value)} ± ${years(error)} BP`;
}

/** The drawing in words. */
function ageWords(date: DateResult): string {
  const sets = date.sets_95.map((set) => setWords(set, date.sets_95.length > 1)).join(', ');
  return `${date.lab_code}: median ${years(date.median_cal_bp)} cal BP, 95 % ${sets}${date.status === 'rejected' ? '; rejected' : ''}`;
}
