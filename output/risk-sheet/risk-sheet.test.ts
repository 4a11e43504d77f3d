/** The risk sheet: text of a campaign is text, a high risk comes first, and there are lines to sign on. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { riskSheetHtml, riskSheetOf } from './index.ts';

const document = withRows(withRows(newDocument('risks'), 'sites', [{ site: 'A', row_id: 's1' }]), 'risks', [
  { row_id: 'r1', hazard: '<b>Noise</b>', control: 'ear protection', residual: 'low' },
  { row_id: 'r2', hazard: 'Soft ground', residual: 'high', site: 'A' },
  { row_id: 'r3', hazard: 'Cliff', residual: 'medium', site: 'nowhere' },
]);
const { campaign } = parseCampaign(document);

test('a site’s sheet: its own risks and those of every site, a high one named first, deferring to local codes', () => {
  const html = riskSheetHtml(riskSheetOf(campaign, '2024-03-05', 'A'));
  assert.match(html, /^<!doctype html>\n/);
  for (const words of ['Soft ground: residual risk high. Do not start this work.', 'Local codes', 'Signed'])
    assert.ok(html.includes(words), words);
  assert.ok(html.indexOf('residual risk high') < html.indexOf('ear protection'));
  assert.doesNotMatch(html, /<b>Noise|<script|undefined|null|NaN/);
  assert.ok(html.includes('&lt;b&gt;Noise'));
});

test('a row that cannot be used is counted, and an empty sheet has lines to write on', () => {
  const sheet = riskSheetOf(campaign, '', '');
  assert.equal(sheet.unusable, 1);
  assert.ok(riskSheetHtml(sheet).includes('1 row cannot be used'));
  const empty = riskSheetHtml({ campaign: '', date: '', site: '', crew: '', risks: [], unusable: 0 });
  assert.ok(empty.includes('No risk recorded.'));
  assert.ok(empty.includes('______'));
});
