/**
 * Which language the crew reads on the rig; kept on the device. It is read once, before anything is drawn: a change of
 * language loads the app again, and what was half typed comes back with it.
 */

/** Each language by its code, in its own name. */
export const LANGUAGES = { en: 'English', de: 'Deutsch' } as const;
export type Language = keyof typeof LANGUAGES;

/** English with places → the same in another language. */
interface Catalogue {
  /** Messages of the app itself. */
  readonly app: Readonly<Record<string, string>>;
  /** What other rooms say, where the rig shows it. */
  readonly rooms: Readonly<Record<string, string>>;
}

const CATALOGUES: Readonly<Record<Exclude<Language, 'en'>, () => Promise<{ default: Catalogue }>>> = {
  de: () => import('./de.json', { with: { type: 'json' } }),
};

const KEY = 'stillstand.language';

// Nothing is kept where there is no page, as in a worker or a test.
const kept = (): string | null => (typeof document === 'undefined' ? null : localStorage.getItem(KEY));

const isLanguage = (code: string | null): code is Language => code !== null && Object.hasOwn(LANGUAGES, code);

export const language: Language = ((code) => (isLanguage(code) ? code : 'en'))(kept());

/** Of the language of the device, read before any message is made. */
export const catalogue: Catalogue =
  language === 'en' ? { app: {}, rooms: {} } : (await CATALOGUES[language]()).default;

export function chooseLanguage(next: Language): void {
  localStorage.setItem(KEY, next);
  location.reload();
}
