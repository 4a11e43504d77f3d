import assert from 'node:assert/strict';
import { test } from 'node:test';
import { midSentence, t, translated } from './index.ts';
import { speaker } from './pattern.ts';

const say = speaker({
  'joint {0}': 'Rohr {0}',
  'lost in {0}': 'in {0} verloren',
  'lost in {0}, run {1}': 'in {0} verloren, Marsch {1}',
  '{0} reads {1} (2σ)': '{0} zeigt {1} (2σ)',
  tape: 'Maßband',
  '{0}': 'never',
});

test('a sentence is said by the message with the most words of its own', () => {
  assert.equal(say('tape'), 'Maßband');
  assert.equal(say('lost in T1'), 'in T1 verloren');
  assert.equal(say('lost in T1, run R4'), 'in T1 verloren, Marsch R4');
});

test('what stands in its places is said too, and what no message reads stays', () => {
  assert.equal(say('tape reads joint J4 (2σ)'), 'Maßband zeigt Rohr J4 (2σ)');
  assert.equal(say('a word of the crew'), 'a word of the crew');
  assert.equal(say('joint $& {1}'), 'Rohr $& {1}');
  assert.equal(say(''), '');
});

test('in English every message is what stands in the source, with its blanks', () => {
  assert.equal(t` in ${3} strokes`, ' in 3 strokes');
  assert.equal(t`{1} typed by a person: ${'{0}'}`, '{1} typed by a person: {0}');
  assert.equal(translated('Buried services located'), 'Buried services located');
  assert.equal(midSentence('Rated load (WLL)'), 'rated load (WLL)');
});
