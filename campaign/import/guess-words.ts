/** What is the same in every row, and which of their words are which of ours. */
import { LEVEL } from './guess-columns.ts';
import type { Heading } from './heading.ts';
import type { Kind, MappedColumn, Mapping } from './mapping.ts';
import type { TheirLine } from './sheet.ts';
import { TABLE_OF, targetsOf } from './targets.ts';
import { ourWord } from './trade-words.ts';

/** Our words for free columns, by table and column: `units.sediment`. */
export type Vocabulary = Readonly<Record<string, readonly string[]>>;

/** A zone in a heading: easting_utm17n_m. */
const UTM = /utm[\s_]*(?:zone[\s_]*)?(\d{1,2})[\s_]*([ns])(?![a-z])/i;

/** What is the same in every row, as far as headings say it. */
export function guessedFixed(
  as: Kind,
  headings: readonly Heading[],
  columns: readonly MappedColumn[],
): Record<string, string> {
  const fixed: Record<string, string> = {};
  const isMapped = (to: string): boolean => columns.some((column) => column.to === to);
  const datumOf = (to: string): string | null => {
    const at = columns.findIndex((column) => column.to === to);
    return at === -1 ? null : headings[at]!.datum;
  };
  const say = (to: string, word: string | null): void => {
    if (word !== null && !isMapped(to)) fixed[to] = word;
  };
  if (as === 'cores') {
    say('reference_datum', datumOf('reference_elevation_m'));
    const zone = headings.map(({ text }) => UTM.exec(text)).find((found) => found !== null);
    if (zone != null && isMapped('easting')) say('utm_zone', `${zone[1]}${zone[2]!.toUpperCase()}`);
  }
  if (as === 'samples') say('elevation_datum', datumOf('elevation_m'));
  if (as === 'published-points') say('datum', datumOf('rsl_m'));
  if (as === 'tide-levels') {
    const level = columns.findIndex(({ to }) => to === 'tide level' || to === 'elevation_m');
    const words =
      headings[level]?.text
        .toLowerCase()
        .replace(/[_\s]+/g, ' ')
        .replace(LEVEL, '') ?? '';
    say(
      'datum',
      datumOf('elevation_m') ??
        (/\bmsl\b/.test(words) ? 'MSL' : /\bnavd ?88\b/.test(words) ? 'NAVD88' : null),
    );
  }
  if (as === 'dates') {
    const isRadiocarbon = headings.some(({ text }) =>
      /radiocarbon|14\s*c|c[\s_-]?14|conventional age|\bbp\b/i.test(text),
    );
    say('method', isRadiocarbon ? 'radiocarbon' : null);
  }
  if (['layers', 'samples', 'dates', 'measurements', 'lead-profiles', 'points'].includes(as))
    say('depth_basis', 'in_situ');
  return fixed;
}

/** More different words than this are no choice. */
const MOST_WORDS = 60;

/** Their words for ours, where a column has a choice or a vocabulary. */
export function guessedWords(
  as: Kind,
  columns: readonly MappedColumn[],
  body: readonly TheirLine[],
  vocabulary: Vocabulary,
): Mapping['words'] {
  const words = new Map<string, Map<string, string>>();
  const table = TABLE_OF[as];
  for (const [at, { to, property }] of columns.entries()) {
    const ours = to === 'layer' ? 'sediment' : to;
    if (ours === null) continue;
    const target = targetsOf(as).get(ours);
    const known = vocabulary[`${table}.${ours}`];
    if (target === undefined || (target.column.kind !== 'choice' && known === undefined)) continue;
    const typed = to === 'layer' ? [property ?? ''] : body.map(({ cells }) => (cells[at] ?? '').trim());
    const different = [...new Set(typed)].filter((word) => word !== '').slice(0, MOST_WORDS);
    for (const word of different) {
      const said =
        target.column.kind === 'choice'
          ? ourWord(table, ours, word)
          : (known!.find((our) => our.toLowerCase() === word.toLowerCase()) ?? word);
      // A word of their own stands in the mapping as it is, so that another can be written for it.
      if (said !== null && (said !== word || (known !== undefined && !known.includes(word)))) {
        words.set(ours, (words.get(ours) ?? new Map<string, string>()).set(word, said));
      }
    }
  }
  // A word of theirs may be the name of something every object has.
  return Object.fromEntries([...words].map(([to, of]) => [to, Object.fromEntries(of)]));
}
