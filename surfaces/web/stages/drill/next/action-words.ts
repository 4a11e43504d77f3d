/** Each next action on the screen: its form, its mark, its words in a row of others, and which are always in reach. */

import type { HoleState } from '@stillstand/campaign/holes';
import { t } from '../../../language/index.ts';
import type { MarkName } from '../../../parts/index.ts';
import type { FormName } from '../forms/field.ts';
import type { ActionName } from './action.ts';

export const FORM_OF: Partial<Record<ActionName, FormName>> = {
  add: 'add',
  tighten: 'tighten',
  drive: 'drive',
  fill: 'fill',
  sound: 'sound',
  water: 'water',
  mark: 'mark',
  run: 'run',
  lay_out: 'lay_out',
  pieces: 'pieces',
  push: 'push',
  pull: 'pull',
  account: 'lost',
  ground: 'ground',
  respond: 'respond',
  close: 'close',
  second_hole: 'second_hole',
};
export const MARK_OF: Record<ActionName, MarkName> = {
  check: 'tick',
  add: 'plus',
  tighten: 'tick',
  drive: 'down',
  fill: 'water',
  sound: 'sound',
  water: 'water',
  mark: 'stroke',
  run: 'down',
  lift: 'up',
  lay_out: 'sample',
  pieces: 'sample',
  push: 'down',
  pull: 'up',
  account: 'note',
  ground: 'reading',
  respond: 'stop',
  close: 'tick',
  second_hole: 'plus',
  next_hole: 'on',
};
/** One word, in the row of tools. */
export const TOOL_WORDS: Partial<Record<ActionName, string>> = {
  add: t`Joint`,
  drive: t`Drive`,
  fill: t`Fill`,
  sound: t`Sounding`,
  water: t`Water`,
  mark: t`Tape`,
  run: t`Run`,
  pull: t`Pull`,
};
/** Verb and noun, where it is offered beside the next action. */
export const OR_WORDS: Partial<Record<ActionName, string>> = {
  check: t`Site check`,
  add: t`Add a joint`,
  drive: t`Drive`,
  fill: t`Fill`,
  tighten: t`Confirm tight`,
  sound: t`Take sounding`,
  water: t`Measure water levels`,
  mark: t`Mark the cable`,
  run: t`Run the sampler`,
  pull: t`Pull the string`,
  account: t`String lost`,
  pieces: t`Lay out in pieces`,
  ground: t`Measure ground level`,
  respond: t`Record response`,
  lay_out: t`Lay out the core`,
  push: t`Record a push`,
  close: t`End hole`,
  second_hole: t`Start replacement hole`,
  next_hole: t`Plan the next hole`,
};

export interface Tool {
  name: ActionName;
  /** Why it waits, or that the main action does it; it keeps its place and can be pressed all the same. */
  held: string | null;
}

/** What is always within one press, whatever is suggested: the same keys in the same places. */
export function toolsOf(now: HoleState, next: ActionName, canRun: boolean): Tool[] {
  const waits = (name: ActionName): string | null => {
    if (now.ended) return t`The hole has ended`;
    if (name === next) return t`Suggested now`;
    if (name === 'water') return null;
    if (name === 'sound') return now.string.length === 0 ? t`No string yet` : null;
    if (now.run !== null) return t`The sampler is in the hole`;
    if (name === 'add') return null;
    if (now.string.length === 0) return t`No string yet`;
    return name === 'run' && !canRun ? t`Sediment not sounded, or inside the margin` : null;
  };
  const keys = ['sound', 'water', 'fill', 'add', 'drive', 'run'] as const;
  return keys.map((name) => ({ name, held: waits(name) }));
}
