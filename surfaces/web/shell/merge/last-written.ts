/** Who wrote last in a copy, with what and when: what a person knows it by. */
import { type CampaignDocument, typedCells } from '@stillstand/campaign/document';
import { momentOf } from '@stillstand/campaign/tables';

export interface Written {
  /** ISO 8601 by the clock of the device that wrote. */
  time: string;
  by: string;
  device: string;
}

/** The newest row of a copy that states when it was written; null where none does. */
export function lastWritten(document: CampaignDocument): Written | null {
  let last: Written | null = null;
  let newest = Number.NEGATIVE_INFINITY;
  for (const rows of typedCells(document).values()) {
    for (const cells of rows.values()) {
      const time = cells['time']?.trim() ?? '';
      const at = momentOf(time);
      if (at === null || at <= newest) continue;
      newest = at;
      last = { time, by: cells['by']?.trim() ?? '', device: cells['device']?.trim() ?? '' };
    }
  }
  return last;
}
