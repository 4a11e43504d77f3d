/**
 * What is expected below a hole, on simulated sections (`../correlation/simulated-section.ts`), whose generator shares no
 * number with the method; each with one hole that was drilled to a random unit, its ties and those of the others true.
 * Promised before measuring: 95 % bands of contacts that are there hold 0.90 to 0.98. Printed, whatever it is: how often
 * what is said to be there is there; and the same where beds dip, all is named sand (no difference: ties are given), half of the beds are missing.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { mean } from '@stillstand/science/base';
import { belowDefaults } from '@stillstand/science/correlate/below';
import type { SectionTruth } from '../correlation/simulated-section.ts';
import { type Foretold, foretold } from './foretold.ts';

const SECTIONS = 200;
const SEED = 1711;

const isHeld = ({ is, contact: { elevation_m: e } }: Foretold): boolean =>
  is! >= e.lower95 && is! <= e.upper95;
const held = (of: readonly Foretold[]): number => mean(of.map((each) => (isHeld(each) ? 1 : 0)));

const truths: [name: string, truth: SectionTruth, least: number, most: number][] = [
  ['sections as they are', {}, 0.9, 0.98],
  ['beds that dip 0.05', { dip: 0.05 }, 0, 1],
  ['half of the beds missing', { missing: 0.5 }, 0, 1],
];

for (const [name, truth, least, most] of truths)
  test(`${name}: 95 % bands of what lies below, ${SECTIONS} sections, seed ${SEED}`, (t) => {
    const all = foretold(truth, SECTIONS, SEED, belowDefaults);
    const there = all.filter(({ is }) => typeof is === 'number');
    const widths = there
      .map(({ contact: { elevation_m: e } }) => e.upper95 - e.lower95)
      .sort((a, b) => a - b);
    t.diagnostic(
      `95 % hold ${held(there).toFixed(3)} of ${there.length}; between holes ${held(there.filter((each) => each.isBetween)).toFixed(3)}, beyond them ${held(there.filter((each) => !each.isBetween)).toFixed(3)}; median width ${widths[widths.length >> 1]!.toFixed(2)} m`,
    );
    const known = all.filter(({ is }) => is !== undefined);
    for (const [low, high] of [
      [0, 0.1],
      [0.1, 0.3],
      [0.3, 0.5],
      [0.5, 0.7],
      [0.7, 0.9],
      [0.9, 1.01],
    ] as const) {
      const of = known.filter(({ contact: { present } }) => present >= low && present < high);
      if (of.length > 0)
        t.diagnostic(
          `said to be there ${mean(of.map(({ contact }) => contact.present)).toFixed(2)}, is there ${mean(of.map(({ is }) => (is === null ? 0 : 1))).toFixed(2)} (${of.length})`,
        );
    }
    assert(held(there) >= least && held(there) <= most, `${held(there)}`);
  });
