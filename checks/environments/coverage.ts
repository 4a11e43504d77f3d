/** What is said of one simulated coast against what is true of it, and sums over many. */
import { quantiles, type RandomStream } from '@stillstand/science/base';
import {
  type AgedColumn,
  edgeAlong,
  type Spell,
  spells,
  stood,
  surfaceAt,
} from '@stillstand/science/environments';
import { joined } from './joined.ts';
import { add, addSaid, type Said, type Share, share, tenths } from './shares.ts';
import { type Coast, type CoastHole, type CoastLayer, OLDEST, STEP_YR } from './simulated-coast.ts';

export interface Coverage {
  edge: Share;
  /** By what the edge did between the two holes: went on to the next, or came back. */
  through: Share;
  back: Share;
  /** The edge of coasts whose holes all have as many changes of side in their layers as in truth. */
  toldEdge: Share;
  passages: Share;
  /** Holes with as many changes of side in their layers as in truth, of all holes. */
  told: Share;
  atLeast: Share;
  /** First and last age of an environment in any hole, and its longest time in the hole that is said to have had it longest. */
  began: Share;
  ended: Share;
  longest: Share;
  spells: Said[];
  surface: Share;
  /** Of the edge's 95 % band, m, and of the distance between the holes it truly was between. */
  width_m: number;
  apart_m: number;
}

export const noCoverage = (): Coverage => ({
  edge: share(),
  through: share(),
  back: share(),
  toldEdge: share(),
  passages: share(),
  told: share(),
  atLeast: share(),
  began: share(),
  ended: share(),
  longest: share(),
  spells: tenths(),
  surface: share(),
  width_m: 0,
  apart_m: 0,
});

/** Central 95 % of what is a number; null of none. */
function band(draws: Float64Array): readonly [number, number] | null {
  const known = draws.filter((draw) => !Number.isNaN(draw));
  return known.length === 0 ? null : (quantiles(known, [0.025, 0.975]) as [number, number]);
}
const isIn = (value: number, range: readonly [number, number] | null): boolean =>
  range !== null && value >= range[0] && value <= range[1];

const EVERY_YR = 100;
const asked = Array.from({ length: OLDEST / EVERY_YR - 1 }, (_, i) => EVERY_YR * (i + 1));

export function cover(
  to: Coverage,
  coast: Coast,
  columns: readonly AgedColumn[],
  random: RandomStream,
): void {
  coverEdge(to, coast, columns, random);
  for (const [h, hole] of coast.holes.entries()) {
    const found = spells(columns[h]!, asked);
    for (const [i, age] of asked.entries()) {
      const true_layer = hole.layers.findIndex(
        ({ isAtOnce, knots }) => !isAtOnce && knots[0]!.age <= age && age < knots.at(-1)!.age,
      );
      for (const spell of found)
        if (spell.probability[i]! > 0)
          addSaid(to.spells, spell.probability[i]!, isTrueOf(spell, hole, true_layer, age));
      const layer = hole.layers[true_layer];
      if (layer !== undefined)
        add(to.surface, isIn(heightOf(layer, age), band(surfaceAt(columns[h]!, age).elevation_m)));
    }
  }
  const named = new Set(coast.holes.flatMap(({ layers }) => layers.map(({ environment }) => environment)));
  for (const environment of named) {
    const said = stood(columns, environment, 0.95);
    if (said === null) continue;
    const truth = longest(coast.holes, environment);
    add(to.atLeast, truth.unbroken >= said.at_least_yr);
    add(to.began, isIn(truth.began, band(said.began.draws)));
    add(to.ended, isIn(truth.ended, band(said.ended.draws)));
    const there = coast.holes[columns.findIndex(({ hole }) => hole === said.unbroken.hole)]!;
    add(to.longest, isIn(longest([there], environment).unbroken, band(said.unbroken.draws)));
  }
}

