import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Results } from '@stillstand/campaign/results';
import { graphicLog } from './column-figure.tsx';
import { oneHole } from './fixtures/column.ts';
import { drilledHole } from './fixtures/drilled.ts';
import { section } from './fixtures/section.ts';
import { penetrationFigure } from './penetration-figure.tsx';
import { recoveryFigure } from './recovery-figure.tsx';
import { registrationFigure } from './registration-figure.tsx';
import { sectionFigure } from './section-figure.tsx';

type State = Results['holes'][number]['state'];

const ended = (results: Results, state: State): Results => ({
  ...results,
  holes: results.holes.map((hole) => ({
    ...hole,
    state,
    end_reason: 'tide too high',
    left_in_ground: 'shoe and joint 7',
  })),
});

test('every figure of a hole that was lost or abandoned says so, why, and what lies in the ground', () => {
  for (const state of ['lost', 'abandoned'] as const) {
    const drilled = ended(drilledHole, state);
    const figures = [
      graphicLog(ended(oneHole, state), 'T3'),
      penetrationFigure(drilled, 'T5'),
      recoveryFigure(drilled, 'T5'),
      registrationFigure(drilled, 'T5'),
    ];
    for (const { name, warnings } of figures) {
      assert.ok(
        warnings.some((text) =>
          text.includes(`Hole ${state}: tide too high; left in the ground: shoe and joint 7`),
        ),
        `${name}: ${warnings.join('; ')}`,
      );
    }
    const { caption } = sectionFigure(ended(section, state));
    assert.ok(caption.includes(`was ${state}; left in the ground: shoe and joint 7`), caption);
  }
  for (const state of ['finished', 'refused', 'open', null] as const)
    assert.ok(!penetrationFigure(ended(drilledHole, state), 'T5').warnings.join().includes('tide too high'));
});
