import assert from 'node:assert/strict';
import { test } from 'node:test';
import { curveOf, withCurve } from '@stillstand/campaign/results';
import { tinyResults } from './fixtures/results.ts';
import { headline } from './headline.ts';

test('the headline says what was found, line by line', () => {
  const [name, ...lines] = headline({ ...tinyResults(), name: 'Tiny' });
  assert.equal(name, 'Tiny');
  assert.deepEqual(lines, [
    'Holes: 2 (1 lost), 16.6 m driven, pipe recovery 0.80',
    'Dates: 3 accepted, 1 rejected, 7,420 to 310 cal BP',
    'Points: 2 index, 1 marine limiting, 1 rejected',
    'Sea level at 8,000 cal BP: −11.45 m, 95 % −12.06 to −10.84',
    'Rate 8,000 to 7,000 cal BP: +4.25 mm/yr, 95 % +3.78 to +4.72',
    'Rate 2,000 to 0 cal BP: −0.10 mm/yr, 95 % −0.49 to +0.29',
    'Converged: largest R-hat 1.004, least effective draws 640',
    'Dates contradict the order of their depths: P1 above P2 (p 0.013)',
    'No point disagrees with the others: none has p below 0.017 (0.05 over 3 points) or an age moved by more than 2 sd',
    'Problems: 1 danger, 1 error, 1 warning, 1 note',
  ]);
});

test('what is missing or not converged is said, not passed over', () => {
  const results = tinyResults();
  const nothing = { ...results, name: '', holes: [], dates: [], points: [], curves: [], problems: [] };
  assert.deepEqual(headline(nothing), [
    'Campaign without a name',
    'Holes: 0, 0.0 m driven',
    'Dates: 0, none accepted',
    'Points: none',
    'Sea level: no curve; there are no points yet',
    'Problems: none',
  ]);
  const curve = curveOf(results)!;
  const diagnostics = {
    ...curve.diagnostics,
    converged: false,
    rhat_max: Number.NaN,
    remarks: ['rate at 8000'],
  };
  const lines = headline(withCurve(results, { ...curve, diagnostics }));
  assert.ok(lines.includes('NOT CONVERGED: largest R-hat –, least effective draws 640; rate at 8000'));
  // Each number by itself, since a line is what is quoted.
  const numbers = lines.filter((line) => /^(Sea level at|Rate )/.test(line));
  assert.deepEqual(
    [numbers.length, numbers.filter((line) => line.includes('(NOT CONVERGED)')).length],
    [3, 3],
  );
});

test('points that disagree are named with p and shift, the worst first, and an end on one point is said', () => {
  const results = tinyResults();
  const curve = curveOf(results)!;
  const [first, second, ...rest] = curve.points;
  const points = [
    { ...first!, predictive_p: 0.004, age_shift_sd: -0.26, others_level_m: { mean: -3.2, sd: 4 } },
    { ...second!, predictive_p: 0.00004, age_shift_sd: 2.44 },
    ...rest,
  ];
  const lines = headline(withCurve(results, { ...curve, points }));
  assert.ok(
    lines.includes(
      `Points disagree with the others: ${second!.id} (p <0.001, age moved +2.4 sd) and ${first!.id} (p 0.008, age moved −0.3 sd). Named is p below 0.017 (0.05 over 3 points) or an age moved by more than 2 sd`,
    ),
    lines.join('\n'),
  );
  assert.ok(!lines.some((line) => line.startsWith('No point disagrees')));
  const youngerIndex = points.filter(({ kind }) => kind === 'index')[1]!;
  const ends = lines.filter((line) => line.includes('depends on one'));
  assert.deepEqual(ends, [
    `The level before ${ageOf(youngerIndex)} cal BP depends on one point, ${first!.id}.`,
  ]);
});

const ageOf = ({ age_cal_bp }: { age_cal_bp: { median: number } }): string =>
  Math.round(age_cal_bp.median).toLocaleString('en');

test('points of other sites than the curve’s are counted, with their sites', () => {
  const results = tinyResults();
  const [first, ...rest] = results.points;
  const lines = headline({ ...results, points: [{ ...first!, site: 'Far Bay' }, ...rest] });
  assert.ok(lines.includes('Curve of MB; 1 point of Far Bay in no curve'), lines.join('\n'));
  const together = headline({
    ...results,
    curves: results.curves.map((curve) => ({ ...curve, sites: ['MB', 'Far Bay'] })),
  });
  assert.ok(together.includes('Curve of MB, Far Bay'));
  const [own] = results.curves;
  const far = { ...own!, id: 'Far Bay', role: 'of its own' as const, sites: ['Far Bay'] };
  const apart = headline({
    ...results,
    points: [{ ...first!, site: 'Far Bay' }, ...rest],
    curves: [own!, far, { ...far, id: 'islands', sites: ['X', null], curve: null }],
  });
  assert.ok(apart.includes('Curve of MB'));
  const at = apart.indexOf('Curve Far Bay, of Far Bay:');
  const rate = lines.find((line) => line.startsWith('Rate '))!;
  assert.ok(apart.indexOf(`  ${rate}`) > at && at > apart.indexOf(rate));
  assert.ok(apart.includes('Curve islands, of X, no site: none could be computed; the problems say why'));
});

test('a level older than every index point says so', () => {
  const results = tinyResults();
  const curve = curveOf(results)!;
  const points = curve.points.filter(({ kind }) => kind !== 'index');
  const lines = headline(withCurve(results, { ...curve, points }));
  assert.match(lines.find((line) => line.startsWith('Sea level at'))!, /No index point is so old/);
});
