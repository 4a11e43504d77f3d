/** Lead-210 profiles in the report: what they hold, the ages of each slice, and the horizon that tests the models. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { leadCutOff, leadProfile } from '../figures/fixtures/lead.ts';
import { reportHtml } from './report.tsx';

const plain = (html: string): string => html.replaceAll(/<[^>]+>/g, '').replaceAll(/\s+/g, ' ');

test('a profile is reported slice by slice, with its horizons, method and source', () => {
  const text = plain(reportHtml(leadProfile, [], { fontCss: '' }));
  assert.match(text, /Lead-210 profile L1, hole T3/);
  assert.match(text, /Supported lead-210 22\.0 ±2\.4 Bq\/kg \(mean of the slices/);
  assert.match(text, /supply 425 ±28 Bq\/m²\/yr/);
  assert.match(
    text,
    /Caesium-137 peak \(1963\) at 0\.230 ±0\.014 m\. There constant supply has 1964 ±4 CE\./,
  );
  assert.match(text, /0\.180–0\.200 \(estimated\)/);
  assert.match(text, /with a half-life of 22\.2 yr: constant rate of supply \(Appleby &amp; Oldfield 1978\)/);
});

test('a profile without a date of collection has no calendar ages; a campaign without profiles no word of them', () => {
  assert.match(plain(reportHtml(leadCutOff, [], { fontCss: '' })), /Lead-210 profile L1/);
  const without = { ...leadProfile, lead_profiles: [] };
  assert.doesNotMatch(plain(reportHtml(without, [], { fontCss: '' })), /[Ll]ead-210/);
});
