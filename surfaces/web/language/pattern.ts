/** A sentence that was filled in, read back: which message it is, and what stands in its places. */

export interface Pattern {
  reads: RegExp;
  message: string;
}

/** The messages with places, those with the most words of their own first: they say most surely what they are. */
export function patternsOf(messages: Readonly<Record<string, string>>): Pattern[] {
  return Object.entries(messages)
    .filter(([english]) => english.includes('{0}'))
    .sort(([a], [b]) => ownLength(b) - ownLength(a))
    .map(([english, message]) => ({ reads: new RegExp(`^${reading(english)}$`), message }));
}

/** The first that reads the sentence, with what it found in its places; null where none does. */
export function readBy(
  patterns: readonly Pattern[],
  sentence: string,
): { message: string; values: string[] } | null {
  for (const { reads, message } of patterns) {
    const found = reads.exec(sentence);
    if (found !== null) return { message, values: found.slice(1) };
  }
  return null;
}

const ownLength = (english: string): number => english.replace(/\{\d+\}/g, '').length;

/** Places are numbered in the order they stand in. */
const reading = (english: string): string =>
  english.replace(/[.*+?^$()[\]\\|]/g, '\\$&').replace(/\{\d+\}/g, '(.+?)');
