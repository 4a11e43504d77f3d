/** What has a place in a store: a sample, the core of a run or push, or a part of a core that lies by itself. */
import type { Campaign } from '@stillstand/campaign/document';
import type { Row } from '@stillstand/campaign/tables';

/** As a label names it; `tray` where it is a part of a core. */
export type Thing =
  | { kind: 'sample'; sample: string }
  | { kind: 'core'; hole: string; run: string; tray: string | null };

/** A thing with the row it comes from. */
export interface KeptThing {
  thing: Thing;
  table: 'samples' | 'runs' | 'pushes';
  row_id: string;
  hole: string | null;
}

/** "T1-0360-B", "T1 R3", "T1 R3, tray 2": as it is said in a list. */
export const thingName = (thing: Thing): string =>
  thing.kind === 'sample'
    ? thing.sample
    : `${thing.hole} ${thing.run}${thing.tray === null ? '' : `, ${thing.tray}`}`;

/** The same for one thing, another for each other. */
export const thingKey = (thing: Thing): string =>
  JSON.stringify(
    thing.kind === 'sample' ? ['sample', thing.sample] : ['core', thing.hole, thing.run, thing.tray],
  );

/** The columns of `custody` that name it. */
export const thingCells = (thing: Thing): Record<string, string> =>
  thing.kind === 'sample'
    ? { sample: thing.sample }
    : { hole: thing.hole, run: thing.run, ...(thing.tray === null ? {} : { tray: thing.tray }) };

/** Samples, then cores with their parts, each in the order of its table. What came up empty is no core. */
export function keptThings({ rows }: Pick<Campaign, 'rows'>): KeptThing[] {
  const cores = [
    ...rows.runs.flatMap((row) =>
      row.run === null || row.recovered_m === 0 ? [] : [coreOf('runs', row, row.hole, row.run)],
    ),
    ...rows.pushes.flatMap((row) =>
      row.recovered_m === 0 ? [] : [coreOf('pushes', row, row.hole, row.push)],
    ),
  ];
  return [
    ...rows.samples.map(
      (row): KeptThing => ({
        thing: { kind: 'sample', sample: row.sample },
        table: 'samples',
        row_id: row.row_id,
        hole: row.hole,
      }),
    ),
    ...cores.flatMap((core) => [core, ...partsOf(core, rows.custody)]),
  ];
}

type Core = KeptThing & { thing: Extract<Thing, { kind: 'core' }> };

const coreOf = (
  table: 'runs' | 'pushes',
  { row_id }: { row_id: string },
  hole: string,
  run: string,
): Core => ({
  thing: { kind: 'core', hole, run, tray: null },
  table,
  row_id,
  hole,
});

/** Parts of a core have no row of their own: those are known that an entry names. */
function partsOf(core: Core, custody: readonly Row<'custody'>[]): KeptThing[] {
  const trays = new Set(
    custody.flatMap(({ sample, hole, run, tray }) =>
      sample === null && hole === core.thing.hole && run === core.thing.run && tray !== null ? [tray] : [],
    ),
  );
  return [...trays].map((tray) => ({ ...core, thing: { ...core.thing, tray } }));
}
