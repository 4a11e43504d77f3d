import assert from 'node:assert/strict';
import { test } from 'node:test';
import { layersOf } from './layers.ts';

test('pieces of one label and one sediment that follow one another are one layer', () => {
  const pieces = ['A sand', 'A sand', 'A mud', 'B mud', 'A sand', ' peat', ' peat', 'C -', 'C -'].map(
    (text) => {
      const [unit, sediment] = text.split(' ') as [string, string];
      return { unit, sediment: sediment === '-' ? null : sediment };
    },
  );
  assert.deepEqual(
    layersOf(pieces, (piece) => piece).map((layer) => layer.length),
    [2, 1, 1, 1, 1, 1, 2],
  );
  assert.deepEqual(
    layersOf([], () => ({ unit: '', sediment: null })),
    [],
  );
});
