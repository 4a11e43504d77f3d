/** What a figure draws as unknown, in its own words: so that nobody takes it for "not seen", or for another sediment. */
import type { UnitResult } from '@stillstand/campaign/results';
import { hasNoPattern } from '@stillstand/output/drawing';

/** A sentence for the caption; empty where every sediment has a pattern. */
export function noPatternText(units: readonly Pick<UnitResult, 'sediment'>[]): string {
  const words = [...new Set(units.map(({ sediment }) => sediment.trim()).filter(hasNoPattern))];
  return words.length === 0
    ? ''
    : `Drawn as unknown, no pattern being known for ${words.length === 1 ? 'it' : 'them'}: ${words.join('; ')}.`;
}
