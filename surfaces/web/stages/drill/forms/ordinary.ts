/**
 * Which lengths are ordinary at a hole as it is. A number that is not, and would be in another unit, was most likely
 * typed with the wrong unit lit: that is asked, and nothing changes until somebody says so. The string, its sediment and
 * its water set the range wherever they can; every other range is common practice, no source.
 */
import { type HoleState, mostRecovered } from '@stillstand/campaign/holes';
import { parseLength } from '@stillstand/campaign/tables';
import type { PadUnit } from '../../../parts/index.ts';

/** What stands beside the length in its form. */
export interface BesideIt {
  /** The other lengths typed, metres. */
  lengths: Readonly<Record<string, number | null>>;
  /** Every cell, as typed or fixed. */
  cells: Readonly<Record<string, string>>;
}

/** Metres. */
interface Ordinary {
  least: number;
  most: number;
  /** What it should be near, where something says so. */
  near: readonly number[];
  /** How near. */
  within: number;
}

/** What was probably typed: the same number in another unit. */
export interface Meant {
  unit: PadUnit;
  /** As it would be recorded: "10 ft". */
  text: string;
  metres: number;
}

/** A person who had the wrong unit lit rather had the right one of the same kind of tape. */
const OTHERS: Readonly<Record<PadUnit, readonly PadUnit[]>> = {
  m: ['cm', 'ft', 'in'],
  cm: ['m', 'in', 'ft'],
  ft: ['in', 'm', 'cm'],
  in: ['ft', 'cm', 'm'],
};

/** Lengths pipe is sold in, metres: 1, 1.5, 2, 3 and 6 m; 5, 10 and 20 ft. Common practice, no source. */
const STOCK_M = [1, 1.5, 2, 3, 6, 1.524, 3.048, 6.096];
/** A joint may be cut, and its threads be counted or not. */
const CUT_M = 0.06;
/** Slack of a tape over what the string allows. */
const TAPE_M = 0.03;
/** What the sampler or a tube brings up is seldom less than half of what it went. */
const SELDOM_LESS = 0.5;

/**
 * The unit that was probably meant with a length as it would be recorded ("10 m"); null where the number is ordinary as
 * it is, or in no unit. Feet with inches are never asked about.
 */
export function unitMeant(column: string, recorded: string, now: HoleState, beside: BesideIt): Meant | null {
  const typed = /^(-?[\d. /]+) (m|cm|ft|in)$/.exec(recorded);
  const lit = metresOf(typed?.[0] ?? '');
  const ordinary = ordinaryOf(column, now, beside);
  if (typed === null || lit === null || lit === 0 || ordinary === null) return null;
  const isIn = (m: number): boolean => m >= ordinary.least - 1e-9 && m <= ordinary.most + 1e-9;
  const off = (m: number): number => Math.min(...ordinary.near.map((n) => Math.abs(m - n)));
  const isNear = (m: number): boolean => off(m) <= ordinary.within + 1e-9;
  if (isIn(lit) && (ordinary.near.length === 0 || isNear(lit))) return null;
  const others = OTHERS[typed[2] as PadUnit].flatMap((unit): Meant[] => {
    const text = `${typed[1]} ${unit}`;
    const metres = metresOf(text);
    return metres !== null && isIn(metres) ? [{ unit, text, metres }] : [];
  });
  const near = others.filter(({ metres }) => isNear(metres)).sort((a, b) => off(a.metres) - off(b.metres));
  return near[0] ?? (isIn(lit) ? null : (others[0] ?? null));
}

function metresOf(text: string): number | null {
  const read = parseLength(text);
  return read.ok ? read.metres : null;
}

