/** The entries of custody that are about a thing, the earliest first. */
import type { Campaign } from '@stillstand/campaign/document';
import { dateOf, type Row } from '@stillstand/campaign/tables';
import { type KeptThing, type Thing, thingKey } from './thing.ts';

export type Entry = Row<'custody'>;

/** The day of an entry: as entered, or else the day it was written down. */
export const dayOf = ({ date, time }: Entry): string | null => date ?? dateOf(time);

/**
 * By their days, those of one day by `seq`: entries of several days of one sample are in no common series. An entry that
 * has no day comes first, as whatever is known with its day was written down later.
 */
const inOrder = (entries: readonly Entry[]): Entry[] =>
  [...entries].sort((a, b) => {
    const [one, other] = [dayOf(a) ?? '', dayOf(b) ?? ''];
    return one < other ? -1 : one > other ? 1 : a.seq - b.seq;
  });

/** True for an entry about the whole of a hole's cores, about this core, or about this part of it. */
function isAbout(entry: Pick<Entry, 'sample' | 'hole' | 'run' | 'tray'>, thing: Thing): boolean {
  if (thing.kind === 'sample') return entry.sample === thing.sample;
  if (entry.sample !== null || entry.hole !== thing.hole) return false;
  if (entry.run !== null && entry.run !== thing.run) return false;
  return entry.tray === null || entry.tray === thing.tray;
}

/** Of every thing its entries in force. Those of a whole core are those of its parts too. */
export function entriesByThing(
  { rows }: Pick<Campaign, 'rows'>,
  things: readonly KeptThing[],
): Map<string, Entry[]> {
  const bySample = Map.groupBy(rows.custody, (entry) => entry.sample);
  const byHole = Map.groupBy(
    rows.custody.filter((entry) => entry.sample === null),
    (entry) => entry.hole,
  );
  return new Map(
    things.map(({ thing }) => {
      const near =
        (thing.kind === 'sample' ? bySample.get(thing.sample) : byHole.get(thing.hole))?.filter((entry) =>
          isAbout(entry, thing),
        ) ?? [];
      return [thingKey(thing), inOrder(near)];
    }),
  );
}
