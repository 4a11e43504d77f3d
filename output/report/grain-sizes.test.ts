/** Grain size in the report: the table of samples, what is left unknown, and the words of the methods. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { tinyResults } from './fixtures/results.ts';
import { methodsText, reportHtml } from './index.ts';

const results = tinyResults();
const [size] = results.grain_sizes;

const page = (of: typeof results): string => reportHtml(of, [], { fontCss: '' });

test('each sample has its parts, name and graphic statistics with 2 sigma', () => {
  const html = page(results);
  const row = /<h3>Grain size<\/h3>.*?<tbody>(.*?)<\/tbody>/s
    .exec(html)![1]!
    .replace(/<[^>]+>/g, ' ')
    .replace(/\s+/g, ' ');
  assert.match(row, /A1 5\.20 sand 0\.0 100\.0 0\.0 0\.0 2\.16 2\.10 ±0\.02 0\.61 −0\.15 0\.77/);
});

test('what a class without an end leaves unknown is a dash; what does not sum is counted', () => {
  const open = { ...size!, silt_percent: null, clay_percent: null, folk_ward: null, open_fine_percent: 12 };
  const off = { ...size!, open_fine_percent: null };
  const html = page({ ...results, grain_sizes: [open, off] });
  assert.match(html, /1 without statistics: their classes do not sum to 100 %/);
  const methods = methodsText({ ...results, grain_sizes: [open] }, 'a test');
  assert.doesNotMatch(methods, /Folk & Ward/);
  assert.match(methodsText(results, 'a test'), /6\.6 in the\s+divisor/);
  assert.doesNotMatch(page({ ...results, grain_sizes: [] }), /<h3>Grain size/);
});
