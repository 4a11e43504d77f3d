/** Ages typed for the sections of the past: what is kept of them, or what is wrong. */
import { printed } from '@stillstand/output/words';

/** As the setting takes them, cal BP. */
const [YOUNGEST, OLDEST, MOST] = [-100, 50_000, 6];

export type TypedAges = { ok: true; value: string } | { ok: false; fault: string };

/** Separated by ; or new lines; thousands may have a comma. Nothing typed: round ages are chosen. */
export function typedAges(typed: string): TypedAges {
  const parts = typed
    .split(/[;\n]/)
    .map((part) => part.trim())
    .filter((part) => part !== '');
  const taken = `ages from −100 to ${printed(OLDEST)} cal BP, separated by ;`;
  const ages: number[] = [];
  for (const part of parts) {
    const plain = part.replace('−', '-').replace(/(?<=\d),(?=\d{3}(?!\d))/g, '');
    const age = /^-?\d+(\.\d+)?$/.test(plain) ? Number(plain) : Number.NaN;
    if (!(age >= YOUNGEST && age <= OLDEST))
      return { ok: false, fault: `Found “${part}”; expected ${taken}.` };
    if (!ages.includes(age)) ages.push(age);
  }
  if (ages.length > MOST)
    return {
      ok: false,
      fault: `Found ${printed(ages.length)} ages; expected ${MOST} at most. Leave some out.`,
    };
  return { ok: true, value: ages.join('; ') };
}
