/**
 * The seven parts of an evening's plan, in the order they are gone through: what is known of each, what is missing, and
 * what to do next. Pure: asked of facts that the page has gathered.
 */

export type PartKey = 'where' | 'deep' | 'heights' | 'tide' | 'gear' | 'who' | 'hazards';

export const PART_NAMES: Readonly<Record<PartKey, string>> = {
  where: 'Where',
  deep: 'How deep',
  heights: 'Heights',
  tide: 'Tide',
  gear: 'Gear',
  who: 'Who',
  hazards: 'Hazards',
};

/**
 * `open`: something is to be done before drilling. `caution`: drilling can begin, with something to know. `stop`: it
 * must not begin.
 */
export type PartState = 'done' | 'caution' | 'open' | 'stop';

export interface Part {
  key: PartKey;
  state: PartState;
  /** "T4, T5"; "finish level loop". */
  says: string;
  /** Smaller, below: a number or a place; may be empty. */
  fact: string;
  /** What is missing, each in a word or two: "level loop", "weather". */
  gaps: readonly string[];
}

/** Gone through as the parts come; what stops has its own plate above them all. */
export const nextPart = (parts: readonly Part[]): Part | null =>
  parts.find(({ state }) => state === 'stop' || state === 'open') ?? null;

export interface Readiness {
  isReady: boolean;
  /** "Not ready: overhead line, level loop", "Ready to drill P1; check: cable". */
  words: string;
  /** Set where something stops. */
  isStopped: boolean;
}

/** So many gaps are named; the strip has the others. */
const MOST_NAMED = 4;

/** Of the hole the parts are about. */
export function readiness(parts: readonly Part[], hole: string | null): Readiness {
  const of = (...states: PartState[]): string[] =>
    parts.filter(({ state }) => states.includes(state)).flatMap(({ gaps }) => gaps);
  const missing = [...of('stop'), ...of('open')];
  const isReady = parts.every(({ state }) => state === 'done' || state === 'caution');
  const cautions = of('caution');
  return {
    isReady,
    isStopped: parts.some(({ state }) => state === 'stop'),
    words: isReady
      ? `Ready to drill ${hole ?? ''}${cautions.length === 0 ? '' : `; check: ${listed(cautions)}`}`
      : `Not ready: ${listed(missing)}`,
  };
}

export const listed = (words: readonly string[], most = MOST_NAMED): string =>
  words.length <= most
    ? words.join(', ')
    : `${words.slice(0, most).join(', ')} and ${words.length - most} more`;