function ordinaryOf(column: string, now: HoleState, { lengths, cells }: BesideIt): Ordinary | null {
  const shoe = now.fold.collar_to_shoe_m ?? Number.POSITIVE_INFINITY;
  const stickUp = now.last?.stick_up_m ?? null;
  const between = (least: number, most: number, near: readonly (number | null)[] = [], within = 0) => ({
    least,
    most,
    near: near.filter((n) => n !== null),
    within,
  });
  switch (column) {
    case 'length':
      // cut off, it may be any length
      if (!/^(?:|add)$/.test(cells['action'] ?? '')) return between(0.02, 6.2);
      return /^(?:|joint)$/.test(cells['item'] ?? '')
        ? between(0.3, 6.2, [...STOCK_M, ...jointsKnown(now)], CUT_M)
        : between(0.05, 1);
    case 'stick_up':
    case 'stick_up_start': {
      // nothing driven yet: the shoe rests on the ground
      const expected = stickUp ?? (Number.isFinite(shoe) ? shoe - (now.ground_m ?? 0) : null);
      return between(
        -0.3,
        Math.min(shoe, 8) + 0.5,
        [expected],
        Math.max(now.settings.stick_up_tolerance_m, 0.15),
      );
    }
    case 'stick_up_end': {
      const start = lengths['stick_up_start'] ?? stickUp;
      return start === null ? between(-0.3, 8) : between(-0.3, start + 0.005);
    }
    case 'to_sediment':
      // from the top of the plug, which sand that comes in may lift
      return between(Math.max(0, (now.sediment.sounded_m ?? 0) - 0.5), shoe + TAPE_M);
    case 'to_water_inside':
    case 'to_water_before': {
      const inside = now.water.inside_m;
      const last = inside === null || stickUp === null ? null : inside + stickUp;
      return between(-0.05, shoe, [last], 0.5);
    }
    case 'to_water_after':
      return between(-0.05, shoe);
    case 'water_outside':
      return between(-8, 8, [now.water.outside?.below_reference_m ?? null], 1.5);
    case 'start_mark':
      return between(0, shoe + TAPE_M, [now.sediment.sounded_m], 0.1);
    case 'end_mark': {
      const start = lengths['start_mark'] ?? now.run?.start_mark_m ?? now.sediment.sounded_m ?? 0;
      return between(start - 0.005, shoe);
    }
    case 'sediment':
    case 'full':
    case 'stop':
      return between(0, shoe);
    case 'interval':
      return between(0.1, 1.1);
    case 'cable_at_collar':
      return between(-0.5, 0.5);
    case 'recovered':
    case 'fall_in': {
      const whole = column === 'fall_in' ? (lengths['recovered'] ?? null) : null;
      const went = whole ?? enteredOf(now, lengths);
      if (went === null) return between(0, now.sampler?.length_m ?? 6);
      return between(0, mostRecovered(went), column === 'fall_in' ? [] : [went], went * SELDOM_LESS);
    }
    case 'top':
    case 'bottom': {
      const run = lastRun(now);
      return between(0, (run?.recovered_m ?? 6) + TAPE_M);
    }
    case 'to': {
      const from = lengths['from'] ?? null;
      return from === null ? between(0, 60) : between(from + 0.02, from + 6.5);
    }
    case 'inside_top':
    case 'outside_top':
      return between(0, 6.5);
    case 'ground_below_reference':
      return between(-3, 3, [now.ground_m], 0.3);
    default:
      return null;
  }
}

/** Joints measured in this campaign, in whatever hole. */
const jointsKnown = (now: HoleState): number[] =>
  (now.campaign.typed?.rows('string_items') ?? []).flatMap(({ cells }) => {
    const m = cells['item'] === 'joint' && cells['action'] === 'add' ? metresOf(cells['length'] ?? '') : null;
    return m === null ? [] : [m];
  });

const lastRun = (now: HoleState) => now.readings.findLast((r) => r.kind === 'run');

/** How far the push or the run went that a core is of; null where its readings do not say. */
export function enteredOf(now: HoleState, lengths: BesideIt['lengths']): number | null {
  const [from, to] = [lengths['from'] ?? null, lengths['to'] ?? null];
  if (from !== null && to !== null) return to - from;
  // a run that is amended shows its own marks; laid out, it is the last one
  const run = 'end_mark' in lengths ? null : lastRun(now);
  const start = run === null ? (lengths['start_mark'] ?? null) : (run?.start_mark_m ?? null);
  const end = run === null ? (lengths['end_mark'] ?? null) : (run?.end_mark_m ?? null);
  return start === null || end === null ? null : end - start;
}
