/**
 * What is open below the numbers: an entry, an amendment, a list. What a press opens, what is typed in it and what
 * recording it does are one state; the run in hand keeps its own field open beside it.
 */

import type { HoleRead } from '@stillstand/campaign/holes';
import { useEffect, useRef, useState } from 'react';
import { t } from '../../language/index.ts';
import { completeLength, useUnsaved } from '../../parts/index.ts';
import type { DraftPlace, Drafts } from '../../store/index.ts';
import { amendForm, amendment } from './book/amend.ts';
import type { BookLine } from './book/book.ts';
import { lift, record } from './book/record.ts';
import type { Moves } from './book/which-first.tsx';
import { type Draft, draftOf, draftOfReading, missing } from './forms/draft.ts';
import { type EntryForm, FORM_NAMES, type FormName } from './forms/field.ts';
import { formFor } from './forms/forms.ts';
import { showOpened } from './forms/in-sight.ts';
import { type Entered, keeping } from './forms/keeping.ts';
import { typedIn } from './forms/kept.ts';
import { HAPPENINGS, type Happening, happened } from './forms/something-else.ts';
import type { ActionName } from './next/action.ts';
import { FORM_OF } from './next/action-words.ts';
import type { Shown } from './shown.ts';
import type { DrillStore } from './tape/decimal-points.ts';

/** Pieces are laid out one after the other until all that came up lies on its trays. */
const LAY_NEXT = { kind: 'lay next' } as const;

export interface Amending extends Entered {
  kind: 'amend';
  line: BookLine;
  isUnchanged?: boolean;
}

type Below =
  | typeof LAY_NEXT
  | ({ kind: 'form' } & Entered)
  | Amending
  | { kind: 'decide'; line: BookLine }
  | { kind: 'check' }
  | { kind: 'else' }
  | { kind: 'book' }
  | null;

export type Opened = ReturnType<typeof useOpened>;

/** Where what happens on the screen leads out of it. */
export interface Leads {
  /** Now, ISO 8601 with offset. */
  time: () => string;
  onCrew: (by: string) => void;
  onHole: (hole: string) => void;
  onPlan: () => void;
  /** The reading to open in its place. */
  row?: string | undefined;
  /** Half-filled forms of this campaign; today, `2024-06-11`. */
  drafts: Drafts;
  day: string;
}

/** Forms that complete a run are kept with it. */
const OF_RUN: ReadonlySet<string> = new Set<FormName>(['cable', 'lay_out', 'pieces']);

