import assert from 'node:assert/strict';
import { test } from 'node:test';
import { readConstants } from './constants.ts';

test('agencies’ lists in their shapes: numbered, tabbed, comma-parted, with speeds behind and headings above', () => {
  const M2 = { constituent: 'M2', amplitude_m: 1.371, phase_deg: 109.2 };
  const S2 = { constituent: 'S2', amplitude_m: 0.208, phase_deg: 146.2 };
  for (const text of [
    'M2 1.371 109.2\nS2 0.208 146.2',
    '1\tM2\t1.371\t109.2\t28.984104\n2\tS2\t0.208\t146.2\t30.0',
    'Constituent,Amplitude,Phase\nM2,1.371,109.2\nS2, 0.208, 146.2',
    'm2;1,371;109,2\n\ns2;0,208;146,2',
  ]) {
    assert.deepEqual(readConstants(text, 'm'), { constants: [M2, S2], faults: [] }, text);
  }
  assert.deepEqual(readConstants('LDA2 1 −10', 'ft').constants, [
    { constituent: 'LAM2', amplitude_m: 0.3048, phase_deg: -10 },
  ]);
});

test('what is wrong is named by its line; a name that is not known stays', () => {
  assert.deepEqual(readConstants('M2 1.3\nS2 0.2 400\nM4 0.1 20\nM4 0.2 30', 'm').faults, [
    'Line 1: found “M2 1.3”; expected name, amplitude, phase, such as M2 1.37 109.2.',
    'Line 2: found “S2 0.2 400”; expected name, amplitude, phase, such as M2 1.37 109.2.',
    'Line 4: M4 is listed twice.',
  ]);
  assert.equal(readConstants('MSK5 0.01 20', 'm').constants[0]!.constituent, 'MSK5');
});
