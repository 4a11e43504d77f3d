/** Sites that have curves of their own: each is computed as if the other were not there, and traced under its name. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { parseCampaign } from '@stillstand/campaign/document';
import { curveOf, fromEachCurve, seenFrom, type TraceId, traceId } from '@stillstand/campaign/results';
import { computeCampaign } from '../compute.ts';
import { chosenNumber } from './chosen-number.ts';
import { type Cells, documentOf, THREE_LEVELS } from './fixtures/three-levels.ts';

/** The three levels of A, and three of B two metres lower. */
function twoSites(only: readonly string[] = ['A', 'B'], settings: Cells = {}, chain: Cells = {}) {
  const chains = { chains: '2', draws: '200', intervals: '3000-1000', ...chain };
  const set = Object.entries({ datum: 'MSL', ...chains, ...settings }).map(([name, value]) => ({
    name,
    value,
  }));
  const ofB = (cells: Cells): Cells =>
    Object.fromEntries(
      Object.entries(cells).map(([column, value]) => {
        if (column === 'elevation_m' && 'sample' in cells) return [column, String(Number(value) - 2)];
        return [
          column,
          ['sample', 'lab_code', 'point'].includes(column) ? `B${value}` : value === 'A' ? 'B' : value,
        ];
      }),
    );
  const tables = Object.fromEntries(
    Object.entries({ ...THREE_LEVELS, settings: set }).map(([name, rows]) => [
      name,
      ['sites', 'tide_levels', 'samples', 'determinations', 'points'].includes(name)
        ? only.flatMap((site) => (site === 'B' ? rows.map(ofB) : rows))
        : rows,
    ]),
  );
  const { campaign, problems } = parseCampaign(documentOf('Two', tables));
  assert.deepEqual(
    problems.filter(({ severity }) => severity === 'error'),
    [],
  );
  return computeCampaign(campaign, { curves: {} }, [], { withCurve: true });
}

test('each site has the curve it would have by itself, to the last bit', () => {
  const { results } = twoSites();
  assert.deepEqual(
    results.curves.map(({ id, role, sites }) => [id, role, sites]),
    [
      ['main', 'headline', ['A']],
      ['B', 'of its own', ['B']],
    ],
  );
  const [a, b] = fromEachCurve(results).map((seen) => curveOf(seen));
  assert.deepEqual(a, curveOf(twoSites(['A']).results));
  assert.deepEqual(b, curveOf(twoSites(['B']).results));
  // B’s sea is two metres lower, and rises as fast.
  assert.ok(Math.abs(a!.level_m.mean[15]! - b!.level_m.mean[15]! - 2) < 0.05);
});

test('asked the other way round the same two curves change places', () => {
  const { results } = twoSites(['A', 'B'], { curve_sites: 'B' });
  assert.deepEqual(
    results.curves.map(({ id, sites }) => [id, sites]),
    [
      ['main', ['B']],
      ['A', ['A']],
    ],
  );
  assert.deepEqual(curveOf(results), curveOf(seenFrom(twoSites().results, 'B')));
  const together = twoSites(['A', 'B'], { curve_sites: 'all' }).results;
  assert.deepEqual(
    together.curves.map(({ sites }) => sites),
    [['A', 'B']],
  );
  assert.equal(curveOf(together)!.points.length, 6);
});

test('numbers of another curve are found by its name, and lead to its own readings alone', () => {
  const { results, trace } = twoSites();
  const rowsBelow = (id: TraceId): Set<string> => {
    const start = trace.find(id);
    assert.notEqual(start, -1, id);
    const seen = new Set([start]);
    for (const node of seen) for (const part of trace.parts(node)) seen.add(part);
    return new Set(
      [...seen].flatMap((node) => {
        const { row } = trace.node(node);
        return row !== null && row.table === 'samples' ? [row.row_id] : [];
      }),
    );
  };
  const interval = traceId.interval({ older_cal_bp: 3000, younger_cal_bp: 1000 });
  const ofA = rowsBelow(interval);
  const ofB = rowsBelow(traceId.ofCurve('B', interval));
  assert.deepEqual([ofA.size, ofB.size], [3, 3]);
  assert.deepEqual(
    [...ofA].filter((row) => ofB.has(row)),
    [],
  );
  const value = (id: TraceId) => trace.node(trace.find(id)).value;
  assert.equal(value(interval), curveOf(results)!.intervals[0]!.rate_mm_yr.mean);
  assert.equal(
    value(traceId.ofCurve('B', interval)),
    curveOf(seenFrom(results, 'B'))!.intervals[0]!.rate_mm_yr.mean,
  );
  // A point has a residual in the curve it is in, and nowhere else.
  const residual = traceId.point('BP1').residual;
  assert.equal(trace.find(residual), -1);
  assert.notEqual(trace.find(traceId.seenFrom('B', residual)), -1);
  assert.equal(traceId.seenFrom('B', traceId.point('BP1').rsl), traceId.point('BP1').rsl);
});

test('an interval or a question that nobody reported is answered by the curve it names', () => {
  const { results, trace } = twoSites();
  const at = (name: string) => chosenNumber(traceId.typed(name), results);
  const own = at('interval:2500-1500')!;
  const other = at('curve:B/interval:2500-1500')!;
  assert.notEqual(own.value, other.value);
  for (const part of [...own.parts, ...other.parts]) assert.notEqual(trace.find(part), -1, part);
  assert.deepEqual(at('curve:B/answer:highest')?.parts, [traceId.ofCurve('B', traceId.curve)]);
  assert.equal(at('curve:C/interval:2500-1500'), null);
  assert.equal(at('curve:B/interval:9000-1500'), null);
});

test('what is wrong with another curve says which', () => {
  const { results } = twoSites(['A', 'B'], {}, { draws: '100', chains: '1' });
  const unsettled = results.problems.filter(({ code }) => code === 'not-converged');
  assert.equal(unsettled.length, 2);
  assert.deepEqual(unsettled.map(({ found }) => found.startsWith('Curve of B: ')).sort(), [false, true]);
});
