/** The tide of one field day: the curve, its waters, when the way is open, and the hour to leave by. */
import type { SiteTide } from '@stillstand/campaign/steps';
import { minuteAtLeast, minuteAtMost } from '@stillstand/science/base';
import {
  afloatSpans,
  drySpans,
  highAndLowWaters,
  interpolateExtremes,
  predictionSigma,
  type TideCurve,
  type TideExtreme,
  tideCurve,
} from '@stillstand/science/tide';
import type { Way } from './access.ts';

/** What the water does beside its prediction on an open coast, 1 sd, m: assumed (common practice, no source). */
export const WEATHER_SD_M = 0.15;
const MINUTE_MS = 60_000;
const HOUR_MS = 60 * MINUTE_MS;
/** Looked at before and after the day, so that a span over midnight is whole. */
const AROUND_MS = 12 * HOUR_MS;

export interface OpenSpan {
  /**
   * Whole minutes on the safe side: it opens no earlier and closes no later than shown. Null where it was open before,
   * or stays open after, all that was looked at (or that a table gives).
   */
  from_ms: number | null;
  to_ms: number | null;
  /** End of the span less the travel time, rounded down; null where the span has no end. */
  leave_by_ms: number | null;
  /** How much earlier than the bare level the margin makes the end. */
  margin_min: number | null;
}

export interface DayTide {
  from_ms: number;
  to_ms: number;
  source: 'constants' | 'table';
  /** Gauge the constants or the table's waters are of. */
  gauge: string;
  /** How many constituents are predicted from; 0 for a table. */
  constituents: number;
  /** Constituents that cannot be predicted with, by name. */
  unknown: string[];
  curve: TideCurve;
  /** 1 sigma of the water about the curve, m: weather, and the errors stated of constants and mean level. */
  sd_m: number;
  /** Of the day itself. */
  waters: TideExtreme[];
  /** The level the way is open at: below it on foot, above it by boat; null where no way is stated. */
  limit_m: number | null;
  spans: OpenSpan[];
}

/** Midnight to midnight of a date by a clock so many minutes ahead of UTC, ms. */
export function dayBounds(date: string, offset_min: number): { from_ms: number; to_ms: number } | null {
  const midnight = Date.parse(`${date}T00:00:00Z`);
  if (!/^\d{4}-\d\d-\d\d$/.test(date) || !Number.isFinite(midnight)) return null;
  const from_ms = midnight - offset_min * MINUTE_MS;
  return { from_ms, to_ms: from_ms + 24 * HOUR_MS };
}

/** An official table's waters of the day come before a prediction of our own. Null where there is neither. */
export function dayTide(site: SiteTide, date: string, offset_min: number, way: Way | null): DayTide | null {
  const day = dayBounds(date, offset_min);
  if (day === null) return null;
  const tabled = site.waters.filter(
    ({ time_ms }) => time_ms > day.from_ms - AROUND_MS && time_ms < day.to_ms + AROUND_MS,
  );
  const isTabled = tabled.filter(({ time_ms }) => time_ms >= day.from_ms && time_ms < day.to_ms).length > 1;
  if (!isTabled && site.predicted === null) return null;
  const predicted = isTabled || site.predicted === null ? null : tideCurve(site.predicted.tide);
  const curve = predicted ?? interpolateExtremes(tabled);
  return {
    ...day,
    source: isTabled ? 'table' : 'constants',
    gauge: isTabled ? tabled[0]!.gauge : site.predicted!.gauge,
    constituents: isTabled ? 0 : site.predicted!.constituents.length,
    unknown: predicted?.unknown ?? [],
    curve,
    sd_m: waterSd(isTabled ? null : site),
    waters: isTabled ? tabledWaters(tabled, day) : highAndLowWaters(curve, day.from_ms, day.to_ms),
    limit_m: way === null ? null : limitOf(way),
    spans: way === null ? [] : openSpans(curve, day, way),
  };
}

/** Of a prediction from the site's constants; of an official table, whose own errors are not known, the weather alone. */
function waterSd(site: SiteTide | null): number {
  const predicted = site?.predicted ?? null;
  const own = predicted === null ? 0 : predictionSigma(predicted.tide);
  return Math.sqrt(WEATHER_SD_M ** 2 + own ** 2);
}

