/** A levelling loop as it will be reduced once it is written: by the computation itself, so that no digit differs. */
import type { Campaign } from '@stillstand/campaign/document';
import { readSettings } from '@stillstand/campaign/settings';
import type { Row } from '@stillstand/campaign/tables';
import type { LevelLoop } from '@stillstand/science/survey';
import { stepRunner } from '../runner/runner.ts';
import { bringHeightsTogether } from './heights.ts';

export interface LoopBefore {
  /** Null without a sight. */
  loop: LevelLoop | null;
  /** Label of the datum its heights are on. */
  datum: string;
}

/**
 * `sights`: the rows of one loop, all that count. `allowed_mm_sqrt_km`: its limit, mm·√km; null for the usual. Other
 * loops, and lines that cannot be used, are left out.
 */
export function loopBefore(
  campaign: Campaign,
  sights: readonly Row<'levelling'>[],
  allowed_mm_sqrt_km: number | null,
): LoopBefore {
  const loop = sights[0]?.loop ?? '';
  const about = {
    row_id: '',
    note: null,
    loop,
    date: null,
    collimation_mm: null,
    collimation_over_m: null,
    allowed_mm_sqrt_km,
  };
  const { settings } = readSettings(campaign.rows.settings);
  const { loops, datum } = bringHeightsTogether(
    stepRunner({ computation: '', memo: null }),
    {
      ...campaign,
      rows: { ...campaign.rows, levelling: sights, level_loops: [about] },
      skipped_rows: campaign.skipped_rows.filter(({ table }) => table !== 'levelling'),
    },
    settings.datum,
  );
  return { loop: loops.get(loop) ?? null, datum: datum.label };
}
