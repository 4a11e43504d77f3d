/** What each part of the plan says, from the facts of one hole and one day. */

import { peopleIn } from '@stillstand/campaign/holes';
import { printed, signed } from '@stillstand/output/words';
import { atLeast, atMost } from '@stillstand/science/base';
import { listed, type Part, type PartKey, type PartState } from './part.ts';

const part = (
  key: PartKey,
  state: PartState,
  says: string,
  fact = '',
  gaps: readonly string[] = state === 'done' ? [] : [says],
): Part => ({ key, state, says, fact, gaps });

export function where(of: { hole: string | null; position: string | null; others: number }): Part {
  const { hole, position, others } = of;
  if (hole === null) return part('where', 'open', 'plan a hole', '', ['a hole']);
  const more = others === 0 ? '' : ` and ${others} more`;
  return position === null
    ? part('where', 'open', `${hole}: no position`, '', ['position'])
    : part('where', 'done', `${hole}${more}`, position);
}

export function howDeep(of: {
  hole: string | null;
  /** Below ground, m. */
  target_m: number | null;
  /** Shoe below ground with the joints at hand, m; null where none is recorded. */
  reach_m: number | null;
}): Part {
  const { hole, target_m, reach_m } = of;
  if (hole === null || target_m === null)
    return part('deep', 'open', 'set a target depth', '', hole === null ? [] : ['target depth']);
  const spare_m = reach_m === null ? null : reach_m - target_m;
  return part(
    'deep',
    'done',
    `${printed(target_m, 2)} m`,
    spare_m === null || spare_m < 0 ? hole : `${hole}; pipe ${printed(atMost(spare_m, 2), 2)} m spare`,
  );
}

export function heights(of: {
  hole: string | null;
  /** Of the reference of the hole, m, with its 1 sigma. */
  reference: { value: number; sigma: number } | null;
  datum: string;
  /** A loop is typed and not recorded. */
  isDraft: boolean;
  /** Loops that do not close within their limit. */
  open_loops: readonly string[];
}): Part {
  const { hole, reference, datum, isDraft, open_loops } = of;
  if (isDraft) return part('heights', 'open', 'finish level loop', '', ['level loop']);
  if (hole === null) return part('heights', 'open', 'level the hole', '', []);
  if (reference === null) return part('heights', 'open', `${hole}: not levelled`, '', ['height']);
  const error = reference.sigma === 0 ? '' : ` ±${printed(2 * reference.sigma, 2)}`;
  const fact = `${signed(reference.value, 2)}${error} m ${datum}`.trim();
  return open_loops.length === 0
    ? part('heights', 'done', `${hole} levelled`, fact)
    : part('heights', 'caution', `check ${listed(open_loops, 2)}`, fact, open_loops);
}

export function tide(of: {
  /** Null where neither constants nor a table give a tide. */
  water: string | null;
  hasAccess: boolean;
  /** "15:05"; empty where it is not set. */
  leave_by: string;
  /** The time is of another day than this or the night after it: left behind where the date of a day was changed. */
  isOtherDay: boolean;
  /** The route is closed at that time. */
  isCut: boolean;
}): Part {
  const { water, hasAccess, leave_by, isOtherDay, isCut } = of;
  if (leave_by === '') {
    const says = water === null ? 'enter the tide' : hasAccess ? 'set leave-by' : 'set access';
    return part('tide', 'open', says, water ?? '', ['leave-by time']);
  }
  if (isOtherDay)
    return part('tide', 'open', 'set leave-by again', 'entered for another day', [
      'leave-by time of this day',
    ]);
  if (isCut) return part('tide', 'stop', `closed at ${leave_by}`, water ?? '', ['access closed']);
  if (water === null) return part('tide', 'caution', `leave by ${leave_by}`, 'tide not known', ['tide']);
  // Without the level of the route nothing says whether the tide closes it before then.
  return !hasAccess
    ? part('tide', 'caution', `leave by ${leave_by}`, 'access not set: not checked', ['access'])
    : part('tide', 'done', `leave by ${leave_by}`, water);
}

export function gear(of: {
  /** The hole is made with a string of pipe. */
  needsPipe: boolean;
  target_m: number | null;
  reach_m: number | null;
  /** What the list of gear is short of, each in a word. */
  short: readonly string[];
  unpacked: number;
}): Part {
  const { needsPipe, target_m, reach_m, short, unpacked } = of;
  if (needsPipe && reach_m === null) return part('gear', 'open', 'record the pipe', '', ['pipe']);
  const lacks_m = !needsPipe || target_m === null || reach_m === null ? 0 : target_m - reach_m;
  const reach = !needsPipe || reach_m === null ? '' : `pipe reaches ${printed(atMost(reach_m, 2), 2)} m`;
  if (lacks_m > 0)
    return part('gear', 'caution', `pipe ${printed(atLeast(lacks_m, 2), 2)} m short`, reach, [
      'pipe',
      ...short,
    ]);
  if (short.length > 0) return part('gear', 'caution', `short: ${listed(short, 2)}`, reach, short);
  return unpacked === 0
    ? part('gear', 'done', 'at hand', reach)
    : part('gear', 'caution', `${unpacked} not packed`, reach, ['packing']);
}

export function who(of: { crew: string; emergency_contact: string; contacts: string }): Part {
  const crew = of.crew.trim();
  const ashore = of.contacts.trim();
  const emergency = of.emergency_contact.trim();
  const people = peopleIn(crew);
  if (people === 0) return part('who', 'open', 'name the crew', '', ['crew']);
  if (emergency === '') return part('who', 'open', 'emergency contact', crew, ['emergency contact']);
  if (people === 1) return part('who', 'caution', '1 person', 'no one should work alone', ['one person']);
  return ashore === ''
    ? part('who', 'caution', `${people} people`, 'no contact ashore', ['contact ashore'])
    : part('who', 'done', `${people} people`, crew);
}

export function hazards(of: {
  /** Questions answered no, where somebody can be hurt: each in a few words. */
  dangers: readonly string[];
  /** Permits without which drilling must not begin, and those to know about. */
  stops: readonly string[];
  warnings: readonly string[];
  /** Questions not answered. */
  open: number;
  /** Of all of them. */
  asked: number;
  /** Why answers of this day are none for drilling: "the day has no date", "2024-03-04 is past". Null where they are. */
  void_day: string | null;
}): Part {
  const { dangers, stops, warnings, open, asked, void_day } = of;
  const noes = dangers.length + stops.length;
  const still = [
    ...(void_day === null ? [] : [void_day]),
    ...(open === 0 ? [] : [`${open} of ${asked} questions`]),
  ];
  if (noes > 0)
    return part(
      'hazards',
      'stop',
      `${noes} to stop${open === 0 ? '' : `, ${open} open`}`,
      listed([...dangers, ...stops], 2),
      [...dangers, ...stops, ...still],
    );
  if (void_day !== null) return part('hazards', 'open', void_day, '', [...still, ...warnings]);
  if (open > 0) return part('hazards', 'open', `${open} to answer`, `of ${asked}`, [...still, ...warnings]);
  return warnings.length === 0
    ? part('hazards', 'done', 'all answered', `${asked} questions`)
    : part('hazards', 'caution', 'all answered', listed(warnings, 2), warnings);
}
