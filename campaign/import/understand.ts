/** A first reading of somebody's sheet: what it is about, where its rows begin, and which of their columns is which. */
import { lettersOf } from './columns.ts';
import { type Heading, headingKey } from './heading.ts';
import { isErrorHeading, isFlagHeading, knownHeading, scoreAs } from './known-headings.ts';
import { headingsOf, layoutOf } from './layout.ts';
import { KINDS, type Kind, type MappedColumn, type Mapping } from './mapping.ts';
import type { TheirLine, TheirSheet, Theirs } from './sheet.ts';
import { needsUnit, TABLE_OF, targetsOf } from './targets.ts';
import { decimalMarkOf, readTheirNumber } from './their-number.ts';
import { ourWord } from './trade-words.ts';

/** How a sheet was understood: a mapping to look at, correct and use. */
export interface Understanding {
  mapping: Mapping;
  /** The same for tables headed alike: what a corrected mapping is remembered under. */
  key: string;
}

/** What else is known when a table is looked at. */
export interface Knowledge {
  as?: Kind;
  /** Line that a person says the headings are in. */
  headings?: number;
  /** A mapping that somebody corrected before, by the key of its headings. */
  remembered?: (key: string) => Mapping | null;
  /** Our words for free columns, such as the sediments of the vocabulary. */
  vocabulary?: Readonly<Record<string, readonly string[]>>;
}

/** A depth is the same as a sample's within so much (common practice, no source). */
const SAME_DEPTH = '5 mm';

/** The sheet whose headings are known best. */
export function bestSheet({ sheets }: Theirs, as?: Kind): TheirSheet | null {
  const score = (sheet: TheirSheet): number => {
    const layout = layoutOf(sheet, as ?? null);
    if (layout === null) return -1;
    const headings = headingsOf(sheet, layout);
    return Math.max(...(as === undefined ? KINDS : [as]).map((kind) => scoreAs(kind, headings)));
  };
  let best: { sheet: TheirSheet; score: number } | null = null;
  for (const sheet of sheets) {
    const own = score(sheet);
    if (best === null || own > best.score) best = { sheet, score: own };
  }
  return best?.sheet ?? null;
}

/** Null where the sheet has no line that could be headings. */
export function understand(sheet: TheirSheet, knowledge: Knowledge = {}): Understanding | null {
  const layout = layoutOf(sheet, knowledge.as ?? null, knowledge.headings ?? null);
  if (layout === null) return null;
  const headings = headingsOf(sheet, layout);
  const as = knowledge.as ?? likeliestKind(headings);
  const key = `${as}: ${headingKey(headings.map(({ text }) => text))}`;
  const before = knowledge.remembered?.(key) ?? null;
  const body = sheet.lines.filter(({ line }) => line > layout.begin_below);
  const mark = decimalMarkOf(cellsOf(body));
  if (before !== null) {
    // Another table headed alike may have another decimal mark, and has other lines.
    const decimal_comma = mark.asked ? before.decimal_comma : mark.decimal_comma;
    return { key, mapping: { ...before, ...layout, decimal_comma, sheet: sheet.name, leave_out: [] } };
  }
  const { decimal_comma } = mark;
  const columns = mapped(as, headings, body, decimal_comma);
  const fixed = guessedFixed(as, headings, columns);
  return {
    key,
    mapping: {
      as,
      sheet: sheet.name,
      ...layout,
      decimal_comma,
      columns,
      fixed,
      words: guessedWords(as, columns, body, knowledge.vocabulary ?? {}),
      leave_out: [],
      fill_down: namesOnce(columns, body),
      keep_rest: true,
      same_depth: SAME_DEPTH,
    },
  };
}

function* cellsOf(lines: readonly TheirLine[]): Generator<string> {
  for (const { cells } of lines) yield* cells;
}

/**
 * True where a core is named in the first of its lines alone. In a table that repeats it in each line, a blank one is of no
 * core, or of one that is not known.
 */
function namesOnce(columns: readonly MappedColumn[], body: readonly TheirLine[]): boolean {
  const at = columns.findIndex(({ to }) => to === 'hole');
  if (at === -1) return false;
  const names = body.map(({ cells }) => (cells[at] ?? '').trim());
  return names.some((name) => name === '') && !names.some((name, i) => name !== '' && name === names[i - 1]);
}

