/** Samples taken from the core of one hole, with their places in it. */

import { type Core, coreOfCells } from '@stillstand/campaign/chain';
import type { LengthOptions, LengthUnit } from '@stillstand/campaign/tables';
import type { DocRow } from '../../store/index.ts';
import type { Edit } from './edits.ts';
import { readLength, writtenLength } from './length.ts';

export interface PlacedSample {
  row: DocRow;
  label: string;
  core: Core;
  top_m: number;
  bottom_m: number;
  unit: LengthUnit;
  /** Its middle as it would be typed. */
  where: string;
  dated: boolean;
}

export function placedSamples(
  rows: readonly DocRow[],
  hole: string,
  cores: readonly Core[],
  options: LengthOptions,
  dated: ReadonlySet<string>,
): PlacedSample[] {
  return rows
    .flatMap((row): PlacedSample[] => {
      if (row.cells['hole']?.trim() !== hole) return [];
      const core = coreOfCells(cores, row.cells);
      const top = readLength(row.cells['top'], options) ?? readLength(row.cells['bottom'], options);
      if (core === null || top === null) return [];
      const bottom_m = Math.max(top.m, readLength(row.cells['bottom'], options)?.m ?? top.m);
      const label = row.cells['sample']?.trim() ?? '';
      const where = writtenLength((top.m + bottom_m) / 2, top.unit);
      return [{ row, label, core, top_m: top.m, bottom_m, unit: top.unit, where, dated: dated.has(label) }];
    })
    .sort((a, b) => a.core.depthAt(a.top_m) - b.core.depthAt(b.top_m));
}

/** The sample elsewhere in its core, as thick as it was. */
export function moveSample(sample: PlacedSample, middle_m: number): Edit[] {
  const half = (sample.bottom_m - sample.top_m) / 2;
  const middle = Math.min(sample.core.length_m - half, Math.max(half, middle_m));
  return [
    {
      change: 'edit',
      table: 'samples',
      row_id: sample.row.row_id,
      cells: {
        top: writtenLength(middle - half, sample.unit),
        bottom: writtenLength(middle + half, sample.unit),
      },
    },
  ];
}
