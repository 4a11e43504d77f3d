/**
 * Words of the app in the language of the crew. In the source they are English and marked: t`Confirm ${joint} tight`.
 * The English with {0}, {1} … for what is filled in is the key of the catalogues; what a catalogue lacks is said in
 * English.
 */
import { catalogue, language } from './language.ts';
import { filled, speaker } from './pattern.ts';

/** A message in the language of the crew. Blanks around it stay as they are: they are no words. */
export function t(parts: TemplateStringsArray, ...values: readonly (string | number)[]): string {
  const whole = parts.map((part, i) => (i === 0 ? part : `{${i - 1}}${part}`)).join('');
  const key = whole.trim();
  return whole.replace(key, () => filled(catalogue.app[key] ?? key, values));
}

/**
 * What another room says in English, in the language of the crew: rooms below the app know no language. What the
 * catalogue has no words for stays as it is. It is not for what a person typed alone: that is said as it was typed.
 */
export const translated = speaker(catalogue.rooms);

/** A label within a sentence: English writes it small, German writes its nouns large everywhere. */
export const midSentence = (label: string): string =>
  language === 'en' ? label.charAt(0).toLowerCase() + label.slice(1) : label;
