/** What laboratories call the weights of a pan, and quantities that have several names. */
import type { PanWeights } from './pan-weights.ts';

/** Capitals, blanks, hyphens, underlines and plus signs left out. */
const plainName = (property: string): string =>
  property
    .normalize('NFKC')
    .toLowerCase()
    .replaceAll(/[^a-z0-9]/g, '');

const PAN = '(?:pan|crucible|boat|dish|tray|tare|vial)';
const MASS = '(?:mass|weight|wt)';
const WITH = '(?:and|plus|with)?';
const OF = '(?:sample|sediment)?';

/** "Pan + wet", "wet mass with pan", "dry weight". */
const weight = (state: string): RegExp =>
  new RegExp(
    `^(?:${MASS}of)?${PAN}${WITH}${state}${OF}${MASS}?$|^${state}${OF}${MASS}(?:${WITH}${PAN})?$|^${state}${OF}${WITH}${PAN}${MASS}?$`,
  );

const WEIGHTS: readonly (readonly [keyof PanWeights, RegExp])[] = [
  ['pan', new RegExp(`^(?:empty)?${PAN}${MASS}?$|^${MASS}of${PAN}$`)],
  ['wet', weight('(?:wet|moist|fresh)')],
  ['dry', weight('(?:dry|dried)')],
  ['burnt', weight('(?:burnt|burned|ash|ashed|ignited)')],
  ['volume', /^(?:sample|sediment|wet)?volume$/],
];

/** Which weight of a pan a property is; null for none. */
export function panWeight(property: string): keyof PanWeights | null {
  const plain = plainName(property);
  return WEIGHTS.find(([, pattern]) => pattern.test(plain))?.[0] ?? null;
}

/** Names we write of what weights give. */
export const WEIGHED_NAMES = {
  loss_on_ignition: 'loss on ignition',
  water_content: 'water content',
  dry_density: 'dry density',
  wet_density: 'wet density',
} as const;

const SYNONYMS: readonly (readonly [string, RegExp])[] = [
  [WEIGHED_NAMES.loss_on_ignition, /^(?:loi|lossonignition)(?:550)?c?$/],
  [WEIGHED_NAMES.water_content, /^(?:water|moisture)content$/],
  [WEIGHED_NAMES.dry_density, /^dry(?:bulk)?density$|^(?:bulk)?densitydry$|^dbd$/],
  [WEIGHED_NAMES.wet_density, /^wet(?:bulk)?density$|^(?:bulk)?densitywet$/],
];

/** One name for one quantity, however it is spelt: to group by, not to print. */
export function quantityCalled(property: string): string {
  const plain = plainName(property);
  return SYNONYMS.find(([, pattern]) => pattern.test(plain))?.[0] ?? (plain || property);
}
