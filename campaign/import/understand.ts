/** A first reading of somebody's sheet: what it is about, where its rows begin, and which of their columns is which. */
import { mapped } from './guess-columns.ts';
import { guessedFixed, guessedWords, type Vocabulary } from './guess-words.ts';
import { type Heading, headingKey } from './heading.ts';
import { scoreAs } from './known-headings.ts';
import { headingsOf, layoutOf } from './layout.ts';
import { KINDS, type Kind, type MappedColumn, type Mapping } from './mapping.ts';
import type { TheirLine, TheirSheet, Theirs } from './sheet.ts';
import { withoutSaid } from './submission-sheet.ts';
import { decimalMarkOf } from './their-number.ts';

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
  vocabulary?: Vocabulary;
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
    const again = { ...before, ...layout, decimal_comma, sheet: sheet.name, leave_out: [] };
    return { key, mapping: as === 'lead-profiles' ? withoutItsCore(again) : again };
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
      columns: withoutSaid(columns),
      fixed,
      words: guessedWords(as, columns, body, knowledge.vocabulary ?? {}),
      leave_out: [],
      fill_down: namesOnce(columns, body),
      keep_rest: true,
      same_depth: SAME_DEPTH,
    },
  };
}

/** The next core that a laboratory reports is another: its name, its day, its supported lead-210 and its limits are asked again. */
function withoutItsCore(mapping: Mapping): Mapping {
  const { hole: _, collected, supported_bq_kg, supported_sigma_bq_kg, ...fixed } = mapping.fixed;
  return { ...mapping, fixed, columns: mapping.columns.map(({ limit, ...column }) => column) };
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
