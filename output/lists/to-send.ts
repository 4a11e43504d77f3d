/** Samples that could go to a laboratory: taken, at hand, and not on their way. */
import { type Custody, custodyOf, plannedSamples } from '@stillstand/campaign/chain';
import type { Campaign } from '@stillstand/campaign/document';
import type { Row } from '@stillstand/campaign/tables';

export interface ToSend {
  row: Row<'samples'>;
  custody: Custody;
  /** What the sampling plan has it for; empty where it says nothing. */
  purpose: string;
  /** A laboratory has reported on it before. */
  hasResult: boolean;
}

/** Neither sent, lent nor discarded; those without a result first, each in the order of the table. */
export function samplesToSend(campaign: Campaign, today: string): ToSend[] {
  const purposes = new Map(
    plannedSamples(campaign).map(({ row }) => [row.sample, row.purpose ?? ''] as const),
  );
  const custodies = new Map(custodyOf(campaign, today).map((custody) => [custody.row_id, custody]));
  const all = campaign.rows.samples.flatMap((row): ToSend[] => {
    const custody = custodies.get(row.row_id);
    if (custody === undefined || custody.waiting !== null) return [];
    if (custody.state === 'lent' || custody.state === 'discarded') return [];
    const purpose = purposes.get(row.sample) ?? '';
    return [{ row, custody, purpose, hasResult: custody.state === 'result' }];
  });
  return [...all.filter(({ hasResult }) => !hasResult), ...all.filter(({ hasResult }) => hasResult)];
}

/** A label no parcel has yet: "P1". */
export function nextParcelLabel(taken: readonly string[]): string {
  for (let n = 1; ; n++) if (!taken.includes(`P${n}`)) return `P${n}`;
}
