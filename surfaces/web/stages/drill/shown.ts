/** What the screen shows of a hole, whatever is open on it: its log, its checks, its tape, the next action, the drawing. */
import {
  agesOf,
  type CableSaid,
  checksOf,
  dangersOf,
  type HoleRead,
  type SafetyCheck,
} from '@stillstand/campaign/holes';
import { clashesAmong, type OrderClash } from '@stillstand/campaign/order';
import { momentOf } from '@stillstand/campaign/tables';
import { type HoleView, type HoleViewUnit, holeView } from '@stillstand/output/figures';
import { useMemo } from 'react';
import { type Ahead, aheadOf, layersAhead } from './ahead/ahead.ts';
import type { ExpectedHere } from './ahead/expected-here.ts';
import { type BookLine, bookOf } from './book/book.ts';
import { type LogEntry, logOf } from './book/log.ts';
import { piecesSoFar } from './forms/pieces.ts';
import type { NextAction } from './next/action.ts';
import { nextAction } from './next/next-action.ts';
import { safetyFirst } from './next/safety-first.ts';
import type { Moment } from './numbers/big-number.ts';
import { nextPush, type Push, pushesOf } from './numbers/push-hole.ts';
import { cableNow, type Tape, tapes } from './tape/cable.ts';
import type { DrillStore } from './tape/decimal-points.ts';

export interface Given {
  store: DrillStore;
  now: HoleRead;
  /** Described layers, depths below the ground at the start. */
  units: readonly HoleViewUnit[];
  sampledTo_m: number | null;
  /** By the results; null where nothing is expected. */
  expected: ExpectedHere | null;
  resuming: boolean;
  replaced: boolean;
  /** Today, `2024-03-05`: the day whose safety answers hold. */
  day: string;
  /** Now, ms since 1970, to the minute. */
  at_ms: number;
  /** Rise of the sea by its tide since a moment, m; null where no tide is known. */
  riseSince: (from_ms: number) => number | null;
}

export interface Shown {
  lines: readonly BookLine[];
  /** Readings of one place. */
  clashes: readonly OrderClash[];
  /** The lines with their days, stops and end. */
  log: readonly LogEntry[];
  /** A cased hole; any other is made by pushes. */
  byString: boolean;
  pushes: readonly Push[];
  /** Pieces of the last run laid out so far. */
  so: ReturnType<typeof piecesSoFar>;
  checks: readonly SafetyCheck[];
  /** Safety questions answered no, while the hole is worked on. */
  dangers: readonly SafetyCheck[];
  /** Nothing is in the ground yet. */
  isNew: boolean;
  next: NextAction;
  /** The moment all of it is looked at. */
  moment: Moment;
  tape: readonly Tape[];
  cable: CableSaid;
  view: HoleView;
  /** What is expected below, in lines, and what came up otherwise; null where nothing is, and once the hole has ended. */
  ahead: Ahead | null;
  contradictions: ExpectedHere['contradictions'];
}

export function useShown(of: Given): Shown {
  const { store, now } = of;
  const hole = now.row.hole;
  const lines = useMemo(() => bookOf(store, now), [store, now]);
  const clashes = useMemo(() => clashesOf(store, lines, now), [store, lines, now]);
  const log = useMemo(() => logOf(lines, now, clashes), [lines, now, clashes]);
  const byString = now.row.method === 'string';
  const pushes = useMemo(() => (byString ? [] : pushesOf(store, now)), [store, byString, now]);
  const so = piecesSoFar(now, store);
  const checks = checksOf(store, of.day, hole);
  const dangers = now.ended ? [] : dangersOf(checks);
  const moment = useMemo((): Moment => {
    const ages = agesOf(now, of.at_ms);
    const read = now.read_at.outside === null ? null : momentOf(now.read_at.outside);
    return { ages, day: of.day, rise_m: read === null ? null : of.riseSince(read) };
  }, [now, of.at_ms, of.day, of.riseSince]);
  const usual = byString
    ? nextAction(now, {
        resuming: of.resuming,
        replaced: of.replaced,
        unlaid: so !== null && so.recovered_m - Math.max(0, ...so.laid.map((p) => p.bottom_m)) > 0.02,
        ages: moment.ages,
      })
    : nextPush(now, pushes);
  const isNew = byString ? !now.fold.account.some((i) => i.item === 'joint') : pushes.length === 0;
  const next = safetyFirst(usual, checks, now, { day: of.day, begins: isNew || of.resuming });
  const tape = useMemo(() => tapes(now), [now]);
  const cable = useMemo(() => cableNow(now), [now]);
  const expected = now.ended ? null : of.expected;
  const lowest_m = pushes.length === 0 ? null : Math.max(...pushes.map((p) => p.to_m));
  const sank = now.fold.ground_start_m - (now.ground_m ?? now.fold.ground_start_m);
  const layers = useMemo(
    () =>
      expected === null
        ? []
        : layersAhead(
            expected,
            Math.max(of.units.at(-1)?.bottom_m ?? 0, of.sampledTo_m ?? 0, (lowest_m ?? 0) - sank),
          ),
    [expected, sank, lowest_m, of.units, of.sampledTo_m],
  );
  const view = useMemo(
    () =>
      stillRead(
        moment,
        holeView({
          hole,
          now,
          units: of.units,
          sampled_to_m: of.sampledTo_m,
          sampler_length_m: now.sampler?.length_m ?? null,
          rates: true,
          ahead: layers,
          marks: now.run === null ? [] : drawnMarks(cable),
        }),
      ),
    [moment, hole, now, of.units, of.sampledTo_m, cable, layers],
  );
  const ahead = useMemo(
    () => (expected === null ? null : aheadOf(expected, view.shoe_depth_m ?? lowest_m ?? 0, sank)),
    [expected, view.shoe_depth_m, lowest_m, sank],
  );
  return {
    lines,
    clashes,
    log,
    byString,
    pushes,
    so,
    checks,
    dangers,
    isNew,
    next,
    moment,
    tape,
    cable,
    view,
    ahead,
    contradictions: expected?.contradictions ?? [],
  };
}

const NONE: ReadonlySet<string> = new Set();

/** Looked for only where two lines have one number. */
function clashesOf(store: DrillStore, lines: readonly BookLine[], now: HoleRead): OrderClash[] {
  const isTwice = lines.some((line, i) => line.seq === lines[i - 1]?.seq);
  return isTwice ? clashesAmong(store, NONE, NONE, now) : [];
}

/** What nobody has read for too long is left blank in the drawing too. */
function stillRead({ ages }: Moment, view: HoleView): HoleView {
  const noHead = ages.head?.weight === 'not read';
  const noPlug = ages.sediment?.weight === 'not read';
  return {
    ...view,
    ...(noHead ? { water_inside_m: null, water_outside_m: null, head_m: null } : {}),
    ...(noPlug && view.sampler === null ? { plug_m: null } : {}),
  };
}

/** Only tape that was said to be on the cable is drawn on it; null: nobody has said so. */
function drawnMarks({ marks }: CableSaid): HoleView['marks'] | null {
  return (
    marks?.made.map(({ label, tip_m }) => ({
      label,
      tip_m,
      is: label === 'stop' || label === 'sediment' ? label : ('between' as const),
    })) ?? null
  );
}