/** 2σ of what the water does beside the curve, m, rounded up to the centimetre. */
export const leastMargin = (sd_m: number): number => Math.ceil(200 * sd_m - 1e-9) / 100;

const limitOf = (way: Way): number =>
  way.kind === 'boat' ? way.level_m + way.margin_m : way.level_m - way.margin_m;

function openSpans(curve: TideCurve, day: { from_ms: number; to_ms: number }, way: Way): OpenSpan[] {
  const inLevel = way.kind === 'boat' ? afloatSpans : drySpans;
  const from_ms = day.from_ms - AROUND_MS;
  const to_ms = day.to_ms + AROUND_MS;
  const bare = inLevel(curve, way.level_m, from_ms, to_ms);
  return inLevel(curve, limitOf(way), from_ms, to_ms)
    .filter((span) => span.to_ms > day.from_ms && span.from_ms < day.to_ms)
    .map((span): OpenSpan => {
      const wider = bare.find((b) => b.from_ms <= span.from_ms && b.to_ms >= span.to_ms);
      return {
        from_ms: span.begins ? minuteAtLeast(span.from_ms) : null,
        to_ms: span.ends ? minuteAtMost(span.to_ms) : null,
        leave_by_ms: span.ends ? minuteAtMost(span.to_ms - way.minutes * MINUTE_MS) : null,
        margin_min: span.ends && wider?.ends ? Math.round((wider.to_ms - span.to_ms) / MINUTE_MS) : null,
      };
    })
    .filter(({ from_ms, to_ms }) => from_ms === null || to_ms === null || from_ms < to_ms);
}

/** Waters of a table with their kind, by their neighbours. */
function tabledWaters(
  waters: readonly { time_ms: number; height_m: number }[],
  day: { from_ms: number; to_ms: number },
): TideExtreme[] {
  return waters.flatMap(({ time_ms, height_m }, i): TideExtreme[] => {
    if (time_ms < day.from_ms || time_ms >= day.to_ms) return [];
    const beside = waters[i + 1] ?? waters[i - 1]!;
    return [{ kind: height_m > beside.height_m ? 'high' : 'low', time_ms, height_m }];
  });
}

/** "14:05" by a clock so many minutes ahead of UTC. */
export const clockAt = (time_ms: number, offset_min: number): string =>
  new Date(time_ms + offset_min * MINUTE_MS).toISOString().slice(11, 16);

/** "2024-03-05" by that clock. */
export const dateAt = (time_ms: number, offset_min: number): string =>
  new Date(time_ms + offset_min * MINUTE_MS).toISOString().slice(0, 10);

/** ISO 8601 with offset, to the minute. */
export const isoAt = (time_ms: number, offset_min: number): string =>
  `${dateAt(time_ms, offset_min)}T${clockAt(time_ms, offset_min)}:00${offsetWords(offset_min)}`;

/** "+08:00" */
export function offsetWords(offset_min: number): string {
  const two = (n: number): string => String(Math.trunc(n)).padStart(2, '0');
  const size = Math.abs(offset_min);
  return `${offset_min < 0 ? '-' : '+'}${two(size / 60)}:${two(size % 60)}`;
}

/** Minutes of the offset at the end of a time or standing alone, "Z" too; null where there is none. */
export function offsetIn(time: string): number | null {
  if (/\dZ$/.test(time)) return 0;
  const [, sign, hours, minutes] = /([+-])(\d\d):?(\d\d)$/.exec(time.trim().replace('−', '-')) ?? [];
  if (sign === undefined) return null;
  const size = Number(hours) * 60 + Number(minutes);
  return size > 14 * 60 ? null : sign === '-' ? -size : size;
}

/** The campaign's clock: that of the days' hours to leave by, else of its newest reading, else of this device. */
export function campaignOffset(times: readonly string[], at: Date): number {
  for (const time of times) {
    const offset = /T/.test(time) ? offsetIn(time) : null;
    if (offset !== null) return offset;
  }
  return -at.getTimezoneOffset();
}
