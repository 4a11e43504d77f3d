/**
 * What the code on a label says: which campaign, what kind of thing, and its label, as a person can read and type it:
 * "d3000000/sample/T1-0360-B", "d3000000/core/T1/R3". A registered identifier goes before: others can look it up.
 */

/** A thing that a label hangs on. */
export type Labelled = { kind: 'sample'; sample: string } | { kind: 'core'; hole: string; run: string };

/** Of a campaign that states no identity. */
const NO_ID = '0';
/** Of a campaign's identity so much that two campaigns of a laboratory are told apart. */
const ID_CHARACTERS = 8;

const shortId = (campaign: string | null): string =>
  (campaign ?? '')
    .toLowerCase()
    .replace(/[^a-z0-9]/g, '')
    .slice(0, ID_CHARACTERS) || NO_ID;

const escaped = (label: string): string => label.replace(/[%/]/g, (sign) => (sign === '%' ? '%25' : '%2F'));
const unescaped = (text: string): string => text.replace(/%2F/gi, '/').replace(/%25/g, '%');

/** `campaign` is the identity of the campaign in `datapackage.json`. */
export function labelCode(campaign: string | null, thing: Labelled): string {
  const parts = thing.kind === 'sample' ? ['sample', thing.sample] : ['core', thing.hole, thing.run];
  return [shortId(campaign), ...parts.map(escaped)].join('/');
}

export type LabelCodeRead =
  | { ok: true; thing: Labelled }
  | { ok: false; reason: 'no code of ours' | 'another campaign' };

/** What a code names in this campaign. Letter case and spaces around it do not matter, as scanners change them. */
export function readLabelCode(campaign: string | null, text: string): LabelCodeRead {
  const [id, kind, ...labels] = text.trim().split('/').map(unescaped);
  const [first, second] = labels;
  const isOurs =
    id !== undefined &&
    /^[a-z0-9]{1,8}$/i.test(id) &&
    ((kind?.toLowerCase() === 'sample' && labels.length === 1) ||
      (kind?.toLowerCase() === 'core' && labels.length === 2)) &&
    labels.every((label) => label !== '');
  if (!isOurs) return { ok: false, reason: 'no code of ours' };
  if (id.toLowerCase() !== shortId(campaign)) return { ok: false, reason: 'another campaign' };
  return {
    ok: true,
    thing:
      labels.length === 1 ? { kind: 'sample', sample: first! } : { kind: 'core', hole: first!, run: second! },
  };
}
