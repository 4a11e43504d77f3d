/** Events and field days of a campaign as they are typed: the call that is due, and whom to call in an emergency. */
import type { Row } from '@stillstand/campaign/tables';
import { partReader } from '../part-reader.ts';
import type { RowSource } from '../row-source.ts';
import { type CallIn, callInOf } from './call-in.ts';
import { type Emergency, emergencyOf } from './emergency.ts';

const readEvents = partReader(['events']);
const readDays = partReader(['field_days']);

/** Every event in force, in the order of the file. */
export const eventsTyped = (source: RowSource): readonly Row<'events'>[] => readEvents(source).rows.events;

/** The call that is due next; `now_ms` since 1970. */
export const callInNow = (source: RowSource, now_ms: number): CallIn | null =>
  callInOf(eventsTyped(source), now_ms);

/** Whom to call from this hole on this day, `2024-03-05`, and where it is. */
export const emergencyAt = (
  source: RowSource,
  day: string,
  hole: Row<'holes'>,
  sites: readonly Row<'sites'>[],
): Emergency =>
  emergencyOf(readDays(source).rows.field_days, day, hole, sites.find((s) => s.site === hole.site) ?? null);
