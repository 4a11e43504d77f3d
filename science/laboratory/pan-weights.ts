/**
 * Loss on ignition, water and density from the weights of one pan: with the wet sample, after drying, after burning, and
 * the volume that was cut. What cannot be so is named, and nothing is computed from it.
 */
import { inQuadrature } from '@stillstand/science/base';

/** A weighing or a volume with its 1 sigma; null where none was stated. */
export interface Weighing {
  value: number;
  sigma: number | null;
}

/** Grams, each with the pan; cm³. Null where it was not measured. */
export interface PanWeights {
  /** The empty pan; null where it was tared, the others are then of the sediment alone. */
  pan: Weighing | null;
  wet: Weighing | null;
  dry: Weighing | null;
  /** After ignition. */
  burnt: Weighing | null;
  volume: Weighing | null;
}

/** Measured once more by arithmetic; sigma null where a weight that enters states none. */
export interface Weighed {
  /** Per cent of dry mass. */
  loss_on_ignition: Weighing | null;
  /** Per cent of dry mass. */
  water_content: Weighing | null;
  /** g/cm³. */
  dry_density: Weighing | null;
  /** With its water, g/cm³. */
  wet_density: Weighing | null;
}

export interface WeightFault {
  severity: 'error' | 'warning';
  /** Which weight to look at first. */
  at: keyof PanWeights;
  found: string;
  expected: string;
  fix: string;
}

/** Densities, g/cm³: quartz; organic matter 1.25 and water 1 (common practice, no source; sea water is 1.025). */
const MINERAL = 2.65;
const ORGANIC = 1.25;
const WATER = 1;
/** More water is asked about, per cent of dry mass: fresh peat reaches some 1000 (common practice, no source). */
const WETTEST = 1000;
/** Solids and water that fill more, or less, of the volume than this do not belong to it (common practice, no source). */
const FULLEST = 1.1;
const EMPTIEST = 0.7;
/** Heavier by less is the balance, g. */
const BALANCE_G = 0.0005;

/** Never throws: what is impossible is a fault, and what needs it is null. */
export function fromPanWeights(given: PanWeights): { weighed: Weighed; faults: WeightFault[] } {
  const faults: WeightFault[] = [];
  const { pan, wet, dry, burnt, volume } = possible(given, faults);
  const weighed: Weighed = {
    loss_on_ignition: percentOfDry(dry, burnt, dry, pan),
    water_content: percentOfDry(wet, dry, dry, pan),
    dry_density: density(dry, pan, volume),
    wet_density: density(wet, pan, volume),
  };
  return { weighed: questioned(weighed, faults), faults };
}

/** The weights without those that cannot be. */
function possible(given: PanWeights, faults: WeightFault[]): PanWeights {
  const kept = { ...given };
  const say = (at: keyof PanWeights, found: string, expected: string, fix: string): void => {
    faults.push({ severity: 'error', at, found, expected, fix });
    kept[at] = null;
  };
  for (const at of ['pan', 'wet', 'dry', 'burnt', 'volume'] as const) {
    const weighing = given[at];
    if (weighing === null) continue;
    const isUsable = at === 'volume' ? weighing.value > 0 : weighing.value >= 0;
    if (isUsable && weighing.value < Infinity) continue;
    const expected = at === 'volume' ? 'a volume above 0' : 'a mass of 0 or more';
    say(at, `${NAMES[at]} ${shown(weighing.value)}`, expected, 'Correct it. It is left out until then.');
  }
  const empty = kept.pan?.value ?? 0;
  for (const at of ['wet', 'dry', 'burnt'] as const) {
    const weighing = kept[at];
    if (weighing === null || weighing.value >= empty - BALANCE_G) continue;
    say(
      at,
      `${shown(weighing.value)} g ${NAMES[at]}, ${shown(empty)} g the pan alone`,
      'more than the pan alone',
      'Check whether the pan was already subtracted: leave the pan empty then. Not used until then.',
    );
  }
  const heavier = (at: 'dry' | 'burnt', before: 'wet' | 'dry', of: string): void => {
    const [a, b] = [kept[at], kept[before]];
    if (a === null || b === null) return;
    const slack = Math.max(BALANCE_G, 2 * inQuadrature(a.sigma ?? 0, b.sigma ?? 0));
    if (a.value <= b.value + slack) return;
    say(
      at,
      `${shown(a.value)} g ${NAMES[at]}, ${shown(b.value)} g ${NAMES[before]}`,
      `no more than ${of}`,
      'Check whether two weights or two pans were exchanged. Nothing is computed from it until then.',
    );
  };
  heavier('dry', 'wet', 'the wet sample');
  heavier('burnt', 'dry', 'the dry sample');
  if (kept.dry !== null && !(kept.dry.value - empty > BALANCE_G))
    say(
      'dry',
      `${shown(kept.dry.value - empty)} g of dry sediment`,
      'some sediment in the pan',
      'Correct the weight. Nothing is computed from it until then.',
    );
  return kept;
}