/** A spell of layers is true while one of them was laid down; one of no layer while none was and it lies between the right ones. */
function isTrueOf(spell: Spell, { layers }: CoastHole, true_layer: number, age: number): boolean {
  if (spell.kind === 'environment') return spell.layers.includes(`${true_layer}`);
  if (true_layer !== -1) return false;
  const took = layers.filter(({ isAtOnce }) => !isAtOnce);
  if (spell.kind === 'since') return age < took[0]!.knots[0]!.age;
  if (spell.kind === 'before') return age >= took.at(-1)!.knots.at(-1)!.age;
  // Missing: of the gap that its own ends are nearest to.
  const middle = (from: Float64Array): number => from.reduce((sum, each) => sum + each, 0) / from.length;
  const [ended, began] = [middle(spell.ended_cal_bp), middle(spell.began_cal_bp)];
  const gaps = took.slice(1).map(({ knots }, i) => [took[i]!.knots.at(-1)!.age, knots[0]!.age] as const);
  const far = ([young, old]: readonly [number, number]): number =>
    Math.abs(young - ended) + Math.abs(old - began);
  const own = gaps.filter(([young, old]) => old > young).sort((a, b) => far(a) - far(b))[0];
  return own !== undefined && own[0] <= age && age < own[1];
}

function heightOf({ knots }: CoastLayer, age: number): number {
  const old = knots.findIndex((knot) => knot.age > age);
  const [a, b] = [knots[old - 1]!, knots[old]!];
  return a.height_m + ((age - a.age) / (b.age - a.age)) * (b.height_m - a.height_m);
}

/** True first and last age, and longest time in which one of these holes or another has a layer of it. */
const longest = (holes: readonly CoastHole[], environment: string) =>
  joined(
    holes
      .flatMap(({ layers }) => layers)
      .filter((layer) => !layer.isAtOnce && layer.environment === environment)
      .map(({ knots }) => [knots[0]!.age, knots.at(-1)!.age] as const),
  );

function coverEdge(to: Coverage, coast: Coast, columns: readonly AgedColumn[], random: RandomStream): void {
  const edge = edgeAlong(columns, (environment) => environment === 'land', asked, random);
  const along = coast.holes.map(({ along_m }) => along_m);
  const turnsOf = ({ environments }: CoastHole): number[] =>
    coast.ages.filter((_, n) => n > 0 && (environments[n] === 'land') !== (environments[n - 1] === 'land'));
  const passagesOf = (h: number) => edge?.passages.filter(({ hole }) => hole === columns[h]!.hole) ?? [];
  const isTold = coast.holes.map((hole, h) => turnsOf(hole).length === passagesOf(h).length);
  if (edge !== null) {
    const [outermost, innermost] =
      edge.innermost === columns.at(-1)!.hole ? [along[0]!, along.at(-1)!] : [along.at(-1)!, along[0]!];
    for (const [i, age] of asked.entries()) {
      const truth = coast.edge_m[stepOf(age)]!;
      if (!Number.isFinite(truth)) continue;
      const draws = edge.along_m[i]!.map((at) =>
        at === Infinity ? innermost : at === -Infinity ? outermost : at,
      );
      const range = band(draws);
      const isHeld = isIn(truth, range);
      add(to.edge, isHeld);
      if (isTold.every(Boolean)) add(to.toldEdge, isHeld);
      add(goesThrough(coast, age) ? to.through : to.back, isHeld);
      if (range === null) continue;
      to.width_m += range[1] - range[0];
      const outer = along.filter((each) => each <= truth).at(-1)!;
      to.apart_m += (along.find((each) => each > truth) ?? along.at(-1)!) - outer;
    }
  }
  for (const [h, hole] of coast.holes.entries()) {
    add(to.told, isTold[h]!);
    if (!isTold[h]) continue;
    const passages = passagesOf(h);
    for (const [i, turn] of turnsOf(hole).entries())
      add(to.passages, isIn(turn + STEP_YR, band(passages[i]!.age_cal_bp)));
  }
}

const stepOf = (age: number): number => (OLDEST - age) / STEP_YR;

/** Whether the edge left the gap it was in at an age on the other side than it came from. */
function goesThrough({ holes, edge_m }: Coast, age: number): boolean {
  const gapOf = (step: number): number => holes.filter(({ along_m }) => along_m < edge_m[step]!).length;
  const here = stepOf(age);
  const gap = gapOf(here);
  let [from, to] = [here, here];
  while (from >= 0 && gapOf(from) === gap) from -= 1;
  while (to < edge_m.length && gapOf(to) === gap) to += 1;
  return from >= 0 && to < edge_m.length && gapOf(from) < gap !== gapOf(to) < gap;
}
