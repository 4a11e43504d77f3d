/**
 * The tide of this minute at a site: rising or falling, its level, and the water it goes to; and how far it has moved
 * since a level was read. From an official table where one is written down for these hours, else from the site's
 * constants. No stand-in for a look at the water: weather is not in it.
 */
import type { SiteTide } from '@stillstand/campaign/steps';
import { highAndLowWaters, interpolateExtremes, type TideCurve, tideCurve } from '@stillstand/science/tide';

const HOUR_MS = 3_600_000;
/** Looked ahead for the next water: longer than any half of a daily tide. */
const AHEAD_MS = 30 * HOUR_MS;

export interface TideNow {
  state: 'flood' | 'ebb';
  /** Of the water now, m on the datum that was asked for. */
  height_m: number;
  next: { kind: 'high' | 'low'; time_ms: number; height_m: number };
  source: 'constants' | 'table';
}

/** The curve that holds at all these moments; null where neither a table nor constants give one. */
export function tideAt(
  site: SiteTide,
  times_ms: readonly number[],
): { curve: TideCurve; source: TideNow['source'] } | null {
  const [from, to] = [Math.min(...times_ms), Math.max(...times_ms)];
  const first = site.waters[0];
  const last = site.waters.at(-1);
  // between two waters of the table, each less than a day from the next
  const around = site.waters.filter(
    ({ time_ms }) => time_ms > from - 24 * HOUR_MS && time_ms < to + 24 * HOUR_MS,
  );
  const isTabled =
    first !== undefined &&
    last !== undefined &&
    first.time_ms <= from &&
    last.time_ms >= to &&
    around.every((w, i) => i === 0 || w.time_ms - around[i - 1]!.time_ms < 16 * HOUR_MS);
  if (isTabled) return { curve: interpolateExtremes(around), source: 'table' };
  return site.predicted === null ? null : { curve: tideCurve(site.predicted.tide), source: 'constants' };
}

/** Null where no tide is known for now, or it stands still. */
export function tideNow(site: SiteTide, at_ms: number): TideNow | null {
  const of = tideAt(site, [at_ms]);
  if (of === null) return null;
  const { curve, source } = of;
  const ahead =
    source === 'table' ? tabledNext(site, at_ms) : highAndLowWaters(curve, at_ms, at_ms + AHEAD_MS)[0];
  if (ahead === undefined) return null;
  const height_m = curve.height_m(at_ms);
  return Number.isFinite(height_m)
    ? { state: ahead.kind === 'high' ? 'flood' : 'ebb', height_m, next: ahead, source }
    : null;
}

function tabledNext({ waters }: SiteTide, at_ms: number): TideNow['next'] | undefined {
  const at = waters.findIndex(({ time_ms }) => time_ms > at_ms);
  const next = waters[at];
  const before = waters[at - 1];
  return next === undefined || before === undefined
    ? undefined
    : {
        kind: next.height_m > before.height_m ? 'high' : 'low',
        time_ms: next.time_ms,
        height_m: next.height_m,
      };
}
