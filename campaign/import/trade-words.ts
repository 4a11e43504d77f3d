/** Words of others for ours, where a column has a choice. Common practice, no source. */

type Pairs = readonly (readonly [ours: string, theirs: RegExp])[];

const CHOICES: Readonly<Record<string, Pairs>> = {
  'holes.method': [
    ['string', /threaded|casing|drill string/i],
    ['chamber', /russian|chamber|d-?section|peat corer/i],
    ['tube', /vibra|piston|gravity|push|tube|livingstone|percussion|hammer/i],
    ['gouge', /gouge/i],
    ['hand', /auger|hand|eijkelkamp|edelman/i],
    ['exposure', /exposure|outcrop|section|trench|pit|cliff/i],
  ],
  'determinations.method': [
    ['radiocarbon', /^(?:ams|14c|c-?14|radiocarbon|lsc|gpc|conventional|rc)\b/i],
    ['u_series', /^(?:u[-/ ]?(?:th|series)|230th|th-?230)/i],
    ['luminescence', /^(?:osl|irsl|tl|luminescence|pirir)/i],
    ['lead210', /^(?:210 ?pb|pb-?210|lead)/i],
    ['caesium137', /^(?:137 ?cs|cs-?137|ca?esium)/i],
  ],
  'determinations.reported_as': [
    ['age', /^(?:14c )?age|^bp$/i],
    ['f14c', /^f ?-?14 ?c|^fraction modern|^f ?m$/i],
  ],
  'determinations.status': [
    ['accepted', /^(?:accept(?:ed)?|yes|y|used|ok|0)$/i],
    ['rejected', /^(?:reject(?:ed)?|no|not used|outlier|1)$/i],
  ],
  'points.kind': [
    ['index', /index|^slip$/i],
    ['terrestrial', /terrestrial|freshwater|upper/i],
    ['marine', /marine|lower/i],
  ],
  'units.contact_below': [
    ['sharp', /sharp|abrupt/i],
    ['gradational', /grad|diffuse/i],
    ['erosional', /ero/i],
  ],
};
const SAME: Readonly<Record<string, string>> = { 'compiled_points.kind': 'points.kind' };

/** Our word for one of theirs; null where none is known. */
export function ourWord(table: string, column: string, theirs: string): string | null {
  const name = `${table}.${column}`;
  return CHOICES[SAME[name] ?? name]?.find(([, pattern]) => pattern.test(theirs.trim()))?.[0] ?? null;
}
