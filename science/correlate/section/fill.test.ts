/** Random sections: what is filled neither overlaps nor leaves a hole, and at each hole is its column. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { type RandomStream, randomStream } from '@stillstand/science/base';
import { fillUnits } from './fill.ts';
import { areaOf, sliceAt } from './fixtures/slices.ts';
import { heightAt } from './ground.ts';
import type { FilledSection, SectionBoundary, SectionColumn, SectionTie } from './shape.ts';

const SEED = 17;
const ENDINGS = ['continuous', 'pinch_out', 'truncated', 'interfingered', 'unknown'] as const;
const SEDIMENTS = ['sand', 'mud', 'peat', 'silt', 'gravel'];

interface Section {
  columns: SectionColumn[];
  ties: SectionTie[];
  boundaries: SectionBoundary[];
  profile: { along_m: number; elevation_m: number }[];
}

const pick = <T>(stream: RandomStream, of: readonly T[]): T => of[Math.floor(of.length * stream.uniform())]!;

/** Without gaps in the columns; ties at random, so that many cross; rows of boundaries about anything. */
function randomSection(stream: RandomStream, gaps = 0): Section {
  let along_m = 0;
  const columns = Array.from({ length: 2 + Math.floor(4 * stream.uniform()) }, (_, h): SectionColumn => {
    along_m += h === 0 ? 0 : 5 + 200 * stream.uniform();
    const ground_m = 4 * stream.uniform() - 2;
    let at = ground_m;
    const units = Array.from({ length: Math.floor(8 * stream.uniform()) }, (_, u) => {
      if (stream.uniform() < gaps) at -= 0.1 + stream.uniform();
      const top_m = at;
      at -= stream.uniform() < 0.1 ? 0 : 3 * stream.uniform();
      return {
        id: `${h}.${u}`,
        top_m,
        bottom_m: at,
        sediment: pick(stream, SEDIMENTS),
        base: stream.uniform() < 0.2 ? 'erosional' : null,
        isBaseSeen: true,
      };
    });
    return { hole: `H${h}`, along_m, ground_m, units };
  });
  const anyTie = (k: number): SectionTie[] => {
    const h = Math.floor((columns.length - 1) * stream.uniform());
    const [a, b] = stream.uniform() < 0.5 ? [columns[h]!, columns[h + 1]!] : [columns[h + 1]!, columns[h]!];
    if (a.units.length === 0 || b.units.length === 0) return [];
    return [
      {
        row_id: `t${k}`,
        hole_a: a.hole,
        unit_a: pick(stream, a.units).id,
        hole_b: b.hole,
        unit_b: pick(stream, b.units).id,
        confidence: pick(stream, ['certain', 'probable', 'possible', null]),
        horizon: pick(stream, [null, null, 'X', 'Y']),
      },
    ];
  };
  const ties = Array.from({ length: 12 }, (_, k) => anyTie(k)).flat();
  const boundaries = Array.from({ length: 8 }, (_, k): SectionBoundary => {
    const h = Math.floor((columns.length - 1) * stream.uniform());
    const turned = stream.uniform() < 0.5 ? 1 : 0;
    const own = columns[h + turned]!;
    return {
      row_id: `b${k}`,
      horizon: own.units.length === 0 ? 'X' : pick(stream, ['X', 'Y', pick(stream, own.units).id]),
      hole_a: own.hole,
      hole_b: stream.uniform() < 0.3 ? null : columns[h + 1 - turned]!.hole,
      ending: pick(stream, ENDINGS),
      at_fraction: stream.uniform() < 0.3 ? null : pick(stream, [0, 1, stream.uniform(), stream.uniform()]),
      lift_m: stream.uniform() < 0.5 ? null : 2 * stream.normal(),
    };
  });
  const profile =
    stream.uniform() < 0.4
      ? []
      : Array.from({ length: 12 }, () => ({
          along_m: (along_m + 60) * stream.uniform() - 30,
          elevation_m: 4 * stream.uniform() - 2,
        }));
  return { columns, ties, boundaries, profile };
}

const fill = ({ columns, ties, boundaries, profile }: Section): FilledSection =>
  fillUnits(columns, ties, boundaries, profile);

const NEAR = 1e-7;

