/** A sentence that was filled in, read back and said in another language: which message it is, and what is in its places. */

type Messages = Readonly<Record<string, string>>;

/** English sentences → the same in another language; one that no message reads stays as it is. */
export function speaker(messages: Messages): (english: string) => string {
  const patterns = patternsOf(messages);
  const say = (english: string): string => {
    const whole = messages[english];
    if (whole !== undefined) return whole;
    for (const { reads, message } of patterns) {
      const found = reads.exec(english);
      if (found !== null) return filled(message, found.slice(1).map(say));
    }
    return english;
  };
  return say;
}

export const filled = (message: string, values: readonly (string | number)[]): string =>
  message.replace(/\{(\d+)\}/g, (place, i: string) => String(values[Number(i)] ?? place));

interface Pattern {
  reads: RegExp;
  message: string;
}

/** The messages with places, those with the most words of their own first: they say most surely what they are. */
const patternsOf = (messages: Messages): Pattern[] =>
  Object.entries(messages)
    .filter(([english]) => english.includes('{0}') && /[a-z]/i.test(english))
    .sort(([a], [b]) => ownLength(b) - ownLength(a))
    .map(([english, message]) => ({ reads: new RegExp(`^${reading(english)}$`), message }));

const ownLength = (english: string): number => english.replace(/\{\d+\}/g, '').length;

/** Places are numbered in the order they have in English. */
const reading = (english: string): string =>
  english.replace(/[.*+?^$()[\]\\|]/g, '\\$&').replace(/\{\d+\}/g, '(.+?)');
