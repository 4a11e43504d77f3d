/** The words of the rig in the language of the crew: docs/languages.md says how one is added. */
export { chooseLanguage, LANGUAGES, type Language, language } from './language.ts';
export { midSentence, t, translated } from './message.ts';
