/** Who wrote last in a copy, with what and when: what a person knows it by. */
import { type CampaignDocument, typedCells } from '@stillstand/campaign/document';
import type { Act } from '@stillstand/campaign/replica';
import { momentOf } from '@stillstand/campaign/tables';

export interface Written {
  /** ISO 8601 by the clock of the device that wrote. */
  time: string;
  by: string;
  device: string;
}

/** The newest of its acts and of its readings, which may be older than any act; null where none states a time. */
export function lastWritten(document: CampaignDocument, acts: readonly Act[]): Written | null {
  const readings = [...typedCells(document).values()].flatMap((rows) =>
    [...rows.values()].map(
      ({ time = '', by = '', device = '' }): Written => ({
        time: time.trim(),
        by: by.trim(),
        device: device.trim(),
      }),
    ),
  );
  let last: Written | null = null;
  let newest = Number.NEGATIVE_INFINITY;
  for (const { time, by, device } of [...acts, ...readings]) {
    const at = momentOf(time);
    if (at === null || at <= newest) continue;
    newest = at;
    last = { time, by, device };
  }
  return last;
}
