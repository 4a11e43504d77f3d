/**
 * A particle filter down the hole that looks ahead (twisted: Guarniero, Johansen & Lee 2017, J. Am. Stat. Assoc.
 * 112:1636–1647; from memory). A draw is one state of the hole: a world, layers, by-passed cells, what entered; the errors of
 * the readings follow from it and have only their density here, so that none is drawn before what it is to meet.
 */
import type { RandomStream } from '@stillstand/science/base';
import type { Ways } from './by-passing.ts';
import type { Ground } from './cells.ts';
import type { ReadingErrors } from './errors.ts';
import type { LookAhead } from './look-ahead.ts';
import { offspring, probabilities } from './resampling.ts';
import { type Cloud, drawFreely, meetReadings } from './spells.ts';
import { LEVELS, WORLDS, type Worlds } from './worlds.ts';

export interface Filtered {
  /** World of each draw. */
  world: Int32Array;
  /** How ground is by-passed, [draw][spell]. */
  way: Uint8Array;
  /** Logit of local recovery, had nothing been by-passed, [draw][cell]. */
  logit: Float32Array;
  /** Entered length at each edge, m, [draw][edge]; kept to a micrometre. */
  entered: Float32Array;
  /** What the factor of the errors makes the errors of the pins of, [draw][pin]. */
  deviates: Float32Array;
  effectiveMin: number;
  ancestors: number;
}

export function runFilter(
  ground: Ground,
  errors: ReadingErrors,
  worlds: Worlds,
  ways: readonly (Ways | null)[],
  { courses, cumulative }: LookAhead,
  draws: number,
  stream: RandomStream,
): Filtered {
  const n = draws;
  const edges = ground.edges.length;
  const spells = courses.length;
  const { pins } = errors;
  const cloud: Cloud = {
    world: new Int32Array(n),
    layer: new Float64Array(n),
    reached: new Float64Array(n),
    weight: new Float64Array(n),
    passed: new Uint8Array(n),
    way: new Uint8Array(n * spells),
    logit: new Float32Array(n * (edges - 1)),
    entered: new Float32Array(n * edges),
    deviates: new Float32Array(n * pins),
  };
  const { world, layer, reached, weight, passed, way, logit, entered, deviates } = cloud;
  const ancestor = new Int32Array(n);
  for (let i = 0; i < n; i++) ancestor[i] = i;
  const probability = new Float64Array(n);
  const slots = new Int32Array(n);
  const copies = new Int32Array(n);
  let effectiveMin = n;

  const first = stream.uniform();
  for (let i = 0, p = 0; i < n; i++) {
    while (p < WORLDS - 1 && cumulative[p]! < (i + first) / n) p++;
    world[i] = p;
  }

  const plain = new Float64Array(LEVELS).fill(1);
  // spells that are drawn
  let number = 0;
  const resample = (always: boolean, edge: number, pin: number): void => {
    const effective = probabilities(weight, probability);
    effectiveMin = Math.min(effectiveMin, effective);
    if (effective > n / 2 && !always) return;
    offspring(probability, slots, copies, stream.uniform());
    for (let i = 0; i < n; i++) {
      const j = slots[i]!;
      if (j === i) continue;
      world[i] = world[j]!;
      ancestor[i] = ancestor[j]!;
      layer[i] = layer[j]!;
      reached[i] = reached[j]!;
      passed[i] = passed[j]!;
      for (let k = 0; k < number; k++) way[i * spells + k] = way[j * spells + k]!;
      for (let k = 0; k < edge; k++) logit[i * (edges - 1) + k] = logit[j * (edges - 1) + k]!;
      for (let k = 1; k <= edge; k++) entered[i * edges + k] = entered[j * edges + k]!;
      for (let k = 0; k < pin; k++) deviates[i * pins + k] = deviates[j * pins + k]!;
    }
    weight.fill(0);
  };

  for (const stand of ground.stands) {
    const course = stand.spell === null ? null : courses[number]!;
    const onward = courses[number + 1]?.onto ?? plain;
    const drive = course === null ? null : { course, onward, ways: ways[number]!, number, spells };
    if (course !== null) number++;
    if (stand.to > stand.from) {
      meetReadings(stand, drive, ground, errors, worlds, cloud, stream);
      resample(false, course === null ? 0 : course.spell.first + course.spell.cells, stand.to);
    } else if (drive !== null) drawFreely(drive, ground, worlds, cloud, stream);
  }
  resample(true, edges - 1, pins);
  return { world, way, logit, entered, deviates, effectiveMin, ancestors: new Set(ancestor).size };
}
