/** Answers to the lines of a day's checklist: readings of the table `checks`, and the signatures of older notes. */
import { rowsInForce } from '@stillstand/campaign/document';
import type { DocRow } from '../../store/index.ts';

export type CheckAnswer = 'yes' | 'no' | 'not_needed';

export interface Answered {
  answer: CheckAnswer;
  /** Initials or role, and time of day. */
  by: string;
  /** The reading that stands; null for a signature in an older note. */
  row_id: string | null;
}

const ANSWERS: ReadonlySet<string> = new Set<CheckAnswer>(['yes', 'no', 'not_needed']);

/** The answers that stand for a day, by line. `rows` are all of `checks`; `note` is the day's. */
export function answersOf(rows: readonly DocRow[], date: string, note: string): Map<string, Answered> {
  const found = new Map<string, Answered>(
    signatures(note).map(({ line, by }) => [line, { answer: 'yes', by, row_id: null }]),
  );
  for (const row of rowsInForce('checks', rows)) {
    const { hole = '', date: of = '', item = '', answer = '', by = '', time = '' } = row.cells;
    if (hole.trim() !== '' || of.trim() !== date || !ANSWERS.has(answer)) continue;
    const clock = /T(\d\d:\d\d)/.exec(time)?.[1] ?? '';
    found.set(item, {
      answer: answer as CheckAnswer,
      by: [by === '' ? 'crew' : by, clock].filter(Boolean).join(' '),
      row_id: row.row_id,
    });
  }
  return found;
}

/** Campaigns of before the table kept "signed: services located (DK 08:10), leave by known (DK 08:12)" in the note. */
const SEGMENT = /(?:^|;\s*)signed: ([^;]*)/;

function signatures(note: string): { line: string; by: string }[] {
  const text = SEGMENT.exec(note)?.[1] ?? '';
  return [...text.matchAll(/([^,()]+) \(([^()]*)\)/g)].map(([, line, by]) => ({
    line: line!.trim(),
    by: by!,
  }));
}

/** The note with the signature of a line taken back; everything else in it stays. */
export function withoutSignature(note: string, line: string): string {
  const kept = signatures(note).filter((signature) => signature.line !== line);
  const own = note.replace(SEGMENT, '').trim().replace(/^;\s*/, '');
  const segment = kept.length === 0 ? '' : `signed: ${kept.map((s) => `${s.line} (${s.by})`).join(', ')}`;
  return [own, segment].filter(Boolean).join('; ');
}
