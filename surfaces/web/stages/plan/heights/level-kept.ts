/** What is typed in a level book and not recorded, kept on the device outside the document, as half-filled forms are. */
import type { TypedRow } from '@stillstand/campaign/document';
import type { DraftPlace, Drafts, KeptDraft } from '../../../store/index.ts';
import { type AddedLine, BLANK, type BookDraft, isBlank, loopsIn, NO_DRAFT } from './level-lines.ts';

/** What holds for the whole loop, as typed; of a loop that is recorded it is in the document. */
export interface LoopFacts {
  loop: string;
  date: string;
  by: string;
  device: string;
  collimation_mm: string;
  collimation_over_m: string;
  allowed_mm_sqrt_km: string;
}

/** Where the draft of a loop is kept; of a new one, which has no label yet, the label is empty. */
export const placeOfLoop = (loop: string): DraftPlace => ({ form: 'level-book', hole: loop, amends: '' });

export const valuesOf = (draft: BookDraft, facts: Partial<LoopFacts>): KeptDraft['values'] => ({
  edits: JSON.stringify(draft.edits),
  added: JSON.stringify(draft.added),
  facts: JSON.stringify(facts),
});

/** As it was kept; what cannot be read of it is as if it had not been typed. */
export function keptBook(kept: KeptDraft | null): { draft: BookDraft; facts: Partial<LoopFacts> } {
  try {
    const { edits = '{}', added = '[]', facts = '{}' } = kept?.values ?? {};
    return {
      draft: {
        edits: JSON.parse(edits) as BookDraft['edits'],
        added: (JSON.parse(added) as AddedLine[]).map(({ row_id, before, cells }) => ({
          row_id,
          before,
          cells: { ...BLANK, ...cells },
        })),
      },
      facts: JSON.parse(facts) as Partial<LoopFacts>,
    };
  } catch {
    return { draft: NO_DRAFT, facts: {} };
  }
}

/** Whether a line is kept that is not recorded: a page lost between the two leaves what it had just recorded. */
export const hasLines = (kept: KeptDraft | null, rows: readonly { row_id: string }[]): boolean => {
  const recorded = new Set(rows.map(({ row_id }) => row_id));
  return keptBook(kept).draft.added.some((line) => !recorded.has(line.row_id) && !isBlank(line.cells));
};

/** Whether a loop, new or recorded, has lines or changes that are typed and not recorded. */
export const hasUnrecorded = (drafts: Pick<Drafts, 'read'>, rows: readonly TypedRow[]): boolean =>
  ['', ...loopsIn(rows)].some((loop) => {
    const kept = drafts.read(placeOfLoop(loop));
    return hasLines(kept, rows) || (loop !== '' && Object.keys(keptBook(kept).draft.edits).length > 0);
  });
