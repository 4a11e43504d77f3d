/** The chosen contact of a section and what is done to it: each movement or choice is one step of undo. */
import type { Results, SectionResult } from '@stillstand/campaign/results';
import { useCallback, useEffect, useMemo, useState } from 'react';
import { signed } from '../../../parts/index.ts';
import { useStore } from '../../../store/index.ts';
import { carryOut, type Edit } from '../edits.ts';
import { useMovement } from '../moving.ts';
import type { Draft } from '../section-drawing.tsx';
import { breakTie, liftOf, NEAREST, type Said, sayOf, unsay } from './contact-edits.ts';
import {
  contactsToEdit,
  type EditableContact,
  ENDINGS,
  type Ending,
  fractionOf,
  nameOf,
} from './contacts.ts';
import type { Grip } from './handles.tsx';

export function useContacts(results: Results, section: SectionResult | null, say: (words: string) => void) {
  const store = useStore();
  const movement = useMovement();
  const [id, setId] = useState('');
  const [moved, setMoved] = useState<(Draft & { id: string }) | null>(null);
  const contacts = useMemo(() => contactsToEdit(section), [section]);
  const chosen = contacts.find((each) => each.id === id) ?? null;
  const rows = { lines: store.rows('section_lines'), boundaries: store.rows('section_boundaries') };
  // What was moved is drawn as computed from now on; not while it is still moved, when a curve may come to its end.
  const isMoving = movement.edits.length > 0;
  // biome-ignore lint/correctness/useExhaustiveDependencies: that results are new is what counts
  useEffect(() => {
    if (!isMoving) setMoved(null);
  }, [results]);
  const resting: Draft = chosen === null ? { lift_m: 0, drawn_lift_m: 0, end: null } : restOf(chosen, rows);
  const draft: Draft = moved !== null && moved.id === id ? moved : resting;

  const { settle } = movement;
  const choose = useCallback(
    (next: string): void => {
      settle();
      setMoved(null);
      setId(next);
    },
    [settle],
  );
  const doIt = (edits: readonly Edit[], words: string): void => {
    movement.settle();
    if (edits.length > 0 && carryOut(store, edits) !== null) say(`${words} Undo takes it back.`);
  };
  const said = (each: EditableContact, what: Said): Edit[] =>
    section === null ? [] : sayOf(each, section, rows, what);
  return {
    contacts,
    chosen,
    draft,
    choose,
    grip: (grip: Grip, how: 'held' | 'let go' | 'key'): void => {
      if (chosen === null || store.readOnly) return;
      const next: Draft =
        grip.kind === 'lift'
          ? { ...draft, lift_m: Math.round(grip.by_m * 100) / 100 }
          : { ...draft, end: Math.min(1 - NEAREST, Math.max(NEAREST, grip.at_fraction)) };
      setMoved({ ...next, id: chosen.id });
      const what: Said =
        grip.kind === 'lift' ? { lift_m: next.lift_m } : { at_fraction: next.end ?? grip.at_fraction };
      movement.move(said(chosen, what), how);
      if (how !== 'held')
        say(
          grip.kind === 'lift'
            ? `${nameOf(chosen)}: middle lifted by ${signed(next.lift_m, 2)} m. Undo takes it back.`
            : `${nameOf(chosen)}: ends at ${Math.round((next.end ?? 0) * 100)} % of the way. Undo takes it back.`,
        );
    },
    setEnding: (ending: Ending): void => {
      if (chosen !== null) doIt(said(chosen, { ending }), `${nameOf(chosen)}: ${ENDINGS[ending]}.`);
    },
    setConfidence: (confidence: string): void => {
      if (chosen?.contact.tie == null) return;
      doIt(
        [{ change: 'edit', table: 'correlations', row_id: chosen.contact.tie, cells: { confidence } }],
        `${nameOf(chosen)}: ${confidence}.`,
      );
    },
    breakCorrelation: (): void => {
      if (chosen === null) return;
      doIt(breakTie(chosen), `Correlation refused: ${nameOf(chosen)}.`);
    },
    clear: (): void => {
      if (chosen !== null) doIt(unsay(chosen), `${nameOf(chosen)}: drawn without an interpretation.`);
    },
  };
}

function restOf(each: EditableContact, rows: Parameters<typeof liftOf>[1]): Draft {
  const lift_m = liftOf(each, rows);
  const { tie, hole_b, is_lateral } = each.contact;
  return {
    lift_m,
    drawn_lift_m: lift_m,
    end: tie === null && (hole_b === null || is_lateral) ? fractionOf(each) : null,
  };
}
