/** What a column figure draws, and the lanes it draws it in. */
import type { DateResult, HoleResult, Results, SampleResult, UnitResult } from '@stillstand/campaign/results';
import { type Sediment, sedimentOfUnit, textWidth } from '@stillstand/output/drawing';
import { STRIP_PAPER } from '@stillstand/output/photographs';
import { chronology } from '../chronology.ts';
import type { FigureOptions } from '../figure.tsx';
import { type PhotographLane, photographLane } from './photographs.ts';

/** Lanes from left to right, points. */
const WHOLE = {
  elevationStaff: 24,
  runLabel: 58,
  core: 62,
  coreWidth: 8,
  ties: [73, 103],
  depthStaff: 123,
  column: 133,
  clayWidth: 38,
  gravelWidth: 68,
  seen: 214,
  sample: 233,
} as const;
/** What the core as it came up takes of it. */
const CORE_LANES = 73;
const NARROW = { ...WHOLE, depthStaff: 52, column: 61, clayWidth: 27, gravelWidth: 46 } as const;
/** What the strips of photographs take, between staff and column. */
const STRIP_LANE = STRIP_PAPER.width + 6;
const SEDIMENT_LANE = 112;
/** Between the ages and the words. */
const WORDS_GAP = 16;
/** Before and after the name of a sample. */
const NAME_ROOM = 21;
/** Least room for densities and their words, and for the words of an age alone. */
const DENSITIES = 90;
const AGE_WORDS = 48;

export type Lanes = Readonly<Record<Exclude<keyof typeof WHOLE, 'ties'>, number>> & {
  ties: readonly [number, number];
  hasCore: boolean;
  /** Left edge of the strips of photographs; null where there are none, or no room for them. */
  strips: number | null;
  hasSeen: boolean;
  /** Left edge of the words of each unit; null where they stand below the column. */
  words: number | null;
  ages: 'densities' | 'words' | 'medians';
  agesEnd: number;
  /** Of the names of samples; 0 where there is no room for them. */
  nameWidth: number;
  /** Points from margin to margin that hold every lane. */
  least: number;
};

/** With strips of photographs where every lane but the words has room next to them. */
function lanesFor(
  inner: number,
  samples: readonly SampleResult[],
  has: { core: boolean; strips: boolean },
): Lanes {
  const without = lanesWithoutStrips(inner, samples, has.core);
  if (!has.strips) return without;
  const least = without.least + STRIP_LANE;
  if (inner < least) return { ...without, least };
  const room = lanesWithoutStrips(inner - STRIP_LANE, samples, has.core);
  return {
    ...room,
    strips: room.column - 3,
    column: room.column + STRIP_LANE,
    seen: room.seen + STRIP_LANE,
    sample: room.sample + STRIP_LANE,
    words: room.words === null ? null : room.words + STRIP_LANE,
    agesEnd: room.agesEnd + STRIP_LANE,
    least,
  };
}

/**
 * Lanes for the width there is: the words go below the column first; then the core as it came up is left out, then the
 * densities of the ages, then what was seen and all of an age but its median.
 */
function lanesWithoutStrips(inner: number, samples: readonly SampleResult[], hasCore: boolean): Lanes {
  const nameWidth = Math.min(48, Math.max(0, ...samples.map((s) => textWidth(s.sample))));
  const least = WHOLE.sample + nameWidth + NAME_ROOM + DENSITIES;
  const whole = {
    ...WHOLE,
    hasCore,
    strips: null,
    hasSeen: true,
    words: null,
    ages: 'densities' as const,
    agesEnd: inner,
    nameWidth,
    least,
  };
  if (inner >= least + WORDS_GAP + SEDIMENT_LANE) {
    const words = inner - SEDIMENT_LANE;
    return { ...whole, words, agesEnd: words - WORDS_GAP };
  }
  if (inner >= least) return whole;
  const without = {
    ...whole,
    hasCore: false,
    depthStaff: WHOLE.depthStaff - CORE_LANES,
    column: WHOLE.column - CORE_LANES,
    seen: WHOLE.seen - CORE_LANES,
    sample: WHOLE.sample - CORE_LANES,
  };
  if (inner >= least - CORE_LANES) return without;
  const narrow = { ...without, ...NARROW, seen: 124, sample: 147, ages: 'words' as const };
  if (inner >= narrow.sample + nameWidth + NAME_ROOM + AGE_WORDS) return narrow;
  return { ...narrow, hasSeen: false, sample: 123, ages: 'medians', nameWidth: 0 };
}
/** Room above the ground for heads and scales. */
export const HEAD = 40;

export interface Column {
  hole: HoleResult;
  units: { unit: UnitResult; sediment: Sediment }[];
  samples: SampleResult[];
  dates: { date: DateResult; depth_m: number }[];
  photographs: PhotographLane;
  bottom_m: number;
  lane: Lanes;
}

/** In-situ depth down to which a hole is drawn, m. */
export function columnBottom({ samples, measurements }: Results, hole: HoleResult): number {
  const placed = [...samples, ...measurements].filter((each) => each.hole === hole.hole);
  return Math.max(
    0.1,
    hole.penetration_m ?? 0,
    ...hole.units.map((u) => u.depth_bottom_m.value),
    ...hole.runs.map((r) => r.depth_bottom_m.value),
    ...placed.flatMap(({ depth_m }) => depth_m?.value ?? []),
  );
}

/** What is drawn of a hole in so many points from margin to margin. */
export function gather(
  results: Results,
  label: string,
  inner: number,
  { pictures }: Pick<FigureOptions, 'pictures'> = {},
): Column {
  const hole = results.holes.find((h) => h.hole === label);
  if (hole === undefined) {
    throw new RangeError(
      `graphicLog: expected one of ${results.holes.map((h) => h.hole).join(', ')}, found ${label}`,
    );
  }
  const units = hole.units
    .map((unit) => ({ unit, sediment: sedimentOfUnit(unit) }))
    .sort((a, b) => a.unit.depth_top_m.value - b.unit.depth_top_m.value);
  const samples = results.samples
    .filter((s) => s.hole === label && s.depth_m !== null)
    .sort((a, b) => a.depth_m!.value - b.depth_m!.value);
  const dates = chronology(results, samples);
  const bottom_m = columnBottom(results, hole);
  const photographs = photographLane(results, label, pictures);
  const lane = lanesFor(inner, samples, {
    core: hole.runs.length > 0,
    strips: photographs.strips.length > 0,
  });
  return { hole, units, samples, dates, photographs, bottom_m, lane };
}

export const grainWidth = ({ clayWidth, gravelWidth }: Lanes, grain: number): number =>
  clayWidth + ((gravelWidth - clayWidth) * grain) / 5;
