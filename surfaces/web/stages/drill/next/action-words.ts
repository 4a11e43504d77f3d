/** Each next action on the screen: its form, its mark, its words in a row of others, and which are always in reach. */
import type { HoleState } from '@stillstand/campaign/holes';
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
  add: 'Joint',
  drive: 'Drive',
  fill: 'Fill',
  sound: 'Sounding',
  water: 'Water',
  mark: 'Tape',
  run: 'Run',
  pull: 'Pull',
};
/** Verb and noun, where it is offered beside the next action. */
export const OR_WORDS: Partial<Record<ActionName, string>> = {
  check: 'Site check',
  add: 'Add a joint',
  drive: 'Drive',
  fill: 'Fill',
  tighten: 'Confirm tight',
  sound: 'Take sounding',
  water: 'Measure water levels',
  mark: 'Mark the cable',
  run: 'Run the sampler',
  pull: 'Pull the string',
  account: 'String lost',
  pieces: 'Lay out in pieces',
  ground: 'Measure ground level',
  respond: 'Say what is done',
  lay_out: 'Lay out the core',
  push: 'Record a push',
  close: 'End hole',
  second_hole: 'Start replacement hole',
  next_hole: 'Plan the next hole',
};

/** What is always within one press, whatever is suggested: never more than a row of them. */
export function toolsOf(now: HoleState, next: ActionName, canRun: boolean): ActionName[] {
  if (now.ended) return [];
  if (now.run !== null) return ['sound', 'water'];
  if (now.string.length === 0) return (['add'] as const).filter((a) => a !== next);
  const usual: ActionName[] = ['sound', 'fill', 'drive', 'add', ...(canRun ? (['run'] as const) : [])];
  return usual.filter((a) => a !== next);
}