export function useOpened(store: DrillStore, now: HoleRead, { lines, so }: Shown, leads: Leads) {
  const hole = now.row.hole;
  const kept = keeping(leads.drafts, leads);
  const [below, setBelow] = useState<Below>(() => shownBefore(leads.drafts.shown(hole)));
  const [cableTyping, setCable] = useState<{ run: string; draft: Draft } | null>(null);
  const [said, say] = useState('');

  // the form on the screen comes back with the page, and with the hole
  const shownAs = JSON.stringify(below?.kind === 'form' || below?.kind === 'amend' ? below.place : null);
  useEffect(() => {
    leads.drafts.show(hole, JSON.parse(shownAs) as DraftPlace | null);
  }, [leads.drafts, hole, shownAs]);

  // a reading asked for from elsewhere opens in its place
  const asked = useRef<string | null>(null);
  useEffect(() => {
    if (leads.row === undefined || asked.current === leads.row) return;
    asked.current = leads.row;
    const line = lines.find((l) => l.versions.some((v) => v.row_id === leads.row));
    if (line !== undefined) choose(line);
  });

  // where the page is longer than the screen, what was opened begins under the number at risk
  const opened = `${below?.kind ?? ''} ${below?.kind === 'form' ? below.form.name : ''} ${now.run?.run ?? ''}`;
  useEffect(() => {
    if (opened.trim() !== '') showOpened();
  }, [opened]);

  // once the last piece is among the rows, the form of the next one knows where it begins
  useEffect(() => {
    if (below?.kind !== 'lay next') return;
    const left = so === null ? 0 : so.recovered_m - Math.max(0, ...so.laid.map((p) => p.bottom_m));
    if (left > 0.005) openForm('pieces');
    else leave();
  });

  // the run in hand keeps the cable's field open, whatever else happens
  const cable = now.run === null ? null : cableOf(now.run.run);
  function cableOf(run: string): Entered & { onDraft: (draft: Draft) => void } {
    const begun = begin(formFor('cable', now, store), 'cable');
    const typed = cableTyping?.run === run ? { draft: cableTyping.draft, note: '' } : {};
    return {
      ...begun,
      ...typed,
      onDraft: (draft) => setCable({ run, draft: kept.typing(begun, draft).draft }),
    };
  }

  /** A form with what was kept of it; `as`: its name, or of what happened. */
  function begin(form: EntryForm, as: string): Entered {
    const run = now.run ?? now.readings.findLast((r) => r.kind === 'run');
    const ofRun = OF_RUN.has(form.name) && run !== undefined;
    const place = { form: as, hole, amends: ofRun ? run.run : '' };
    const count = !ofRun ? lines.filter((l) => l.table === form.table).length : 0;
    return kept.begin(form, draftOf(form, now.units), place, count);
  }
  function beginAmending(line: BookLine): Amending {
    const form = amendForm(line, now, store);
    const place = { form: `amend ${line.table}`, hole, amends: line.root_id };
    const entered = kept.begin(form, draftOfReading(form, now.units), place, line.versions.length);
    return { kind: 'amend', line, ...entered };
  }
  /** The form that was on the screen of this hole when the page was left; null where nothing of it was kept. */
  function shownBefore(place: DraftPlace | null): Below {
    if (place === null || leads.drafts.read(place) === null) return null;
    const line = lines.find((l) => `amend ${l.table}` === place.form && l.root_id === place.amends);
    if (line !== undefined) return beginAmending(line);
    const happening = HAPPENINGS.find((h) => h.name === place.form);
    const name = happening?.form ?? FORM_NAMES.find((each) => each === place.form);
    if (name === undefined) return null;
    const form = formFor(name, now, store);
    return { kind: 'form', ...begin(happening === undefined ? form : happened(form, happening), place.form) };
  }

  const open = (form: EntryForm, as: string): void => {
    const entered = begin(form, as);
    // no keyboard over whom to call
    const draft = form.name === 'injury' ? { ...entered.draft, at: null } : entered.draft;
    setBelow({ kind: 'form', ...entered, draft });
  };
  const openForm = (name: FormName): void => open(formFor(name, now, store), name);
  const openCheck = (): void => setBelow({ kind: 'check' });
  /** Opens a list, or closes it when it is open. */
  const turn = (kind: 'book' | 'else'): void => setBelow(below?.kind === kind ? null : { kind });
  const press = (name: ActionName): void => {
    if (name === 'check') openCheck();
    else if (name === 'lift') {
      lift(store, now);
      if (cable !== null) kept.forget(cable);
      setCable(null);
    } else if (name === 'tighten') {
      // nothing to type: the press is the reading
      const form = formFor('tighten', now, store);
      if (record(store, now, form, {}, leads.time()) !== null) say(t`${form.title}: recorded.`);
    } else if (name === 'next_hole') leads.onPlan();
    else {
      const form = FORM_OF[name];
      if (form !== undefined) openForm(form);
    }
  };
  /** Opens a line to be amended, on the value that was pressed; one whose amendments differ to be decided. */
  function choose(line: BookLine, column?: string): void {
    if (line.state === 'conflict') {
      setBelow({ kind: 'decide', line });
      return;
    }
    const amending = beginAmending(line);
    const { form, draft } = amending;
    const pressed = form.fields.find((f) => f.column === column) ?? form.fields[0];
    setBelow({ ...amending, draft: { ...draft, at: pressed?.column ?? null, isWhole: true } });
  }
  const happen = (happening: Happening): void =>
    open(happened(formFor(happening.form, now, store), happening), happening.name);
  /** The crew that takes over has read what was handed over: they record from here. */
  const confirm = (line: BookLine): void => {
    if (store.amend(line.table, line.row_id, { confirmed: 'yes' }) === null) return;
    const by = line.versions.at(-1)!.cells['with_whom'] ?? '';
    leads.onCrew(by);
    say(t`Hand-over confirmed. Recorder from here: ${by}.`);
  };
  /** Brings readings of one place into their order: all of it or none. */
  const order = (moves: Moves): void => {
    const isDone = store.together(() => {
      for (const { table, row_id, seq } of moves) store.move(table, row_id, seq);
    });
    if (!isDone) return;
    say(t`Order recorded.`);
    if (below?.kind === 'amend') leave();
  };
  const leave = (): void => {
    // the list is longer than the screen: what stands at the top of the page comes back into sight
    if (below?.kind === 'check') globalThis.scrollTo({ top: 0 });
    setBelow(null);
  };
  const type = (draft: Draft): void => {
    if (below?.kind === 'form') setBelow({ ...below, ...kept.typing(below, draft) });
    else if (below?.kind === 'amend')
      setBelow({ ...below, ...kept.typing(below, draft), isUnchanged: false });
  };
  const clear = (): void => {
    if (below?.kind === 'form' || below?.kind === 'amend') setBelow({ ...below, ...kept.clear(below) });
  };

  const complete = (form: EntryForm, draft: Draft): Record<string, string> =>
    Object.fromEntries(
      form.fields.map((f) => {
        const text = draft.values[f.column] ?? '';
        return [
          f.column,
          f.kind === 'length'
            ? completeLength({ text, unit: draft.units[f.column] ?? now.units.tape })
            : text,
        ];
      }),
    );

  function save(): void {
    if (below?.kind === 'form') {
      const { form, draft } = below;
      const values = complete(form, draft);
      if (form.name === 'crew') {
        leads.onCrew(values['by'] ?? '');
        say(t`Recorder from here: ${values['by'] ?? ''}.`);
      } else {
        const rows = record(store, now, form, values, leads.time());
        // Refused: what was typed stays, and the store says why.
        if (rows === null) return;
        say(t`${form.title}: recorded.`);
        if (form.name === 'hand_over' && values['confirmed'] === 'yes')
          leads.onCrew(values['with_whom'] ?? '');
        if (form.name === 'second_hole') leads.onHole(values['hole'] ?? hole);
        if (form.name === 'rating') {
          openForm('gear');
          return;
        }
        const goesOn = form.name === 'pieces' ? rows.length > 0 : values['laid_out'] === 'piece by piece';
        if (goesOn) {
          kept.forget(below);
          setBelow(LAY_NEXT);
          return;
        }
      }
      kept.forget(below);
      leave();
    } else if (below?.kind === 'amend') {
      const cells = amendment(below.line, complete(below.form, below.draft));
      if (cells === null) {
        setBelow({ ...below, isUnchanged: true });
        return;
      }
      if (store.amend(below.line.table, below.line.row_id, cells) === null) return;
      kept.forget(below);
      say(t`${below.line.name}: amended.`);
      leave();
    } else if (cable !== null) {
      if (record(store, now, cable.form, complete(cable.form, cable.draft), leads.time()) === null) return;
      kept.forget(cable);
      setCable(null);
    }
  }

  /** The entry whose keys are on the screen, and what it still lacks, in words. */
  const entry = below?.kind === 'form' || below?.kind === 'amend' ? below : null;
  const lacks = entry === null ? '' : missing(entry.form, entry.draft);
  const cableTyped = below === null && cable !== null && (cable.draft.values['end_mark'] ?? '').trim() !== '';
  // what is kept on the device is nowhere to be lost
  const isTyped = cableTyped || (entry !== null && typedIn(entry.form, entry.draft) !== null);
  useUnsaved(isTyped && !leads.drafts.onDevice);

  return {
    below,
    /** The entry being typed; null where none is. */
    entry,
    /** What it still lacks; empty when it can be recorded. */
    lacks,
    /** The field of the run in hand; null without one. */
    cable,
    /** A reading of the cable is typed, and nothing else is open. */
    cableTyped,
    /** What was last recorded, for those who hear the screen. */
    said,
    say,
    openForm,
    openCheck,
    turn,
    press,
    choose,
    happen,
    confirm,
    order,
    leave,
    type,
    clear,
    save,
  };
}
