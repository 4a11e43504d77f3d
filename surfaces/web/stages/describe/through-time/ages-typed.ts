/** Ages typed for the sections of the past: what is kept of them, or what is wrong. */
import { readSectionAge, SECTION_AGES } from '@stillstand/campaign/settings';
import { listed } from '@stillstand/campaign/tables';
import { printed } from '@stillstand/output/words';

export type TypedAges = { ok: true; value: string } | { ok: false; fault: string };

/** Separated by ; or new lines, as the setting takes them. Nothing typed: round ages are chosen. */
export function typedAges(typed: string): TypedAges {
  const { oldest, most } = SECTION_AGES;
  const ages = new Set<number>();
  for (const part of listed(typed.replaceAll('\n', ';'))) {
    const age = readSectionAge(part);
    if (age === null)
      return {
        ok: false,
        fault: `Found “${part}”; expected ages from −100 to ${printed(oldest)} cal BP, separated by ;.`,
      };
    ages.add(age);
  }
  if (ages.size > most)
    return {
      ok: false,
      fault: `Found ${printed(ages.size)} ages; expected ${most} at most. Leave some out.`,
    };
  return { ok: true, value: [...ages].join('; ') };
}
