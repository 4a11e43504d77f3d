/** What a code on a label, or a label typed by hand, is of: the sample or core it is fixed to, or a planned sample. */
import type { Campaign } from '@stillstand/campaign/document';
import { type Labelled, nearest, type Row, readLabelCode } from '@stillstand/campaign/tables';
import { keptThings, type Thing, thingName } from './thing.ts';

export type CodeFound =
  | { ok: true; thing: Thing; hole: string | null }
  /** Labelled before it is taken. */
  | { ok: true; thing: null; planned: Row<'planned_samples'> }
  | { ok: false; found: string; expected: string; fix: string };

/**
 * Registered identifiers go before our own codes, and may be written as an address that ends with them; letter case does
 * not matter where only one label is meant, as scanners change it.
 */
export function thingOfCode(campaign: Pick<Campaign, 'id' | 'rows'>, text: string): CodeFound {
  const code = text.trim();
  const { samples, planned_samples } = campaign.rows;
  const refused = (expected: string, fix: string): CodeFound => ({ ok: false, found: code, expected, fix });
  if (code === '') return refused('a code or a label', 'Scan a label, or type what is written on it.');
  const byIdentifier = [...samples, ...planned_samples].find(({ identifier }) =>
    isIdentifier(code, identifier),
  );
  if (byIdentifier !== undefined) return sampleCalled(campaign, byIdentifier.sample)!;
  const read = readLabelCode(campaign.id, code);
  if (!read.ok && read.reason === 'another campaign')
    return refused(
      'a code of this campaign',
      'The label is of another campaign: open that campaign to enter what is done with it.',
    );
  const found = read.ok ? called(campaign, read.thing) : typed(campaign, code);
  if (found !== null) return found;
  const names = [
    ...samples.map(({ sample }) => sample),
    ...keptThings(campaign).map(({ thing }) => thingName(thing)),
  ];
  const near = nearest(code, new Set(names));
  return refused(
    read.ok ? 'a sample or core that is in the campaign' : 'a code of our labels, or a label of the campaign',
    read.ok
      ? 'It was deleted or renamed since the label was printed, or this device has not received it. Type its label now.'
      : `Scan another code on the label, or type its label.${near === null ? '' : ` Perhaps ${near} is meant.`}`,
  );
}

const isIdentifier = (code: string, identifier: string | null): boolean => {
  if (identifier === null) return false;
  const [said, known] = [code.toLowerCase(), identifier.toLowerCase()];
  return said === known || said.endsWith(`/${known}`) || said.endsWith(`:${known}`);
};

const called = (campaign: Pick<Campaign, 'rows'>, thing: Labelled): CodeFound | null =>
  thing.kind === 'sample'
    ? sampleCalled(campaign, thing.sample)
    : coreCalled(campaign, `${thing.hole} ${thing.run}`);

const typed = (campaign: Pick<Campaign, 'rows'>, code: string): CodeFound | null =>
  sampleCalled(campaign, code) ?? coreCalled(campaign, code.replace(/[\s/,]+(?=\S+$)/, ' '));

function sampleCalled({ rows }: Pick<Campaign, 'rows'>, label: string): CodeFound | null {
  const row = oneCalled(rows.samples, label, ({ sample }) => sample);
  if (row !== null) return { ok: true, thing: { kind: 'sample', sample: row.sample }, hole: row.hole };
  const planned = oneCalled(rows.planned_samples, label, ({ sample }) => sample);
  return planned === null ? null : { ok: true, thing: null, planned };
}

function coreCalled(campaign: Pick<Campaign, 'rows'>, name: string): CodeFound | null {
  const cores = keptThings(campaign).filter(({ thing }) => thing.kind === 'core' && thing.tray === null);
  const core = oneCalled(cores, name, ({ thing }) => thingName(thing));
  return core === null ? null : { ok: true, thing: core.thing, hole: core.hole };
}

/** As written, or else the only one that differs by letter case alone. */
function oneCalled<T>(things: readonly T[], name: string, of: (thing: T) => string): T | null {
  const exact = things.find((thing) => of(thing) === name);
  if (exact !== undefined) return exact;
  const alike = things.filter((thing) => of(thing).toLowerCase() === name.toLowerCase());
  return alike.length === 1 ? alike[0]! : null;
}
