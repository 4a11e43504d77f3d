/**
 * Sections of known truth: a coastal fill over an old land surface, described in a few holes. Beds drape or fill up to a
 * level, so that they end against the rising ground; some are lenses that pinch out; channels cut into what lies below
 * and are filled; a bed may pass sideways into another sediment; the describer misnames some, misses what is thinner than
 * 5 cm, and takes two beds of one name that touch for one. Written apart from the method: it shares no number with it.
 */
import { cos, exp, type RandomStream } from '@stillstand/science/base';
import type { CorrelatedColumn, CorrelatedUnit } from '@stillstand/science/correlate';
import { datedUnits, type SimulatedDates } from './simulated-dates.ts';

export interface SectionTruth {
  /** Every bed named sand. */
  all_sand?: boolean;
  /** Share of the beds missing from each hole at random, on top of what pinches out. */
  missing?: number;
  /** Dip of all beds, m per m. */
  dip?: number;
  /** A property is measured on every unit: share of its spread that is within a bed; 1: it has nothing to do with beds. */
  property_within?: number;
  /** Some units of every hole are dated. */
  dates?: SimulatedDates;
}

export interface SimulatedHole {
  column: CorrelatedColumn;
  at_m: number;
  /** Of each unit the lowest bed in it: two units whose bases are the base of one bed are truly tied. */
  beds: readonly number[];
}

/** Words that one bed may pass into sideways, or be taken for. */
const AKIN: Readonly<Record<string, readonly string[]>> = {
  'fine sand': ['medium sand', 'sandy silt'],
  'medium sand': ['fine sand', 'shelly sand'],
  'sandy silt': ['fine sand', 'silt'],
  silt: ['sandy silt', 'mud'],
  mud: ['silt', 'clay'],
  clay: ['mud', 'silty clay'],
  'silty clay': ['clay', 'mud'],
  'organic mud': ['mud', 'peat'],
  peat: ['organic mud'],
  'shelly sand': ['medium sand', 'shell bed'],
};
const WORDS = Object.keys(AKIN);
const THINNEST_M = 0.05;

interface Bed {
  word: string;
  other: string;
  /** Beyond this it is called the other; before it where negative side. */
  changes_at: number;
  thickness: (x: number) => number;
  /** Fills up to a level instead of draping; null: drapes. */
  level: ((x: number) => number) | null;
}

const between = (stream: RandomStream, low: number, high: number): number =>
  low + (high - low) * stream.uniform();
const pick = <T>(stream: RandomStream, of: readonly T[]): T => of[Math.floor(of.length * stream.uniform())]!;

/** A smooth line of about unit sd along the section. */
function line(stream: RandomStream): (x: number) => number {
  const waves = Array.from({ length: 3 }, () => ({
    height: 0.8 * stream.normal(),
    k: (2 * Math.PI) / between(stream, 120, 1200),
    phase: between(stream, 0, 2 * Math.PI),
  }));
  return (x) => waves.reduce((sum, { height, k, phase }) => sum + height * cos(k * x + phase), 0);
}

function bedsOf(stream: RandomStream, length_m: number): Bed[] {
  const count = 6 + Math.floor(7 * stream.uniform());
  const beds: Bed[] = [];
  let level = between(stream, -9, -7);
  for (let k = 0; k < count; k++) {
    const word = pick(
      stream,
      WORDS.filter((each) => each !== beds.at(-1)?.word),
    );
    const mean = 0.8 * exp(0.6 * stream.normal());
    level += mean;
    const [varies, undulates] = [line(stream), line(stream)];
    const own = level;
    const isLens = stream.uniform() < 0.35;
    const [middle, half] = [between(stream, 0, length_m), between(stream, 0.2, 0.6) * length_m];
    const wedge = (x: number): number =>
      isLens ? Math.min(1, Math.max(0, (half - Math.abs(x - middle)) / (0.4 * half))) : 1;
    beds.push({
      word,
      other: pick(stream, AKIN[word]!),
      changes_at: stream.uniform() < 0.25 ? between(stream, 0, length_m) : Infinity,
      thickness: (x) => mean * exp(0.3 * varies(x)) * wedge(x),
      level: !isLens && stream.uniform() < 0.5 ? (x) => own + 0.15 * undulates(x) : null,
    });
  }
  return beds;
}

