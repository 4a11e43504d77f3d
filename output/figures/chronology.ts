/** What figures of holes and ages must say: which ages belong to a hole, and what warns of them. */
import type { DateResult, HoleResult, Results, SampleResult } from '@stillstand/campaign/results';
import { counted, curveCalled, printed } from '@stillstand/output/words';
import { farOff } from './far.ts';
import type { Warning } from './figure.tsx';

/** Every age of the samples with the sample's depth, from the top down; of one sample, the older last. */
export function chronology(
  results: Results,
  samples: readonly SampleResult[],
): { date: DateResult; depth_m: number }[] {
  const depths = new Map(samples.map((s) => [s.sample, s.depth_m?.value ?? null]));
  return results.dates
    .flatMap((date) => {
      const depth_m = depths.get(date.sample) ?? null;
      return depth_m === null ? [] : [{ date, depth_m }];
    })
    .sort((a, b) => a.depth_m - b.depth_m || a.date.median_cal_bp - b.date.median_cal_bp);
}

/** "Hole T3, Tessarn Spit". */
export function holeTitle({ hole, site, site_name }: HoleResult): string {
  const place = site_name ?? site;
  return `Hole ${hole}${place === null ? '' : `, ${place}`}`;
}

/** Less of a distribution than this beyond a curve's end says nothing. */
const TRUNCATED = 0.0005;

export const isTruncated = (date: DateResult): boolean => date.truncated > TRUNCATED;

export function ageWarnings(dates: readonly DateResult[]): Warning[] {
  const cut = dates.filter(isTruncated);
  if (cut.length === 0) return [];
  const worst = Math.max(...cut.map((d) => d.truncated));
  return [
    {
      kind: 'caution',
      text: `${counted(cut.length, 'age is', 'ages are')} cut off at the end of the calibration curve (${cut.map((d) => d.lab_code).join(', ')}): up to ${printed(100 * worst, worst < 0.1 ? 1 : 0)} % lies beyond`,
    },
  ];
}

/** What of a hole's depths is assumed rather than modelled, in words; null where nothing is. */
export function assumedHole(hole: HoleResult): string | null {
  if (hole.units.length === 0 || hole.depth !== null || hole.runs.length === 0) return null;
  if (hole.runs.every((run) => run.method === 'push')) return null;
  return 'Depths assumed: no soundings to correct them with';
}

/** " (SHCal20; Marine20 with ΔR −120 ± 45 yr)": the calibration curves of some dates. */
export function yearsOf(dates: readonly DateResult[]): string {
  const parts: string[] = [];
  for (const date of dates) {
    if (date.curve === null) continue;
    const name = curveCalled(date.curve);
    const offset =
      date.delta_r === 0 && date.delta_r_error === 0
        ? ''
        : ` with ΔR ${printed(date.delta_r)} ± ${printed(date.delta_r_error)} yr`;
    const part = `${name}${offset}`;
    if (!parts.includes(part)) parts.push(part);
  }
  if (parts.length === 0) return '';
  return parts.length > 4 ? ` (${parts.slice(0, 3).join('; ')}; and others)` : ` (${parts.join('; ')})`;
}

/** "1993–2011" of an epoch; null where none is stated. */
export const epochInWords = ({ epoch }: Results['datum']): string | null => epoch?.replace('-', '–') ?? null;

/** Ends of the 95.4 % range. */
export const oldestOf = (date: DateResult): number => date.sets_95[0]?.older_cal_bp ?? date.median_cal_bp;
export const youngestOf = (date: DateResult): number =>
  date.sets_95.at(-1)?.younger_cal_bp ?? date.median_cal_bp;

/** Tails of a density beyond its 95.4 %, sd. */
const TAIL = 1.5;
/** The ages between which a density is drawn, nearly. */
export const oldestDrawn = (date: DateResult): number => oldestOf(date) + TAIL * date.sd_yr;
export const youngestDrawn = (date: DateResult): number => youngestOf(date) - TAIL * date.sd_yr;

/** The ages between the ends of the axis, and which dates lie off it. */
export function timeAxis(dates: readonly DateResult[]): {
  from: number;
  to: number;
  far: ReadonlySet<DateResult>;
} {
  const off = farOff(dates.map((d) => ({ older_cal_bp: oldestDrawn(d), younger_cal_bp: youngestDrawn(d) })));
  const near = dates.filter((_, i) => !off[i]);
  const oldest = Math.max(100, ...near.map(oldestDrawn));
  const youngest = Math.min(0, ...near.map(youngestDrawn));
  const span = oldest - youngest;
  // From the youngest date where all are old.
  const first = Math.min(...near.map(youngestDrawn), oldest);
  const to = first > youngest + span * 0.4 ? first - (oldest - first) * 0.03 : youngest;
  return { from: oldest + (oldest - to) * 0.03, to, far: new Set(dates.filter((_, i) => off[i])) };
}
