/** A next action: what the bar at the foot of the screen says, and what else may well be done instead. */
import { t } from '../../../language/index.ts';

export type ActionName =
  | 'check'
  | 'add'
  | 'tighten'
  | 'drive'
  | 'fill'
  | 'sound'
  | 'water'
  | 'mark'
  | 'run'
  | 'lift'
  | 'lay_out'
  | 'pieces'
  | 'push'
  | 'pull'
  | 'account'
  | 'ground'
  | 'respond'
  | 'close'
  | 'second_hole'
  | 'next_hole';

export interface NextAction {
  name: ActionName;
  /** Verb and noun. */
  title: string;
  /** Stands on the action it belongs to; null where none does. */
  caution: string | null;
  /** Why now, and what comes then: at the right of the action. */
  why: string;
  then: string;
  /** Other things a crew may well do now instead. */
  or: readonly ActionName[];
  /** What would be suggested if no hazard stood; null where nothing waits. It stays pressable. */
  held: string | null;
  urgent: boolean;
}

/** On the cable. */
export const LOAD = t`Hands clear of the cable. Nobody under the load.`;

export function say(
  name: ActionName,
  title: string,
  why: string,
  then: string,
  more: { caution?: string; or?: readonly ActionName[]; held?: string; urgent?: boolean } = {},
): NextAction {
  return {
    name,
    title,
    why,
    then,
    caution: more.caution ?? null,
    or: more.or ?? [],
    held: more.held ?? null,
    urgent: more.urgent ?? false,
  };
}