const NAMES = { pan: 'pan', wet: 'wet', dry: 'dry', burnt: 'burnt', volume: 'volume' } as const;

/** 100 (a − b)/(c − pan), where c is a or b. */
function percentOfDry(
  a: Weighing | null,
  b: Weighing | null,
  c: Weighing | null,
  pan: Weighing | null,
): Weighing | null {
  if (a === null || b === null || c === null) return null;
  const of = c.value - (pan?.value ?? 0);
  const value = (100 * (a.value - b.value)) / of;
  if (a.sigma === null || b.sigma === null || (pan !== null && pan.sigma === null))
    return { value, sigma: null };
  // Slopes against a, b and the pan; c is one of the two.
  const slopes = {
    a: 100 / of - (c === a ? value / of : 0),
    b: -100 / of - (c === b ? value / of : 0),
    pan: value / of,
  };
  return {
    value,
    sigma: inQuadrature(slopes.a * a.sigma, slopes.b * b.sigma, slopes.pan * (pan?.sigma ?? 0)),
  };
}

function density(with_pan: Weighing | null, pan: Weighing | null, volume: Weighing | null): Weighing | null {
  if (with_pan === null || volume === null) return null;
  const value = (with_pan.value - (pan?.value ?? 0)) / volume.value;
  if (with_pan.sigma === null || (pan !== null && pan.sigma === null)) return { value, sigma: null };
  const mass = inQuadrature(with_pan.sigma, pan?.sigma ?? 0);
  return {
    value,
    sigma: inQuadrature(mass / volume.value, (value * (volume.sigma ?? 0)) / volume.value),
  };
}

/** Asks about what is possible alone and not together. A density that the volume cannot hold is taken back. */
function questioned(weighed: Weighed, faults: WeightFault[]): Weighed {
  const { loss_on_ignition, water_content, dry_density } = weighed;
  if (water_content !== null && water_content.value > WETTEST)
    faults.push({
      severity: 'warning',
      at: 'wet',
      found: `water content ${shown(water_content.value)} % of dry mass`,
      expected: `at most ${WETTEST} %, as of fresh peat`,
      fix: 'Check the wet weight, the dry weight and the pan. It is used as it is.',
    });
  if (dry_density === null) return weighed;
  // Without a loss on ignition the solids may be anything from organic to mineral.
  const organic = loss_on_ignition === null ? null : loss_on_ignition.value / 100;
  const solid = (part: number): number => part / ORGANIC + (1 - part) / MINERAL;
  const solids = (part: number): number => dry_density.value * solid(part);
  const water = water_content === null ? 0 : (dry_density.value * water_content.value) / 100 / WATER;
  const least = solids(organic ?? 0) + water;
  const most = solids(organic ?? 1) + water;
  if (least > FULLEST) {
    faults.push({
      severity: 'error',
      at: 'volume',
      found: `sediment and water of ${shown(least)} times the volume, dry density ${shown(dry_density.value)}`,
      expected: `at most the volume; a dry density below ${MINERAL} g/cm³`,
      fix: 'Check the volume, its unit and whether all of it was weighed. No density until then.',
    });
    return { ...weighed, dry_density: null, wet_density: null };
  }
  if (water_content !== null && most < EMPTIEST)
    faults.push({
      severity: 'warning',
      at: 'volume',
      found: `solids and water fill ${shown(100 * most)} % of the volume`,
      expected: 'most of it, in sediment from below the water table',
      fix: 'Check whether only a part of the volume was weighed. The density is used as it is.',
    });
  return weighed;
}

/** Three digits, or whole. */
const shown = (value: number): string =>
  String(Math.abs(value) >= 100 ? Math.round(value) : Number(value.toPrecision(4))).replace('-', '−');
