/** Results of samples that no parcel has, in a campaign that keeps its parcels: perhaps of another sample. */
import { rowsInForce } from '@stillstand/campaign/document';
import type { Fault } from '@stillstand/campaign/tables';
import type { Here } from './here.ts';

/** What is said of a result of this sample; null where a parcel has it, or where no parcels are kept. */
export function neverSent(here: Here): (sample: string) => Fault | null {
  const entries = here.rows('custody').map((cells, i) => ({ row_id: cells['row_id'] || `row ${i}`, cells }));
  const sent = new Set(
    rowsInForce('custody', entries).flatMap(({ cells }) =>
      cells['action'] === 'sent' ? [cells['sample'] ?? ''] : [],
    ),
  );
  return (sample) =>
    sent.size === 0 || sent.has(sample)
      ? null
      : {
          code: 'never-sent',
          found: sample,
          expected: 'a sample that was sent to a laboratory',
          fix: 'Check the label with the laboratory; if it is right, enter when the sample was sent. The result is imported.',
        };
}
