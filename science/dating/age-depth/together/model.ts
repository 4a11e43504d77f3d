/** What age against depth in several holes together takes. */
import type { AgeDepthInput } from '../model.ts';
import type { AgeDepthSettings } from '../settings.ts';
import type { DateSharing } from './date-given.ts';

export interface HoleTogether {
  /** Its name. */
  hole: string;
  input: AgeDepthInput;
  /** Dates, by their names in `input`, that share an error with others. */
  shared: readonly { id: string; sharing: DateSharing }[];
  settings: AgeDepthSettings;
}

/** What of it says which errors are shared with whom. */
export interface Sharer {
  shared: readonly { sharing: { group: string } }[];
}

/** Errors that more than one date has: another is that date's own. */
export function sharedGroups(holes: readonly Sharer[]): string[] {
  const all = holes.flatMap(({ shared }) => shared.map(({ sharing }) => sharing.group));
  return [...new Set(all)].filter((group) => all.indexOf(group) !== all.lastIndexOf(group));
}

/**
 * The holes apart: those that share an error, directly or by way of others, stand together, in the order they came in; a
 * hole that shares none stands alone.
 */
export function holesApart<Hole extends Sharer>(holes: readonly Hole[]): Hole[][] {
  const groups = sharedGroups(holes);
  const apart: { holes: Hole[]; groups: string[] }[] = [];
  for (const hole of holes) {
    const own = hole.shared.map(({ sharing }) => sharing.group).filter((group) => groups.includes(group));
    const joined = apart.filter((each) => each.groups.some((group) => own.includes(group)));
    const rest = apart.filter((each) => !joined.includes(each));
    apart.splice(0, Infinity, ...rest, {
      holes: [...joined.flatMap((each) => each.holes), hole],
      groups: [...joined.flatMap((each) => each.groups), ...own],
    });
  }
  return apart
    .map((each) => holes.filter((hole) => each.holes.includes(hole)))
    .sort((a, b) => holes.indexOf(a[0]!) - holes.indexOf(b[0]!));
}
