/** Sizes that a class of a grain-size analysis holds, read from its name: limits in a unit, or a word of a scale. */
import { phiFromMillimetres } from './grain-size.ts';
import { grainSizeClasses } from './grain-size-classes.ts';
import { laboratoryUnit } from './units.ts';

/** In φ, which rises towards finer: coarser_phi < finer_phi; null where the class is open at that end. */
export interface SizeRange {
  coarser_phi: number | null;
  finer_phi: number | null;
}

export type ScaleName = 'wentworth' | 'iso_14688';

/** Where gravel, sand, silt and clay part, and what a word means. */
export interface SizeScale {
  name: ScaleName;
  /** As it is cited. */
  printed: string;
  /** Lower limits of gravel, sand and silt, mm. */
  gravel_mm: number;
  sand_mm: number;
  silt_mm: number;
}

/** Wentworth 1922, J. Geology 30:377–392; ISO 14688-1 from memory. */
export const SIZE_SCALES: Readonly<Record<ScaleName, SizeScale>> = {
  wentworth: {
    name: 'wentworth',
    printed: 'Wentworth 1922',
    gravel_mm: 2,
    sand_mm: 0.0625,
    silt_mm: 0.00390625,
  },
  iso_14688: { name: 'iso_14688', printed: 'ISO 14688-1', gravel_mm: 2, sand_mm: 0.063, silt_mm: 0.002 },
};

type Limits = readonly [low_mm: number | null, high_mm: number | null];

const partsOf = ({ gravel_mm, sand_mm, silt_mm }: SizeScale): Readonly<Record<string, Limits>> => ({
  gravel: [gravel_mm, null],
  sand: [sand_mm, gravel_mm],
  mud: [null, sand_mm],
  silt: [silt_mm, sand_mm],
  clay: [null, silt_mm],
});

/** What each word means. */
const WORDS: Readonly<Record<ScaleName, Readonly<Record<string, Limits>>>> = {
  wentworth: {
    ...Object.fromEntries(grainSizeClasses.map(({ name, mm_min, mm_max }) => [name, [mm_min, mm_max]])),
    ...partsOf(SIZE_SCALES.wentworth),
  },
  iso_14688: {
    ...partsOf(SIZE_SCALES.iso_14688),
    cobble: [63, 200],
    'coarse gravel': [20, 63],
    'medium gravel': [6.3, 20],
    'fine gravel': [2, 6.3],
    'coarse sand': [0.63, 2],
    'medium sand': [0.2, 0.63],
    'fine sand': [0.063, 0.2],
    'coarse silt': [0.02, 0.063],
    'medium silt': [0.0063, 0.02],
    'fine silt': [0.002, 0.0063],
  },
};

const NUMBER = String.raw`([-−]?\d+(?:[.,]\d+)?)`;
const UNIT = '(µm|μm|um|microns?|mm|cm|phi|φ|ϕ)';
const BETWEEN = new RegExp(`^${NUMBER}${UNIT}?(?:-|–|−|to|\\.\\.)${NUMBER}${UNIT}$`);
const BEYOND = new RegExp(
  `^(<|>|≥|≤|below|above|under|over|finerthan|coarserthan|retainedon|passing|pan)${NUMBER}${UNIT}$`,
);
const COARSE = ['>', '≥', 'above', 'over', 'coarserthan', 'retainedon'];

/**
 * "63–125 µm", "> 2 mm", "3 to 4 phi", "fine sand"; "grain size", "fraction", "sieve" and the like may stand before or
 * after. Of φ, "> 4 φ" is finer than 4 φ: the number, not the grain, is larger. Null for a name that is no class.
 */
export function sizeRange(name: string, scale: ScaleName): SizeRange | null {
  const plain = name
    .toLowerCase()
    .replace(/\b(grain[- ]?size|particle[- ]?size|size|fraction|class|sieve|content|total)\b/g, ' ')
    .replace(/[,:;()[\]]+(?=\s|$)|^[,:;()[\]\s]+/g, ' ')
    .trim()
    .replace(/\s+/g, ' ');
  const word = Object.hasOwn(WORDS[scale], plain) ? WORDS[scale][plain]! : null;
  if (word !== null) {
    const [low, high] = word;
    return {
      coarser_phi: high === null ? null : phiFromMillimetres(high),
      finer_phi: low === null ? null : phiFromMillimetres(low),
    };
  }
  const tight = plain.replace(/\s/g, '');
  const between = BETWEEN.exec(tight);
  if (between !== null) {
    const unit = between[4]!;
    const a = limitPhi(between[1]!, between[2] ?? unit);
    const b = limitPhi(between[3]!, unit);
    if (a === null && b === null) return null;
    // "0–63 µm": nothing is finer than 0.
    if (a === null || b === null) return { coarser_phi: a ?? b, finer_phi: null };
    if (a === b) return null;
    return { coarser_phi: Math.min(a, b), finer_phi: Math.max(a, b) };
  }
  const beyond = BEYOND.exec(tight);
  if (beyond === null) return null;
  const limit = limitPhi(beyond[2]!, beyond[3]!);
  if (limit === null) return null;
  const isPhi = /^(phi|φ|ϕ)$/.test(beyond[3]!);
  const isLarger = COARSE.includes(beyond[1]!);
  const isSign = /^[<>≥≤]$/.test(beyond[1]!);
  const isCoarse = isPhi && isSign ? !isLarger : isLarger;
  return isCoarse ? { coarser_phi: null, finer_phi: limit } : { coarser_phi: limit, finer_phi: null };
}

/** Null for a diameter of 0. Throws nothing: a negative diameter is no limit either. */
function limitPhi(number: string, unit: string): number | null {
  const value = Number(number.replace('−', '-').replace(',', '.'));
  if (/^(phi|φ|ϕ)$/.test(unit)) return value;
  const mm = value * laboratoryUnit(unit.replace('μ', 'µ'))!.factor;
  return mm > 0 ? phiFromMillimetres(mm) : null;
}