/** Holes in their order along the section. */
export function simulatedSection(truth: SectionTruth, stream: RandomStream): SimulatedHole[] {
  const count = 3 + Math.floor(3 * stream.uniform());
  const places = [0];
  while (places.length < count) places.push(places.at(-1)! + between(stream, 30, 200));
  const length_m = places.at(-1)!;
  const beds = bedsOf(stream, length_m);
  const land = line(stream);
  const [rise, from] = [0.01 * stream.normal(), between(stream, -10, -8)];
  const channels = Array.from({ length: Math.floor(3 * stream.uniform()) }, () => ({
    after: 2 + Math.floor((beds.length - 2) * stream.uniform()),
    middle: between(stream, 0, length_m),
    half: between(stream, 40, 150),
    depth: between(stream, 0.5, 2.5),
    word: pick(stream, ['medium sand', 'shelly sand', 'mud']),
  }));
  return places.map((x, i) => {
    const own = stream.split(`hole ${i}`);
    const laid: { bed: number; word: string; bottom: number; top: number }[] = [];
    let surface = from + rise * x + 0.4 * land(x);
    laid.push({ bed: -1, word: 'diamicton', bottom: -Infinity, top: surface });
    const lay = (bed: number, word: string, top: number): void => {
      if (top <= surface || own.uniform() < (truth.missing ?? 0)) return;
      laid.push({ bed, word, bottom: surface, top });
      surface = top;
    };
    beds.forEach(({ word, other, changes_at, thickness, level }, k) => {
      lay(k, x > changes_at ? other : word, level === null ? surface + thickness(x) : level(x));
      channels.forEach((channel, c) => {
        if (channel.after !== k) return;
        const share = (x - channel.middle) / channel.half;
        if (Math.abs(share) >= 1) return;
        const before = surface;
        const cut = surface - channel.depth * (1 - share * share);
        while (laid.length > 1 && laid.at(-1)!.bottom >= cut) laid.pop();
        laid.at(-1)!.top = Math.min(laid.at(-1)!.top, cut);
        surface = laid.at(-1)!.top;
        lay(1000 + c, channel.word, before);
      });
    });
    const dip = (truth.dip ?? 0) * x;
    return described(
      laid.map((each) => ({ ...each, bottom: each.bottom + dip, top: each.top + dip })).reverse(),
      x,
      truth,
      own,
      stream.split('values'),
    );
  });
}

/** What a describer makes of the beds of one hole, from the top down. */
function described(
  beds: readonly { bed: number; word: string; bottom: number; top: number }[],
  at_m: number,
  truth: SectionTruth,
  stream: RandomStream,
  values: RandomStream,
): SimulatedHole {
  const ground = beds[0]!.top;
  const whole = ground - beds.at(-1)!.top;
  const end = ground - Math.max(1, whole * between(stream, 0.6, 1.1));
  const seen: { word: string; bed: number; top: number; bottom: number }[] = [];
  for (const { word, bed, bottom, top } of beds) {
    if (top <= end) break;
    const called = truth.all_sand ? 'sand' : misnamed(word, stream);
    const above = seen.at(-1);
    const isThin = top - Math.max(bottom, end) < THINNEST_M;
    if (above !== undefined && (isThin || (called === above.word && !truth.all_sand))) {
      above.bottom = bottom;
      // What is too thin to see has no base of its own.
      if (!isThin) above.bed = bed;
    } else seen.push({ word: called, bed, top, bottom });
  }
  const [groundError, depthError] = [0.03 * stream.normal(), 0.01 * stream.normal()];
  let top = 0;
  const units = seen.map((unit, i): CorrelatedUnit => {
    const isBaseSeen = i < seen.length - 1 && unit.bottom > end;
    const true_m = ground - Math.max(unit.bottom, end);
    const bottom = Math.max(
      top + 0.01,
      true_m * (1 + depthError) + (isBaseSeen ? 0.03 * stream.normal() : 0),
    );
    const sigma = (depth: number): number => Math.sqrt(0.03 ** 2 + 0.03 ** 2 + (0.01 * depth) ** 2);
    const made: CorrelatedUnit = {
      sediment: unit.word,
      secondary_sediment: null,
      top_m: { value: ground + groundError - top, sigma: sigma(top) },
      base_m: { value: ground + groundError - bottom, sigma: sigma(bottom) },
      thickness_m: { value: bottom - top, sigma: 0.04 },
      isBaseSeen,
      properties:
        truth.property_within === undefined
          ? {}
          : { loss: { value: propertyOf(unit.bed, truth.property_within, values, stream), sigma: 0.1 } },
      base_age: null,
    };
    top = bottom;
    return made;
  });
  const beds_seen = seen.map(({ bed }) => bed);
  return {
    column: {
      units: datedUnits(units, beds_seen, at_m, truth.dates, stream.split('dates'), values),
      hasElevations: true,
    },
    at_m,
    beds: beds_seen,
  };
}

/** Of unit spread in all, with an error of 0.1. */
function propertyOf(bed: number, within: number, values: RandomStream, stream: RandomStream): number {
  const ofBed = values.split(bed).normal();
  return Math.sqrt(1 - within * within) * ofBed + within * stream.normal() + 0.1 * stream.normal();
}

function misnamed(word: string, stream: RandomStream): string {
  const chance = stream.uniform();
  const akin = AKIN[word];
  if (akin !== undefined && chance < 0.08) return pick(stream, akin);
  return chance > 0.98 ? pick(stream, WORDS) : word;
}