/** Vertical lines through every panel: nothing lies over another, and from the ground to the lowest tie nothing is left open. */
function assertWhole(
  section: Section,
  filled: FilledSection,
  stream: RandomStream,
  named: string,
  isOpen = false,
): void {
  const { columns } = section;
  for (let h = 1; h < columns.length; h++) {
    const [left, right] = [columns[h - 1]!, columns[h]!];
    const isHere = (hole: string | null): boolean => hole === left.hole || hole === right.hole;
    const tied = filled.contacts.filter((c) => c.tie !== null && isHere(c.hole_a) && isHere(c.hole_b));
    for (let n = 0; n < 12; n++) {
      const x = left.along_m + (right.along_m - left.along_m) * (0.001 + 0.998 * stream.uniform());
      const slice = sliceAt(filled.bodies, x).filter((s) => s.top_m - s.bottom_m > NEAR);
      slice.slice(1).forEach((under, i) => {
        const over = slice[i]!;
        assert.ok(
          under.top_m <= over.bottom_m + NEAR,
          `${named}: ${under.body.id} over ${over.body.id} at ${x}`,
        );
      });
      const lowest = Math.min(...tied.map((c) => heightAt(c.line, x)!));
      if (tied.length === 0 || isOpen) continue;
      const ground = heightAt(filled.ground, x)!;
      let reached = ground;
      for (const { top_m, bottom_m } of slice) {
        if (reached <= lowest + NEAR) break;
        assert.ok(Math.abs(top_m - reached) < NEAR, `${named}: open from ${reached} to ${top_m} at ${x}`);
        reached = bottom_m;
      }
      assert.ok(reached <= lowest + NEAR, `${named}: filled to ${reached}, not to ${lowest}, at ${x}`);
    }
  }
}

function assertColumns({ columns }: Section, filled: FilledSection, named: string): void {
  for (const { along_m, units, hole } of columns)
    for (const side of [-1e-9, 1e-9])
      for (const unit of units) {
        if (unit.top_m - unit.bottom_m < 1e-3) continue;
        const middle = (unit.top_m + unit.bottom_m) / 2;
        const here = sliceAt(filled.bodies, along_m + side).filter(
          (s) => s.top_m > middle && s.bottom_m < middle,
        );
        assert.equal(here.length, 1, `${named}: ${hole} ${unit.id}`);
        const [{ top_m, bottom_m, body }] = here as [(typeof here)[0]];
        assert.equal(body.sediment, unit.sediment, named);
        assert.ok(body.units.some((each) => each.hole === hole && each.unit === unit.id));
        assert.ok(Math.abs(top_m - unit.top_m) < 1e-6 && Math.abs(bottom_m - unit.bottom_m) < 1e-6, named);
      }
}

test(`1,000 random sections: no overlap, no hole, each column exact (seed ${SEED})`, () => {
  const stream = randomStream(SEED).split('sections');
  for (let k = 0; k < 1000; k++) {
    const section = randomSection(stream.split(k));
    const filled = fill(section);
    assertWhole(section, filled, stream.split(`slices ${k}`), `section ${k}`);
    assertColumns(section, filled, `section ${k}`);
    for (const { outline } of filled.bodies)
      assert.ok(outline.every(([x, y]) => Number.isFinite(x) && Number.isFinite(y)));
  }
});

test(`300 with stretches that were not described: no overlap, each column exact (seed ${SEED})`, () => {
  const stream = randomStream(SEED).split('open sections');
  for (let k = 0; k < 300; k++) {
    const section = randomSection(stream.split(k), 0.3);
    const filled = fill(section);
    assertWhole(section, filled, stream.split(`slices ${k}`), `section ${k}`, true);
    assertColumns(section, filled, `section ${k}`);
  }
});

test('areas of the bodies add up to the area between ground and lowest tie, by trapezoids worked by hand', () => {
  const unit = (id: string, top_m: number, bottom_m: number, sediment: string) => ({
    id,
    top_m,
    bottom_m,
    sediment,
    base: null,
    isBaseSeen: true,
  });
  const columns: SectionColumn[] = [
    {
      hole: 'A',
      along_m: 0,
      ground_m: 0,
      units: [unit('a1', 0, -2, 'sand'), unit('a2', -2, -3, 'shells'), unit('a3', -3, -5, 'mud')],
    },
    { hole: 'B', along_m: 100, ground_m: 1, units: [unit('b1', 1, -1, 'sand'), unit('b2', -1, -4, 'mud')] },
  ];
  const tie = {
    row_id: 't',
    hole_a: 'A',
    unit_a: 'a3',
    hole_b: 'B',
    unit_b: 'b2',
    confidence: 'certain',
    horizon: null,
  };
  const { bodies } = fillUnits(columns, [tie], [], []);
  const within = (x: number): number => Math.min(100, Math.max(0, x));
  const area = bodies.reduce((m, { outline }) => m + areaOf(outline.map(([x, y]) => [within(x), y])), 0);
  // Both columns are 5 m thick and 100 m apart; 15 m of flat stub beyond each hole fold to nothing.
  assert.ok(Math.abs(area - 500) < 1e-9, String(area));
  const shells = bodies.find(({ sediment }) => sediment === 'shells')!;
  assert.equal(Math.max(...shells.outline.map(([x]) => x)), 50);
});
