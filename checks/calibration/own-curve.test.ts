/**
 * IntCal20 as published, imported as somebody's own curve file with comments above it, against published ranges
 * (calibration_checks.csv) and against the same ages by the name of the curve.
 */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { decided, hereOf, proposed, readTheirs, understand, withProposal } from '@stillstand/campaign/import';
import { computeCampaign } from '@stillstand/campaign/steps';
import { loadCurve } from '@stillstand/published/curves';
import { readCsv } from './read-csv.ts';

test('IntCal20 imported as a curve of one’s own: 51 published ranges, and its ages by name to the last digit', async () => {
  const published = readFileSync(new URL('data/curves/intcal20.csv', import.meta.url), 'utf8');
  const [, ...rows] = published.trimEnd().split(/\r?\n/);
  const file = `# kept by a laboratory, of 2020\n#\n# CAL BP, 14C age, Sigma\n${rows.reverse().join('\n')}\n# end, 9501 rows\n`;
  const [sheet] = (await readTheirs('intcal.14c', Buffer.from(file))).sheets;
  const { mapping } = understand(sheet!)!;
  assert.equal(mapping.as, 'calibration-curves');
  const named = decided(mapping, 'fixed.curve', 'Laboratory 2020');
  assert.ok('mapping' in named);
  const base = newDocument('own curve');
  const proposal = proposed(hereOf(base), sheet!, named.mapping);
  assert.deepEqual([proposal.rows.length, proposal.problems], [9501, []]);
  assert.equal(proposal.lines.at(-1)!.why, 'a comment');

  const checks = readCsv('calibration_checks.csv', [
    'lab_code',
    'c14_age',
    'error',
    'curve',
    'published_95_from',
    'published_95_to',
  ]).filter(({ curve }) => curve === 'IntCal20');
  assert.equal(checks.length, 51);
  let document = withProposal(base, proposal);
  document = withRows(document, 'samples', [{ sample: 'A', depth_basis: 'elevation', elevation_m: '0' }]);
  document = withRows(
    document,
    'determinations',
    checks.flatMap(({ lab_code, c14_age, error }) =>
      ['intcal20', 'Laboratory 2020'].map((calibration_curve) => ({
        lab_code: `${lab_code} ${calibration_curve}`,
        sample: 'A',
        method: 'radiocarbon',
        value: c14_age,
        error,
        calibration_curve,
      })),
    ),
  );
  const { campaign, problems } = parseCampaign(document);
  const curves = { intcal20: await loadCurve('intcal20') };
  const { dates } = computeCampaign(campaign, { curves }, problems, { withCurve: false }).results;
  assert.equal(dates.length, 2 * checks.length);
  for (const [i, { lab_code, published_95_from, published_95_to }] of checks.entries()) {
    const [byName, own] = [dates[2 * i]!, dates[2 * i + 1]!];
    assert.deepEqual(own.density, byName.density, lab_code);
    assert.deepEqual([own.median_cal_bp, own.sets_95], [byName.median_cal_bp, byName.sets_95]);
    assert.ok(Math.abs(own.sets_95[0]!.older_cal_bp - Number(published_95_from)) <= 5, lab_code);
    assert.ok(Math.abs(own.sets_95.at(-1)!.younger_cal_bp - Number(published_95_to)) <= 5, lab_code);
  }
});

test('a curve file as programs save it: other encodings and marks, comments between; what is no row is said', async () => {
  const lines = [
    '# lagoon été',
    'cal BP;14C age (BP);± 1σ',
    '0;150,5;12',
    '# a gap of a line',
    '200;320,5;NaN',
    '#REF!;1;2',
    '100;220,5;14',
  ];
  const text = lines.join('\r\n');
  const utf16 = Buffer.concat([Buffer.from([0xff, 0xfe]), Buffer.from(text, 'utf16le')]);
  for (const bytes of [Buffer.from(`\ufeff${text}`), utf16]) {
    const [sheet] = (await readTheirs('lagoon.csv', bytes)).sheets;
    const { mapping } = understand(sheet!)!;
    assert.equal(mapping.as, 'calibration-curves');
    const named = decided(mapping, 'curve', 'Lagoon');
    assert.ok('mapping' in named);
    const { rows, lines: said } = proposed(hereOf(newDocument('lagoon')), sheet!, named.mapping);
    assert.deepEqual(
      rows.map(({ cells }) => cells),
      [
        { curve: 'Lagoon', age_cal_bp: '0', c14_age: '150.5', c14_error: '12' },
        { curve: 'Lagoon', age_cal_bp: '100', c14_age: '220.5', c14_error: '14' },
      ],
    );
    assert.deepEqual(
      said.map(({ outcome }) => outcome),
      ['set_aside', 'set_aside', 'used', 'set_aside', 'problem', 'problem', 'used'],
    );
  }
});