/** Units in which things are measured and nothing lies. */
const MEASURED = /^(?:%|g\/cm3|kg\/m3|Bq\/kg|dpm\/g|mBq\/g|µm|phi|mg\/g|ppm|ppb|g|mg)$/;

/** Headings in such units, as far as they tell one kind from another. */
const measured = (headings: readonly Heading[]): number =>
  Math.min(4, headings.filter(({ unit }) => unit !== null && MEASURED.test(unit)).length);

/** Of kinds that know as many headings, the one later in the job: it has the more particular ones. */
function likeliestKind(headings: readonly Heading[]): Kind {
  let best: Kind = 'measurements';
  let most = 0;
  for (const kind of KINDS) {
    const score =
      scoreAs(kind, headings) + (kind === 'measurements' ? measured(headings) : kind === 'points' ? -1 : 0);
    if (score >= most && score > 0) {
      best = kind;
      most = score;
    }
  }
  return best;
}

function mapped(
  as: Kind,
  headings: readonly Heading[],
  body: readonly TheirLine[],
  decimal_comma: boolean,
): MappedColumn[] {
  const targets = targetsOf(as);
  const found = headings.map((heading, at) => {
    const isEmpty = body.every(({ cells }) => (cells[at] ?? '').trim() === '');
    return isEmpty ? null : knownHeading(as, heading.text, heading.words);
  });
  // Of two that mean the same the one known better, or the first.
  const best = new Map<string, number>();
  for (const [at, known] of found.entries()) {
    if (known !== null && (found[best.get(known.to) ?? -1]?.rank ?? Infinity) > known.rank)
      best.set(known.to, at);
  }
  const taken = new Set(best.keys());
  const columns = headings.map((heading, at): MappedColumn => {
    const known = found[at] ?? null;
    const to = known !== null && best.get(known.to) === at ? known.to : null;
    const sigma = heading.sigma === null ? {} : { sigma: heading.sigma };
    return { column: lettersOf(at), heading: heading.text, to, unit: heading.unit, ...sigma };
  });
  if (as === 'measurements' && !taken.has('property')) properties(columns, headings, body, decimal_comma);
  if (as === 'layers' && !['thickness', 'top', 'bottom', 'depth'].some((to) => taken.has(to)))
    layers(columns, headings);
  if (as === 'tide-levels' && !taken.has('level')) tideLevels(columns, headings);
  oneSigmaFirst(columns, headings, as);
  unitsFromNeighbours(columns, targets);
  return columns;
}

const PLACE =
  /^(?:lat|lon|east|north|elev|alt|utm|x$|y$|z$|year|date|time|flag|qc|line|row|no$|number|lab ?id|lab ?no|distance above|mid)/;

/** Each column of numbers that is no place is a property. */
function properties(
  columns: MappedColumn[],
  headings: readonly Heading[],
  body: readonly TheirLine[],
  decimal_comma: boolean,
): void {
  let before: string | null = null;
  for (const [at, column] of columns.entries()) {
    const { words, unit, text } = headings[at]!;
    if ((column.to !== null && column.to !== 'value' && column.to !== 'sigma') || isFlagHeading(words))
      continue;
    if (text === '' || PLACE.test(words) || !isMostlyNumbers(body, at, decimal_comma)) continue;
    if (isErrorHeading(words)) {
      const of = ofWhich(words, columns) ?? before;
      if (of === null) continue;
      column.to = 'measurement error';
      column.property = of;
      column.unit ??= columns.find((c) => c.to === 'measurement' && c.property === of)?.unit ?? null;
      continue;
    }
    const property = propertyName(words) || text;
    if (columns.some((c) => c.to === 'measurement' && c.property === property)) continue;
    column.to = 'measurement';
    column.property = property;
    column.unit = unit;
    before = property;
  }
}

const propertyName = (words: string): string => words.replace(/^percent(?:age)? (?:of )?/, '').trim();

