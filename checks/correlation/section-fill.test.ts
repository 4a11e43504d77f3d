/**
 * Sections filled in along true ties, on the simulated sections of known truth: whole from the ground to the lowest tie, and
 * at each hole its column. Read from the outlines alone, by vertical lines and the shoelace formula; the generator shares
 * nothing with the method. Seed 1717.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { randomStream } from '@stillstand/science/base';
import { fillUnits, heightAt, type SectionColumn, type SectionTie } from '@stillstand/science/correlate';
import { type SectionTruth, type SimulatedHole, simulatedSection } from './simulated-section.ts';

const SECTIONS = 200;
const SEED = 1717;
const NEAR_M = 1e-7;

type Outline = readonly (readonly [number, number])[];

/** Elevations at which a closed line crosses a vertical one, from the top down. */
const crossings = (outline: Outline, x: number): number[] =>
  outline
    .flatMap(([x1, y1], i) => {
      const [x2, y2] = outline[(i + 1) % outline.length]!;
      return x1 < x !== x2 < x ? [y1 + ((y2 - y1) * (x - x1)) / (x2 - x1)] : [];
    })
    .sort((a, b) => b - a);

const areaOf = (outline: Outline): number =>
  Math.abs(
    outline.reduce((sum, [x1, y1], i) => {
      const [x2, y2] = outline[(i + 1) % outline.length]!;
      return sum + (x1 * y2 - x2 * y1) / 2;
    }, 0),
  );

function columnOf({ column, at_m }: SimulatedHole, h: number): SectionColumn {
  const { units } = column;
  return {
    hole: `H${h}`,
    along_m: at_m,
    ground_m: units[0]!.top_m.value,
    units: units.map(({ top_m, base_m, sediment, isBaseSeen }, u) => ({
      id: `${h}.${u}`,
      top_m: top_m.value,
      bottom_m: base_m.value,
      sediment: sediment ?? '',
      base: null,
      isBaseSeen,
    })),
  };
}

/** Units of neighbouring holes whose lowest bed is one. */
const trueTies = (holes: readonly SimulatedHole[]): SectionTie[] =>
  holes.slice(1).flatMap((b, h) => {
    const a = holes[h]!;
    return a.beds.flatMap((bed, i): SectionTie[] => {
      const j = b.beds.indexOf(bed);
      if (j === -1 || !a.column.units[i]!.isBaseSeen || !b.column.units[j]!.isBaseSeen) return [];
      return [
        {
          row_id: `${h} ${bed}`,
          hole_a: `H${h}`,
          unit_a: `${h}.${i}`,
          hole_b: `H${h + 1}`,
          unit_b: `${h + 1}.${j}`,
          confidence: 'certain',
          horizon: null,
        },
      ];
    });
  });

test(`${SECTIONS} simulated sections: no overlap, no hole, areas and columns (seed ${SEED})`, (t) => {
  const stream = randomStream(SEED);
  let [panels, bodies] = [0, 0];
  for (let k = 0; k < SECTIONS; k++) {
    const holes = simulatedSection({}, stream.split(`section ${k}`));
    const columns = holes.map(columnOf);
    const ties = trueTies(holes);
    const filled = fillUnits(columns, ties, [], []);
    bodies += filled.bodies.length;
    const at = stream.split(`places ${k}`);
    for (let h = 1; h < columns.length; h++) {
      const [left, right] = [columns[h - 1]!, columns[h]!];
      const lowest = filled.contacts.filter((c) => c.tie?.startsWith(`${h - 1} `) === true);
      if (lowest.length === 0) continue;
      panels++;
      for (let n = 0; n < 10; n++) {
        const x = left.along_m + (right.along_m - left.along_m) * (0.2 + 0.6 * at.uniform());
        const base = Math.min(...lowest.map(({ line }) => heightAt(line, x)!));
        const spans = filled.bodies.flatMap(({ outline }) => {
          const ends = crossings(outline, x);
          return ends.flatMap((top, i) => (i % 2 === 0 ? [[top, ends[i + 1]!] as const] : []));
        });
        // Between 20 and 80 % of the way nothing lies below the lowest tie: what is there adds up to the whole.
        const all = spans.reduce((m, [top, bottom]) => m + top - bottom, 0);
        const whole = heightAt(filled.ground, x)! - base;
        assert.ok(Math.abs(all - whole) < NEAR_M, `section ${k} at ${x}: ${all} of ${whole} m`);
        spans.sort((a, b) => b[0] - a[0]);
        spans.slice(1).forEach(([top], i) => {
          assert.ok(Math.abs(top - spans[i]![1]) < NEAR_M, `section ${k} at ${x}`);
        });
      }
    }
    for (const { hole, along_m, units } of columns)
      for (const unit of units) {
        const body = filled.bodies.find((each) => each.units.some((of) => of.unit === unit.id))!;
        assert.ok(body.units.some((of) => of.hole === hole));
        const ends = body.outline.filter(([x]) => x === along_m).map(([, y]) => y);
        assert.ok(ends.includes(unit.bottom_m), `section ${k}, ${unit.id}`);
        assert.ok(areaOf(body.outline) > 0);
      }
  }
  t.diagnostic(`${panels} panels, ${bodies} bodies`);
  assert.ok(panels > 400);
});

