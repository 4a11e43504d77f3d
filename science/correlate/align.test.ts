/** Alignment against every way there is: small columns, random scores, spans that do not start at the top. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { randomStream } from '@stillstand/science/base';
import { type AlignmentScores, align, type Span } from './align.ts';

type Pairs = [number, number][];

/** Every way to pair some of the places of `a` with some of `b` in order. */
function everyWay(a: Span, b: Span): Pairs[] {
  if (a.from >= a.to) return [[]];
  const rest = { from: a.from + 1, to: a.to };
  const ways = everyWay(rest, b);
  for (let j = b.from; j < b.to; j++)
    for (const way of everyWay(rest, { from: j + 1, to: b.to })) ways.push([[a.from, j], ...way]);
  return ways;
}

const places = ({ from, to }: Span): number[] => Array.from({ length: to - from }, (_, i) => from + i);

function scoreOf(way: Pairs, a: Span, b: Span, { pair, alone_a, alone_b }: AlignmentScores): number {
  const sum = (values: number[]): number => values.reduce((all, value) => all + value, 0);
  return (
    sum(way.map(([i, j]) => pair(i, j))) +
    sum(places(a).map((i) => (way.some(([k]) => k === i) ? 0 : alone_a(i)))) +
    sum(places(b).map((j) => (way.some(([, l]) => l === j) ? 0 : alone_b(j))))
  );
}

test('the best alignment and every margin are those of all alignments tried one by one', () => {
  const stream = randomStream(17).split('alignments');
  let pairs = 0;
  for (let round = 0; round < 300; round++) {
    const span = (): Span => {
      const from = Math.floor(3 * stream.uniform());
      return { from, to: from + Math.floor(6 * stream.uniform()) };
    };
    const [a, b] = [span(), span()];
    // Some rounds on a coarse grid, so that many alignments are equally good; some pairs forbidden.
    const score = (): number => (round % 3 === 0 ? Math.round(2 * stream.normal()) : 2 * stream.normal());
    const table = Array.from({ length: 8 }, () =>
      Array.from({ length: 8 }, () => (stream.uniform() < 0.15 ? -Infinity : score())),
    );
    const alone = Array.from({ length: 8 }, () => -2 * stream.uniform());
    const scores: AlignmentScores = {
      pair: (i, j) => table[i]![j]!,
      alone_a: (i) => alone[i]!,
      alone_b: (j) => alone[7 - j]!,
    };
    const ways = everyWay(a, b).map((way) => ({ way, score: scoreOf(way, a, b, scores) }));
    const best = Math.max(...ways.map((each) => each.score));
    const found = align(a, b, scores);
    assert.ok(Math.abs(found.score - best) < 1e-12);
    const way = found.pairs.map(([i, j]): [number, number] => [i, j]);
    assert.ok(Math.abs(scoreOf(way, a, b, scores) - best) < 1e-12);
    // Of every two units, paired in the best way or not.
    for (const k of places(a))
      for (const l of places(b)) {
        const others = ways.filter(({ way: w }) => !w.some(([i, j]) => i === k && j === l));
        const second = Math.max(...others.map((other) => other.score));
        const without = found.without(k, l);
        assert.ok(Math.abs(without.score - second) < 1e-12);
        const other = without.pairs().map(([i, j]): [number, number] => [i, j]);
        assert.ok(!other.some(([i, j]) => i === k && j === l));
        assert.ok(Math.abs(scoreOf(other, a, b, scores) - second) < 1e-12);
        pairs += 1;
      }
  }
  assert.ok(pairs > 200, `${pairs} pairs`);
});

test('five units by five have the 252 alignments that counting gives', () => {
  // Σ C(5, k)² = C(10, 5).
  assert.equal(everyWay({ from: 0, to: 5 }, { from: 0, to: 5 }).length, 252);
});
