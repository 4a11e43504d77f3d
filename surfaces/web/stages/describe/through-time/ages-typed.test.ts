import assert from 'node:assert/strict';
import { test } from 'node:test';
import { typedAges } from './ages-typed.ts';

test('ages are kept as the setting writes them, each once, thousands without their comma', () => {
  for (const [typed, value] of [
    ['', ''],
    [' ; ', ''],
    ['8000; 6,000;4000.5', '8000; 6000; 4000.5'],
    ['−50\n2000; 2,000', '-50; 2000'],
  ] as const)
    assert.deepEqual(typedAges(typed), { ok: true, value });
});

test('what is no age, lies out of range or is one too many is said with what is expected', () => {
  for (const [typed, fault] of [
    ['8000; old', /“old”; expected ages from −100 to 50,000 cal BP, separated by ;/],
    ['8,00', /“8,00”/],
    ['60000', /“60000”/],
    ['-101', /“-101”/],
    ['8000 6000', /“8000 6000”/],
    ['1;2;3;4;5;6;7', /Found 7 ages; expected 6 at most/],
  ] as const) {
    const found = typedAges(typed);
    assert.ok(!found.ok, typed);
    assert.match(found.fault, fault);
  }
});
