import assert from 'node:assert/strict';
import { test } from 'node:test';
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
    'Problems: 1 danger, 1 error, 1 warning, 1 note',
  ]);
});

test('what is missing or not converged is said, not passed over', () => {
  const results = tinyResults();
  const nothing = { ...results, name: '', holes: [], dates: [], points: [], curve: null, problems: [] };
  assert.deepEqual(headline(nothing), [
    'Campaign without a name',
    'Holes: 0, 0.0 m driven',
    'Dates: 0, none accepted',
    'Points: none',
    'Sea level: no curve; there are no points yet',
    'Problems: none',
  ]);
  const curve = results.curve!;
  const diagnostics = {
    ...curve.diagnostics,
    converged: false,
    rhat_max: Number.NaN,
    remarks: ['rate at 8000'],
  };
  const lines = headline({ ...results, curve: { ...curve, diagnostics } });
  assert.ok(lines.includes('NOT CONVERGED: largest R-hat –, least effective draws 640; rate at 8000'));
});
