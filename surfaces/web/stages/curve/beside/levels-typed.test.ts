/** Levels as people paste them. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { levelsTyped } from './levels-typed.ts';

const said = (text: string) => levelsTyped(text).levels.map((each) => Object.values(each).join(' '));

test('numbers alone, with spaces, commas, tabs or semicolons and a decimal comma', () => {
  const expected = ['6000 -4.5 0.3', '3000 -1 0.2'];
  assert.deepEqual(said('6000 −4.5 0.3\n\n3000 -1 0.2\n'), expected);
  assert.deepEqual(said('6000, -4.5, 0.3\r\n3000, -1, ±0.2'), expected);
  assert.deepEqual(said('6000\t-4,5\t0,3\n3000\t-1\t0,2'), expected);
  assert.deepEqual(said('6000; -4,5; 0,3\n3000; -1; 0,2'), expected);
  assert.deepEqual(said('6000 -4.5\n3000 -1'), ['6000 -4.5 ', '3000 -1 ']);
});

test('columns by their headings, in any order; the curve.csv of another campaign, its error from the 95 %', () => {
  assert.deepEqual(said('source,sd_m,level_m,age_cal_bp\nX,0.3,-4.5,6000'), ['6000 -4.5 0.3']);
  const own = levelsTyped(
    'age_cal_bp,rsl_m_median,rsl_m_lower_68,rsl_m_upper_68,rsl_m_lower_95,rsl_m_upper_95,rate_mm_yr_median\n100,0.08,-0.04,0.20,-0.12,0.28,-0.5',
  );
  assert.ok(own.isFromRange);
  // 0.40 m is 3.92 sigma of a normal law.
  assert.deepEqual(own.levels, [{ age_cal_bp: '100', level_m: '0.08', level_sigma_m: '0.1020' }]);
});

test('what is no level is named with its line, the others are read', () => {
  const { levels, faults } = levelsTyped(
    '6000 -4.5 0.3\nabout -2 0.2\n5000 -3 -0.1\n6000 -4 0.3\n4000 -2 0.2',
  );
  assert.deepEqual(
    levels.map(({ age_cal_bp }) => age_cal_bp),
    ['6000', '4000'],
  );
  assert.deepEqual(
    faults.map((fault) => fault.slice(0, 7)),
    ['Line 2:', 'Line 3:', 'Line 4:'],
  );
  assert.match(
    faults[0]!,
    /found about, -2, 0\.2; expected an age in cal BP, a level in m and its 1 sigma in m/,
  );
  assert.match(levelsTyped('depth,colour\n1,2').faults[0]!, /expected headings for the age and the level/);
  assert.deepEqual(levelsTyped('  \n'), { levels: [], faults: [], isFromRange: false });
});
