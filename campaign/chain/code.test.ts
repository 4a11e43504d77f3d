/** What codes and labels are of, in a campaign written out by hand. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { labelCode } from '@stillstand/campaign/tables';
import { thingOfCode } from './code.ts';

let document = newDocument('codes');
document = withRows(document, 'holes', [{ hole: 'T1', method: 'string' }]);
document = withRows(document, 'runs', [{ hole: 'T1', seq: '1', run: 'R3', recovered: '0.8 m' }]);
document = withRows(document, 'samples', [
  { sample: 'T1-a', hole: 'T1' },
  { sample: 'X', identifier: '10.58052/INVENTED1' },
  { sample: 'y' },
  { sample: 'Y' },
]);
document = withRows(document, 'planned_samples', [{ sample: 'S3', hole: 'T1', top: '3.6 m' }]);
const { campaign } = parseCampaign(document);

const of = (text: string): string => {
  const found = thingOfCode(campaign, text);
  if (!found.ok) return `expected ${found.expected}`;
  return found.thing === null
    ? `planned ${found.planned.sample}`
    : Object.values(found.thing)
        .filter((word) => word !== null)
        .join(' ');
};
const code = (thing: Parameters<typeof labelCode>[1], id = campaign.id): string => labelCode(id, thing);

test('our codes, registered identifiers and typed labels find their thing', () => {
  assert.equal(of(code({ kind: 'sample', sample: 'T1-a' })), 'sample T1-a');
  assert.equal(of(` ${code({ kind: 'sample', sample: 'T1-a' }).toUpperCase()} `), 'sample T1-a');
  assert.equal(of(code({ kind: 'core', hole: 'T1', run: 'R3' })), 'core T1 R3');
  assert.equal(of(code({ kind: 'sample', sample: 'S3' })), 'planned S3');
  for (const text of [
    '10.58052/INVENTED1',
    '10.58052/invented1',
    'https://id.example/10.58052/INVENTED1',
    'x',
  ])
    assert.equal(of(text), 'sample X', text);
  for (const text of ['T1 R3', 't1 r3', 'T1/R3', 'T1, R3']) assert.equal(of(text), 'core T1 R3', text);
});

test('another campaign, what is not there, what may be two, and no code at all are refused with what to do', () => {
  assert.equal(of(code({ kind: 'sample', sample: 'T1-a' }, 'ffffffff')), 'expected a code of this campaign');
  assert.equal(
    of(code({ kind: 'sample', sample: 'gone' })),
    'expected a sample or core that is in the campaign',
  );
  assert.equal(of('Y'), 'sample Y');
  for (const text of ['4006381333931', 'https://example.org/', 'T1 R9'])
    assert.match(of(text), /expected a code of our labels/, text);
  const near = thingOfCode(campaign, 'T1-b');
  assert.ok(!near.ok && near.fix.endsWith('Perhaps T1-a is meant.'));
  assert.equal(of('  '), 'expected a code or a label');
});
