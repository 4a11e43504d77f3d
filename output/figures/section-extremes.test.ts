/** Sections that no page was made for: drawn without a number that is none, nothing over another, all on the paper. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { CorrelationResult, HoleResult, Results } from '@stillstand/campaign/results';
import { randomStream } from '@stillstand/science/base';
import { measured, overlappingTexts, runsThrough } from './fixtures/on-paper.ts';
import { date, estimate, hole, results, sample, unit } from './fixtures/results.ts';
import { sectioned } from './fixtures/sectioned.ts';
import { sectionFigure } from './index.ts';

const SEDIMENTS = ['peat', 'silty clay', 'medium sand', 'sandy gravel', 'ash with roots', 'rooted clay'];
const CONTACTS = ['sharp', 'gradational', 'erosional', 'uncertain'] as const;

const stream = randomStream('extreme sections');
const below = (n: number): number => Math.min(n - 1, Math.floor(stream.uniform() * n));

/** Holes anywhere on a line, of any depth and number of units, with correlations at random: some cross. */
function anySection(): Results {
  const length = [0.5, 30, 400, 20_000][below(4)]!;
  const holes = Array.from({ length: 1 + below(9) }, (_, i): HoleResult => {
    const ground = (stream.uniform() - 0.3) * [2, 8, 60][below(3)]!;
    let top = 0;
    const units = Array.from({ length: below(8) }, (_u, j) => {
      const bottom = top + 0.01 + stream.uniform() * [0.3, 2, 9][below(3)]!;
      const made = unit(String(j + 1), SEDIMENTS[below(6)]!, [top, bottom], null, ground, {
        contact_below: CONTACTS[below(4)]!,
      });
      top = bottom;
      return made;
    });
    return hole(`${['H', 'Old mooring ', 'X'][below(3)]}${i + 1}`, {
      row_id: `hole-${i}`,
      section_m: stream.uniform() < 0.15 ? 0 : stream.uniform() * length,
      ground_elevation_m: estimate(ground, 0.02),
      penetration_m: top > 0 ? top : stream.uniform() * 5,
      units,
    });
  });
  const correlations = holes.slice(1).flatMap((b, i): CorrelationResult[] => {
    const a = holes[i]!;
    if (a.units.length === 0 || b.units.length === 0) return [];
    return Array.from({ length: below(4) }, (_, k) => {
      const [of, and] = [a.units[below(a.units.length)]!, b.units[below(b.units.length)]!];
      return {
        row_id: `k${i}-${k}`,
        hole_a: a.hole,
        unit_a: of.unit,
        unit_a_row_id: of.row_id,
        hole_b: b.hole,
        unit_b: and.unit,
        unit_b_row_id: and.row_id,
        confidence: (['certain', 'probable', 'possible', null] as const)[below(4)]!,
        horizon: [null, 'basal peat', 'a horizon whose name is long'][below(3)]!,
      };
    });
  });
  const dated = holes.flatMap((each) =>
    Array.from({ length: below(4) }, (_, k) => {
      const depth = stream.uniform() * Math.max(0.1, each.penetration_m ?? 0);
      const label = `${each.hole}-${k}`;
      return {
        sample: sample(label, each.hole, depth, each.ground_elevation_m!.value, true),
        date: date(`L-${label}`, label, each.hole, [900 + depth * 800, 30], [[1, 900 + depth * 900, 40]]),
      };
    }),
  );
  return sectioned(
    results({
      name: 'Extreme',
      holes,
      correlations,
      samples: dated.map((each) => each.sample),
      dates: dated.map((each) => each.date),
    }),
    {
      ages_cal_bp: [1000, 2000, 4000],
      profile:
        stream.uniform() < 0.4
          ? Array.from({ length: 6 }, (_, i) => ({
              along_m: (i - 1) * length * 0.3,
              elevation_m: stream.uniform() * 6 - 1,
            }))
          : [],
    },
  );
}

test('forty sections at random are drawn whole, at 190 and at 90 mm (stream "extreme sections")', () => {
  let bodies = 0;
  for (let i = 0; i < 40; i++) {
    const of = anySection();
    bodies += of.sections[0]!.bodies.length;
    for (const width_mm of [190, 90]) {
      const { svg } = sectionFigure(of, { width_mm });
      const where = `section ${i + 1}, ${width_mm} mm`;
      assert.doesNotMatch(svg, /NaN|Infinity|undefined/, where);
      const { texts, paths } = measured(svg);
      assert.deepEqual(overlappingTexts(texts), [], where);
      const [, width, height] = /viewBox="0 0 ([\d.]+) ([\d.]+)/.exec(svg)!.map(Number);
      for (const { text, x1, x2, y1, y2 } of texts) {
        assert.ok(x1 >= -0.5 && x2 <= width! + 0.5 && y1 >= 0 && y2 <= height!, `${where}: ${text}`);
      }
      const ground = paths.find((path) => path.in.includes('section-ground'));
      for (const text of texts) {
        assert.ok(!runsThrough(ground!.vertices, text), `${where}: the ground runs through ${text.text}`);
      }
    }
  }
  assert.ok(bodies > 200, `${bodies}`);
});