/** Metres of b within a, both from top to bottom. */
const common = (a: readonly [number, number], b: readonly [number, number]): number =>
  Math.max(0, Math.min(a[0], b[0]) - Math.max(a[1], b[1]));

/**
 * The same with one hole kept back: of what is drawn at its place, which share of the metres it was described in is the
 * sediment that it has. Bound, set before measuring: at least as good as the nearer of the two holes, level for level.
 */
function keptBack(truth: SectionTruth) {
  const stream = randomStream(SEED);
  const sums = { drawn: 0, all: 0, right: 0, nearer: 0 };
  for (let k = 0; k < SECTIONS; k++) {
    const holes = simulatedSection(truth, stream.split(`section ${k}`));
    for (let h = 1; h < holes.length - 1; h++) {
      const [left, kept, right] = [holes[h - 1]!, holes[h]!, holes[h + 1]!];
      const columns = [columnOf(left, 0), columnOf(right, 1)];
      const { bodies } = fillUnits(columns, trueTies([left, right]), [], []);
      const nearer = kept.at_m - left.at_m < right.at_m - kept.at_m ? columns[0]! : columns[1]!;
      for (const { sediment, top_m, bottom_m } of columnOf(kept, 2).units) {
        const of = [top_m, bottom_m] as const;
        sums.all += top_m - bottom_m;
        for (const { outline, sediment: drawn } of bodies) {
          const ends = crossings(outline, kept.at_m);
          for (let i = 0; i + 1 < ends.length; i += 2) {
            const shown = [Math.min(of[0], ends[i]!), Math.max(of[1], ends[i + 1]!)] as const;
            const metres = common(of, [ends[i]!, ends[i + 1]!]);
            sums.drawn += metres;
            if (drawn === sediment) sums.right += metres;
            for (const unit of nearer.units)
              if (metres > 0 && unit.sediment === sediment)
                sums.nearer += common(shown, [unit.top_m, unit.bottom_m]);
          }
        }
      }
    }
  }
  return sums;
}

const said = ({ drawn, all, right, nearer }: ReturnType<typeof keptBack>): string =>
  `${(drawn / all).toFixed(3)} of the metres are drawn; right ${(right / drawn).toFixed(3)}, by the nearer hole ${(nearer / drawn).toFixed(3)}`;

test(`a hole kept back from ${SECTIONS} sections: what is drawn at its place is as described, more often than the nearer hole has it (seed ${SEED})`, (t) => {
  const sums = keptBack({});
  t.diagnostic(said(sums));
  assert.ok(sums.right >= sums.nearer);
});

/** Out of the assumption that layers go on from hole to hole, level: printed, no bound. */
const OFF_MODEL: Record<string, SectionTruth> = {
  'half of the units missing': { missing: 0.5 },
  'beds dipping 0.05': { dip: 0.05 },
  'everything named sand': { all_sand: true },
};
for (const [name, truth] of Object.entries(OFF_MODEL))
  test(`${name}, a hole kept back from ${SECTIONS} sections (seed ${SEED}): printed, no bound`, (t) => {
    const sums = keptBack(truth);
    t.diagnostic(said(sums));
    assert.ok(sums.drawn > 0);
  });
