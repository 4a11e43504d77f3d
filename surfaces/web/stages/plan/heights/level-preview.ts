/** The level book reduced while it is typed: read as the document is read, reduced as the results are. */
import {
  type Campaign,
  type CampaignDocument,
  newDocument,
  parseCampaign,
  withRows,
} from '@stillstand/campaign/document';
import { loopBefore } from '@stillstand/campaign/steps';
import {
  type LevelLine,
  type LevelLoop,
  likelySlips,
  type Slip,
  slippedPoint,
  staffDoubt,
} from '@stillstand/science/survey';
import { type BookLine, counts, ENTRIES, type Entry } from './level-lines.ts';

/** What is wrong with, or to be asked about, one cell. */
export interface CellSays {
  severity: 'error' | 'question' | 'note';
  words: string;
  /** What was most likely meant, as it would be typed. */
  meant: string | null;
}

export interface Preview {
  loop: LevelLoop | null;
  datum: string;
  lines: ReadonlyMap<string, LevelLine>;
  /** By line, then by cell; a line's own under its station. */
  says: ReadonlyMap<string, ReadonlyMap<Entry, CellSays>>;
  /** Key of the first line that cannot be read: heights end before it. */
  endsAt: string | null;
  slips: readonly Slip[];
}

/** `document` for the way its table writes numbers; `allowed` in mm·√km, null for the usual limit. */
export function previewOf(
  campaign: Campaign | null,
  document: CampaignDocument,
  loop: string,
  all: readonly BookLine[],
  allowed: number | null,
): Preview {
  const lines = all.filter((line) => counts(line) || line.state === 'conflict');
  const read = asRead(document, loop, lines);
  const sights = new Map(read.campaign.rows.levelling.map((row) => [row.row_id, row]));
  const end = lines.findIndex(({ key, state }) => !sights.has(key) || state === 'conflict');
  const used = (end === -1 ? lines : lines.slice(0, end)).map(({ key }) => sights.get(key)!);
  const before = loopBefore(campaign ?? read.campaign, used, allowed);
  const closure = before.loop?.closures.findLast(({ within }) => !within);
  const says = new Map<string, Map<Entry, CellSays>>();
  const say = (key: string, entry: Entry, what: CellSays): void => {
    const of = says.get(key) ?? new Map<Entry, CellSays>();
    says.set(key, of);
    if (!of.has(entry)) of.set(entry, what);
  };
  for (const { row_id, column, severity, found, expected, fix } of read.problems) {
    if (row_id === null || severity === 'note') continue;
    const entry = ENTRIES.find((each) => each === column) ?? 'point';
    const meant = slippedIn(found);
    const words =
      found === '' ? `Expected ${expected}. ${fix}` : `Found “${found}”; expected ${expected}. ${fix}`;
    say(row_id, entry, { severity: 'error', words, meant });
  }
  for (const row of sights.values()) {
    for (const entry of ['backsight_m', 'intermediate_m', 'foresight_m'] as const) {
      const doubt = row[entry] === null ? null : staffDoubt(row[entry]);
      if (doubt === 'inverted')
        say(row.row_id, entry, {
          severity: 'note',
          words: 'Staff upside down: read from its foot down.',
          meant: null,
        });
      if (doubt === 'long')
        say(row.row_id, entry, {
          severity: 'question',
          words: `${row[entry]} m: longer than a staff of 5 m.`,
          meant: slippedIn(String(row[entry])),
        });
    }
  }
  for (const { code, row_id, found, expected, fix } of before.loop?.findings ?? []) {
    if (code === 'level-sight-unused')
      say(row_id, 'point', {
        severity: 'error',
        words: `Found ${found}; expected ${expected}. ${fix}`,
        meant: null,
      });
  }
  return {
    loop: before.loop,
    datum: before.datum,
    lines: new Map((before.loop?.lines ?? []).map((line) => [line.row_id, line])),
    says,
    endsAt: end === -1 ? null : lines[end]!.key,
    slips:
      closure === undefined || before.loop === null
        ? []
        : likelySlips(used, before.loop.lines, closure.misclosure_m),
  };
}

/** 14.82 for 1.482, and so on; null where nothing fits. */
function slippedIn(found: string): string | null {
  const meant = slippedPoint(Number(found.replace(',', '.').replace(/^[−–]/, '-')));
  return meant === null ? null : meant.toFixed(3);
}

/** The lines as the table will have them, read by the same rules; their identity is their key. */
function asRead(document: CampaignDocument, loop: string, lines: readonly BookLine[]) {
  const table = document.tables.get('levelling');
  const isComma = table?.dialect.decimal_comma === true;
  // What is entered into a table that writes 3,05 is written so.
  const asWritten = (entry: Entry, text: string): string =>
    isComma && entry.endsWith('_m') ? text.replace(/\.(?=\d)/g, ',') : text;
  const bare: CampaignDocument = {
    ...newDocument(''),
    tables: new Map(table === undefined ? [] : [['levelling', { ...table, rows: [], source: null }]]),
  };
  return parseCampaign(
    withRows(
      bare,
      'levelling',
      lines.map(({ key, cells }, i) => ({
        ...Object.fromEntries(ENTRIES.map((entry) => [entry, asWritten(entry, cells[entry])])),
        loop: loop === '' ? 'new' : loop,
        seq: String(i + 1),
        row_id: key,
      })),
    ),
  );
}
