/**
 * A question answered no comes before the usual next action: the bar then deals with the hazard, and what would have
 * been suggested stays within one press, for whatever happened can be recorded. Where nothing of the site was answered
 * today, a hole begins, and goes on after hours, with the site check.
 */

import { byWords, dangersOf, type HoleState, openWords, type SafetyCheck } from '@stillstand/campaign/holes';
import { midSentence, t, translated } from '../../../language/index.ts';
import { type NextAction, say } from './action.ts';

export function safetyFirst(
  next: NextAction,
  checks: readonly SafetyCheck[],
  now: HoleState,
  /** Today, `2024-03-05`; and whether work begins or goes on after hours: in the middle of it nothing is put off. */
  { day, begins }: { day: string; begins: boolean },
): NextAction {
  if (now.ended) return next;
  const [danger] = dangersOf(checks);
  const site = checks.filter((c) => c.of === 'hole');
  const after = (): NextAction['or'] =>
    [next.name, ...next.or].filter(
      (name, i, all) => name !== 'check' && name !== 'lift' && all.indexOf(name) === i,
    );
  if (danger !== undefined) {
    // a sampler in the string comes out first: that is safe, and waiting is not
    if (now.run !== null)
      return { ...next, urgent: true, caution: `${translated(danger.hazard)}. ${next.caution ?? ''}`.trim() };
    return say(
      'check',
      translated(danger.deal),
      translated(byWords(danger.given!, day)),
      t`then answer again`,
      {
        caution: `${translated(danger.hazard)}.`,
        or: after(),
        held: next.title,
        urgent: true,
      },
    );
  }
  if (!begins || now.run !== null || site.some((c) => c.state !== 'open')) return next;
  return say(
    'check',
    t`Site check`,
    site.some((c) => c.earlier !== null) ? t`not answered today` : t`before work begins`,
    t`then ${midSentence(next.title)}`,
    { caution: t`Locate buried and overhead services first.`, or: after() },
  );
}

/** The questions still to be answered, by name in the language of the crew; null where none is. */
export const openSaid = (checks: readonly SafetyCheck[]): string | null =>
  openWords(checks)?.split('; ').map(translated).join('; ') ?? null;