/** The property whose error a heading names: "excess pb210 activity se" of "excess pb210 activity". */
function ofWhich(words: string, columns: readonly MappedColumn[]): string | null {
  const stem = words
    .replace(
      /[±σ]|\+\s*\/?\s*-|\b(?:errors?|uncertainty|sigma|s\.?[de]\.?|std|precision|accuracy|of|1|2)\b/g,
      ' ',
    )
    .replace(/\s+/g, ' ')
    .trim();
  return columns.find((c) => c.to === 'measurement' && c.property === propertyName(stem))?.property ?? null;
}

function isMostlyNumbers(body: readonly TheirLine[], at: number, decimal_comma: boolean): boolean {
  let filled = 0;
  let numbers = 0;
  for (const { cells } of body.slice(0, 500)) {
    const read = readTheirNumber(cells[at] ?? '', decimal_comma);
    if (read.kind === 'blank') continue;
    filled++;
    if (read.kind === 'number') numbers++;
  }
  return filled > 0 && numbers * 2 >= filled;
}

const LAYER_THICKNESS = /^(.+?) (?:layer )?thic(?:k(?:ness)?)?$/;

/** A column of thickness for each layer, from the left down. */
function layers(columns: MappedColumn[], headings: readonly Heading[]): void {
  const named = columns.flatMap((column, at) => {
    const { words } = headings[at]!;
    const name = isFlagHeading(words) ? undefined : LAYER_THICKNESS.exec(words)?.[1];
    return name === undefined ? [] : [{ column, name }];
  });
  if (named.length < 2) return;
  for (const { column, name } of named) {
    column.to = 'layer';
    column.property = name;
  }
}

const LEVEL = /^(hat|mhhw|mhws|mhwn|mhw|mtl|dtl|msl|mlwn|mlws|mllw|mlw|lat)\b/;

/** A column for each tide level. */
function tideLevels(columns: MappedColumn[], headings: readonly Heading[]): void {
  for (const [at, column] of columns.entries()) {
    const plain = headings[at]!.text.toLowerCase()
      .replace(/[_\s]+/g, ' ')
      .trim();
    const level = LEVEL.exec(plain)?.[1];
    if (column.to !== null || level === undefined || /error|uncert|sigma/.test(plain)) continue;
    column.to = 'tide level';
    column.property = level.toUpperCase();
  }
}

/** Where an error is given at 1 sigma and at 2 the first is taken, whichever comes first. */
function oneSigmaFirst(columns: MappedColumn[], headings: readonly Heading[], as: Kind): void {
  for (const [at, column] of columns.entries()) {
    if (column.to === null || column.sigma !== 2) continue;
    const better = columns.find(
      (other, i) =>
        other.to === null &&
        headings[i]!.sigma === 1 &&
        knownHeading(as, headings[i]!.text, headings[i]!.words)?.to === column.to,
    );
    if (better === undefined || at === columns.indexOf(better)) continue;
    better.to = column.to;
    column.to = null;
  }
}

/** Depths, and an elevation and its error, are in one unit where only one column says which. */
function unitsFromNeighbours(columns: MappedColumn[], targets: ReturnType<typeof targetsOf>): void {
  for (const kind of ['length', 'number'] as const) {
    const of = columns.filter(({ to }) => {
      const target = to === null ? undefined : targets.get(to);
      return target !== undefined && needsUnit(target) && target.column.kind === kind;
    });
    const said = new Set(of.map(({ unit }) => unit).filter((unit) => unit !== null));
    if (said.size === 1) for (const column of of) column.unit ??= [...said][0]!;
  }
}

/** A zone in a heading: easting_utm17n_m. */
const UTM = /utm[\s_]*(?:zone[\s_]*)?(\d{1,2})[\s_]*([ns])(?![a-z])/i;

/** What is the same in every row, as far as headings say it. */
function guessedFixed(
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
  if (['layers', 'samples', 'dates', 'measurements', 'points'].includes(as)) say('depth_basis', 'in_situ');
  return fixed;
}

/** More different words than this are no choice. */
const MOST_WORDS = 60;

/** Their words for ours, where a column has a choice or a vocabulary. */
function guessedWords(
  as: Kind,
  columns: readonly MappedColumn[],
  body: readonly TheirLine[],
  vocabulary: NonNullable<Knowledge['vocabulary']>,
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
