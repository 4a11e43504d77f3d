/** What laboratories call the things a profile of lead-210 is made of. */

export type LeadMeasurement = 'total' | 'excess' | 'supported' | 'caesium' | 'density';

/** Names we write. */
export const LEAD_NAMES: Readonly<Record<LeadMeasurement, string>> = {
  total: 'total lead-210',
  excess: 'excess lead-210',
  supported: 'radium-226',
  caesium: 'caesium-137',
  density: 'dry density',
};

const LEAD = '(?:lead210|pb210|210pb)';
const EXCESS = '(?:excess|unsupported|xs|ex|unsupp|uns)';
const SUPPORTED = '(?:supported|supp|sup)';
const ACTIVITY = '(?:activity|act|conc|concentration|specificactivity)?';
const RADIUM = '(?:radium226|ra226|226ra|lead214|pb214|214pb|bismuth214|bi214|214bi)';

/** As they are called with blanks, hyphens, underlines and capitals left out. */
const CALLED: readonly (readonly [LeadMeasurement, RegExp])[] = [
  ['excess', new RegExp(`^${EXCESS}${LEAD}${ACTIVITY}$|^${LEAD}${EXCESS}${ACTIVITY}$`)],
  [
    'supported',
    new RegExp(`^${SUPPORTED}${LEAD}${ACTIVITY}$|^${LEAD}${SUPPORTED}${ACTIVITY}$|^${RADIUM}${ACTIVITY}$`),
  ],
  ['total', new RegExp(`^(?:total|tot)?${LEAD}(?:total|tot)?${ACTIVITY}$`)],
  ['caesium', new RegExp(`^(?:ca?esium137|cs137|137cs)${ACTIVITY}$`)],
  ['density', /^dry(?:bulk)?(?:density|dens)$|^(?:bulkdensity|density|bulk)dry$|^dbd$/],
];

/** What a property is in a profile; null for none of it. */
export function leadMeasurement(property: string): LeadMeasurement | null {
  const plain = property
    .normalize('NFKC')
    .toLowerCase()
    .replaceAll(/[^a-z0-9]/g, '');
  return CALLED.find(([, pattern]) => pattern.test(plain))?.[0] ?? null;
}
