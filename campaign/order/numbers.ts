/** The numbers of a hole, or of a level loop, that an order of its readings gives; what is compared between two orders. */
import { compareReadings } from '@stillstand/campaign/document';
import {
  type HoleState,
  partReader,
  type RigEntry,
  type RowSource,
  readHole,
} from '@stillstand/campaign/holes';
import { clockOf } from '@stillstand/campaign/tables';
import { inHole, itemName, type RigReading } from '@stillstand/science/rig';
import { reduceLoop } from '@stillstand/science/survey';
import type { Placed, Series } from './series.ts';

/** What it is called, and its value; a length in metres, null where it is not known. */
export type Numbers = ReadonlyMap<string, number | string | null>;

/** The numbers with some readings in other places, by the row in force. Pure; the rows are read once. */
export type NumbersOf = (seqs: ReadonlyMap<string, number>) => Numbers;

const NONE: Numbers = new Map();

export function numbersIn(source: RowSource, series: Series): NumbersOf {
  if (series.kind === 'hole') return numbersOfHole(readHole(source, series.name));
  if (series.kind === 'loop') return numbersOfLoop(source, series.name);
  // The readings of a gauge are ordered by their times, those of a day by no number.
  return () => NONE;
}

/** Of a hole that is not there none. */
export function numbersOfHole(hole: HoleState | null): NumbersOf {
  if (hole === null) return () => NONE;
  const nameOf = namesOf(hole.entries);
  return (seqs) => {
    const readings = hole.entries
      .map(({ table, time, reading }): { table: typeof table; time: string | null; reading: RigReading } => ({
        table,
        time,
        reading: { ...reading, seq: seqs.get(reading.row_id) ?? reading.seq },
      }))
      .sort((a, b) => compareReadings({ ...a, ...a.reading }, { ...b, ...b.reading }))
      .map(({ reading }) => reading);
    const now = inHole(readings, hole.settings);
    const { fold, last, water } = now;
    const numbers = new Map<string, number | string | null>();
    for (const run of fold.runs) {
      numbers.set(`depth of run ${run.run}`, run.tip_depth_m);
      numbers.set(`top of run ${run.run} in the core`, run.entered_top_m);
      numbers.set(`length removed by run ${run.run}`, run.removed_from === 'nothing' ? null : run.removed_m);
      numbers.set(`clearance of run ${run.run}`, run.clearance_m);
    }
    for (const drive of fold.drives) {
      numbers.set(`depth after ${nameOf.get(drive.row_id)}`, drive.to_m);
      numbers.set(`length entered in ${nameOf.get(drive.row_id)}`, drive.entered_m);
    }
    for (const sounding of fold.soundings) {
      const name = nameOf.get(sounding.row_id);
      numbers.set(`depth of the shoe at ${name}`, sounding.penetration_m);
      numbers.set(`entered length at ${name}`, sounding.entered_m);
    }
    numbers.set('collar to shoe', fold.collar_to_shoe_m);
    numbers.set('depth of the shoe', last?.penetration_m ?? null);
    numbers.set('stick-up', last?.stick_up_m ?? null);
    numbers.set('plug', last?.plug_m ?? null);
    numbers.set('entered length', fold.entered_m);
    numbers.set('ground below the reference', now.ground_m);
    numbers.set('clearance', now.clearance?.clearance_m ?? null);
    numbers.set('stop mark', now.stop_m);
    numbers.set('water inside below the reference', water.inside_m);
    numbers.set('water outside below the reference', water.outside_m);
    numbers.set('head of water', last?.head_m ?? null);
    for (const item of fold.account) {
      numbers.set(`where ${itemName(item)} is`, item.fate);
      numbers.set(`length of ${itemName(item)} in the ground`, item.in_ground_m);
    }
    return numbers;
  };
}

/** "drive at 10:42", with its number where another is called so. */
function namesOf(entries: HoleState['entries']): ReadonlyMap<string, string> {
  const called = (e: RigEntry): string =>
    `${e.name}${clockOf(e.time) === '' ? '' : ` at ${clockOf(e.time)}`}`;
  const alike = Map.groupBy(entries, called);
  return new Map(
    entries.map((e) => {
      const twins = alike.get(called(e))!;
      const number = twins.length === 1 ? '' : ` (${twins.indexOf(e) + 1} of ${twins.length})`;
      return [e.reading.row_id, `${called(e)}${number}`];
    }),
  );
}

function numbersOfLoop(source: RowSource, loop: string): NumbersOf {
  const { rows } = partReader(['sites', 'datums', 'benchmarks', 'level_loops', 'levelling'])(source);
  const sights = rows.levelling.filter((sight) => sight.loop === loop);
  const [start] = sights;
  if (start === undefined) return () => NONE;
  // Above the point that is first now, whatever order is tried.
  const fixed = [{ point: start.point, elevation_m: 0, sigma_m: 0 }];
  return (seqs) => {
    const ordered = sights
      .map((sight) => ({ ...sight, table: 'levelling' as const, seq: seqs.get(sight.row_id) ?? sight.seq }))
      .sort(compareReadings);
    const { points } = reduceLoop(ordered, fixed);
    const numbers = new Map<string, number | string | null>();
    for (const { point, elevation_m } of points) {
      numbers.set(`${point} above ${start.point}`, elevation_m);
    }
    return numbers;
  };
}

/** Whose last reading counts, and what it says then. */
const LAST_SAYS = {
  checks: { of: ['hole', 'date', 'check', 'question'], says: ['answer'] },
  custody: { of: ['sample', 'hole', 'run', 'tray'], says: ['action', 'place'] },
} as const;

/** What the last reading of each thing says, of those that contend: the answer to a check, where a sample is. */
export function lastSaid(order: readonly Placed[]): Numbers {
  const said = new Map<string, string>();
  for (const { table, cells } of order) {
    if (table !== 'checks' && table !== 'custody') continue;
    const words = (columns: readonly string[]): string =>
      columns
        .map((column) => cells[column]?.trim() ?? '')
        .filter(Boolean)
        .join(' ');
    const { of, says } = LAST_SAYS[table];
    said.set(`${table === 'checks' ? 'answer to' : 'last entry of'} ${words(of)}`, words(says));
  }
  return said;
}
