/** What is asked before the first joint, and how much of it still stands unanswered: said for as long as it does, never a bar. */
import { standing } from './standing.ts';
import type { RowSource } from './store-door.ts';

/** Before the first joint: common practice, no source; local codes, permits and the equipment's manual come first. */
export const CHECKS = [
  'Services located',
  'Mast clear of overhead lines',
  'Reference levelled',
  'Joints measured and numbered',
] as const;

/** As answered, by what was asked; blank where it was not. */
export type Answers = Readonly<Record<string, string>>;

/** Answers given before, in the drill or in the plan: the last of each. */
export function answered(source: RowSource, hole: string): Answers {
  const answers: Record<string, string> = {};
  for (const { cells } of standing(source, 'checks', hole))
    if ((CHECKS as readonly string[]).includes(cells['item'] ?? ''))
      answers[cells['item']!] = cells['answer'] ?? '';
  return answers;
}

/** "2 of 4 not answered"; null where all are. */
export function unansweredWords(answers: Answers): string | null {
  const open = CHECKS.filter((item) => (answers[item] ?? '') === '').length;
  return open === 0 ? null : `${open} of ${CHECKS.length} not answered`;
}
