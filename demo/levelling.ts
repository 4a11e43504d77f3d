/**
 * The level book: two loops from one bench mark, over the marsh and over the neck to the spit and back. The staff is
 * read to a millimetre; the bench mark itself is wrong by an amount nobody there can see.
 */
import type { RandomStream } from '@stillstand/science/base';
import { type Clock, plain, type Sheets, tick } from './sheet.ts';

/** A point in the order the level passes it: true height, metres, and metres from the point before. */
export interface Stop {
  point: string;
  true_m: number;
  distance_m: number;
  /** Sighted in passing, not stood on. */
  between?: boolean;
}

/** 1 sigma of one staff reading, metres. */
const READING_SIGMA_M = 0.0009;

/**
 * Writes one loop, from its first stop round to its last. Each pair of sights shares a line of sight whose height
 * suits the lower of its two points; a long way is broken by turning points half-way up.
 */
export function levelLoop(
  loop: string,
  stops: readonly Stop[],
  clock: Clock,
  sheets: Sheets,
  random: RandomStream,
): void {
  const passed = withTurns(loop, stops);
  let seq = 0;
  const write = (
    point: string,
    sights: { back?: number; between?: number; fore?: number },
    pair_m?: number,
  ) => {
    seq += 1;
    const staff = (true_m: number) => plain(true_m + READING_SIGMA_M * random.normal(), 3);
    sheets.write('levelling', {
      loop,
      point,
      backsight_m: sights.back === undefined ? undefined : staff(sights.back),
      intermediate_m: sights.between === undefined ? undefined : staff(sights.between),
      foresight_m: sights.fore === undefined ? undefined : staff(sights.fore),
      distance_m: pair_m === undefined ? undefined : plain(pair_m, 0),
      seq,
      time: tick(clock, 4),
      by: seq % 2 === 0 ? 'hand' : 'geologist',
      device: 'automatic level, 4 m staff',
    });
  };
  const stands = passed.filter((stop) => stop.between !== true);
  for (let i = 0; i < stands.length; i++) {
    const here = stands[i]!;
    const before = stands[i - 1];
    const after = stands[i + 1];
    const axis = (a: Stop, b: Stop) => Math.max(a.true_m, b.true_m) + 0.9;
    write(
      here.point,
      {
        ...(after === undefined ? {} : { back: axis(here, after) - here.true_m }),
        ...(before === undefined ? {} : { fore: axis(before, here) - here.true_m }),
      },
      before === undefined ? undefined : here.distance_m,
    );
    if (after === undefined) break;
    const between = passed.slice(passed.indexOf(here) + 1, passed.indexOf(after));
    for (const stop of between) write(stop.point, { between: axis(here, after) - stop.true_m });
  }
}

/** Longest pair of sights, metres. */
const LONGEST_M = 80;
/** Largest step between two staff points of one set-up, metres. */
const HIGHEST_M = 2.2;

function withTurns(loop: string, stops: readonly Stop[]): Stop[] {
  const passed: Stop[] = [];
  let turn = 0;
  for (const stop of stops) {
    const before = passed.findLast((s) => s.between !== true);
    if (before === undefined || stop.between === true) {
      passed.push(stop);
      continue;
    }
    const parts = Math.max(
      1,
      Math.ceil(stop.distance_m / LONGEST_M),
      Math.ceil(Math.abs(stop.true_m - before.true_m) / HIGHEST_M),
    );
    for (let i = 1; i < parts; i++) {
      turn += 1;
      passed.push({
        point: `${loop} turn ${turn}`,
        true_m: before.true_m + ((stop.true_m - before.true_m) * i) / parts,
        distance_m: stop.distance_m / parts,
      });
    }
    passed.push({ ...stop, distance_m: stop.distance_m / parts });
  }
  return passed;
}
