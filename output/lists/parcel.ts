/** A parcel of samples to one laboratory: as it is put together, and as the entries `sent` have it. */
import { dayOf } from '@stillstand/campaign/chain';
import type { Campaign } from '@stillstand/campaign/document';

export interface ParcelSample {
  sample: string;
  /** Asked for: "radiocarbon". */
  request: string;
  /** What goes, and how much: "12 mg", "the whole". */
  amount: string;
  note: string;
}

export interface Parcel {
  label: string;
  laboratory: string;
  sender: string;
  /** ISO 8601. */
  date: string;
  samples: readonly ParcelSample[];
}

/** The parcel of this label, by the entries in force; null where none was sent under it. */
export function parcelSent({ rows }: Pick<Campaign, 'rows'>, label: string): Parcel | null {
  const entries = rows.custody.filter(
    ({ action, submission, sample }) => action === 'sent' && submission === label && sample !== null,
  );
  const [first] = entries;
  if (first === undefined) return null;
  return {
    label,
    laboratory: first.laboratory ?? '',
    sender: first.by ?? '',
    date: dayOf(first) ?? '',
    samples: entries.map(({ sample, request, amount, note }) => ({
      sample: sample!,
      request: request ?? '',
      amount: amount ?? '',
      note: note ?? '',
    })),
  };
}

/** Cells of `custody` that say the parcel was sent, one row a sample. */
export const entriesOfParcel = ({ label, laboratory, date, samples }: Parcel): Record<string, string>[] =>
  samples.map(({ sample, request, amount, note }) => ({
    sample,
    action: 'sent',
    date,
    laboratory,
    submission: label,
    request,
    amount,
    note,
  }));

/** Labels of parcels, the latest entry first. */
export const parcelLabels = ({ rows }: Pick<Campaign, 'rows'>): string[] => [
  ...new Set(
    rows.custody
      .flatMap(({ action, submission }) => (action === 'sent' && submission !== null ? [submission] : []))
      .reverse(),
  ),
];
