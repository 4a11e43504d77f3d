/** A form that is open: kept on the device while it is typed in, filled from there when it is opened again. */
import type { DraftPlace, Drafts } from '../../../store/index.ts';
import type { Draft } from './draft.ts';
import type { EntryForm } from './field.ts';
import { keptWords, typedIn, withKept } from './kept.ts';

export interface Entered {
  form: EntryForm;
  draft: Draft;
  /** Where what is typed in it is kept. */
  place: DraftPlace;
  /** As it is without a hand. */
  empty: Draft;
  /** Readings of its kind that there are. */
  count: number;
  /** Since when it was kept, where it was filled from that; else empty. */
  note: string;
  /** What was typed before it was cleared, until something else is. */
  cleared: Draft | null;
}

/** `time` is now, ISO 8601 with offset, `day` of today (2024-06-11). */
export function keeping(drafts: Drafts, { time, day }: { time: () => string; day: string }) {
  const keep = ({ form, place, count }: Entered, draft: Draft): void => {
    const typed = typedIn(form, draft);
    const seen = drafts.read(place)?.seen ?? count;
    if (typed === null) drafts.forget(place);
    else drafts.keep(place, { ...typed, time: time(), seen });
  };
  const typing = (entered: Entered, draft: Draft): Entered => {
    keep(entered, draft);
    return { ...entered, draft, cleared: null };
  };
  return {
    /** The form with what was kept of it. */
    begin(form: EntryForm, empty: Draft, place: DraftPlace, count: number): Entered {
      const kept = drafts.read(place);
      const entered = { form, place, empty, count, cleared: null };
      return kept === null
        ? { ...entered, draft: empty, note: '' }
        : { ...entered, draft: withKept(form, empty, kept), note: keptWords(kept, day, count) };
    },
    typing,
    /** Cleared, or as it was before: what was typed is lost by no press. */
    clear(entered: Entered): Entered {
      if (entered.cleared !== null) return typing(entered, entered.cleared);
      drafts.forget(entered.place);
      return { ...entered, draft: entered.empty, note: '', cleared: entered.draft };
    },
    /** Recorded: nothing is to be kept any more. */
    forget: ({ place }: Entered): void => drafts.forget(place),
  };
}
