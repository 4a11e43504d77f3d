/** What holds for a loop as a whole: of a new one as it begins, of a recorded one as the document has it. */
import { crew, timeWithOffset } from '../../../store/index.ts';
import type { LoopFacts } from './level-kept.ts';

const today = (): string => timeWithOffset(new Date()).slice(0, 10);

export function newFacts(
  loops: readonly string[],
  last: Readonly<Record<string, string>> | undefined,
): LoopFacts {
  let number = loops.length + 1;
  while (loops.includes(`loop ${number}`)) number++;
  return {
    loop: `loop ${number}`,
    date: today(),
    by: crew().by,
    device: last?.['device'] ?? '',
    collimation_mm: '',
    collimation_over_m: '',
    allowed_mm_sqrt_km: '',
  };
}

export const sameFacts = (a: LoopFacts, b: LoopFacts): boolean =>
  Object.entries(b).every(([column, text]) => a[column as keyof LoopFacts] === text);

export function factsOf(
  loop: string,
  about: Readonly<Record<string, string>> | undefined,
  first: Readonly<Record<string, string>> | undefined,
): LoopFacts {
  return {
    loop,
    date: about?.['date'] ?? first?.['time']?.slice(0, 10) ?? '',
    by: first?.['by'] ?? '',
    device: first?.['device'] ?? '',
    collimation_mm: about?.['collimation_mm'] ?? '',
    collimation_over_m: about?.['collimation_over_m'] ?? '',
    allowed_mm_sqrt_km: about?.['allowed_mm_sqrt_km'] ?? '',
  };
}

/** What of it is in the row of `level_loops`; recorder and instrument are in each reading. */
export const writtenFacts = ({ by: _, device: __, ...about }: LoopFacts): Record<string, string> =>
  Object.fromEntries(Object.entries(about).map(([column, text]) => [column, text.trim()]));
