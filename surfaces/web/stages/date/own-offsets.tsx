/** ΔR from the campaign's own shells, taken over into a determination with its error and its water in one act. */
import { printed } from '@stillstand/output/words';
import { Button, counted } from '../../parts/index.ts';
import type { Cells } from './age.ts';

export interface OfferedOffset {
  group: string;
  /** Shells it is from. */
  n: number;
  delta_r: number;
  delta_r_error: number;
}

export function OwnOffsets({
  cells,
  offsets,
  isReadOnly,
  onCommit,
}: {
  cells: Cells;
  offsets: readonly OfferedOffset[];
  isReadOnly: boolean;
  onCommit: (cells: Record<string, string>) => boolean;
}) {
  const cell = (column: string): string => cells[column]?.trim() ?? '';
  // A shell that gives ΔR takes none; nor does a date that has it already.
  const isShell = cell('known_age_ce') !== '' || cell('paired_with') !== '';
  const open = offsets
    .map((offset) => ({ ...offset, taken: takenOver(offset) }))
    .filter(({ taken }) => Object.entries(taken).some(([column, value]) => cell(column) !== value));
  if (isShell) return null;
  return open.map(({ group, n, delta_r, delta_r_error, taken }) => (
    <p key={group} className="ask-f14c" role="status">
      {group}, {counted(n, 'shell', 'shells')}: {printed(delta_r, 0)} ± {printed(delta_r_error, 0)}{' '}
      <Button disabled={isReadOnly} onClick={() => onCommit(taken)}>
        Take over ΔR of {group}
      </Button>
    </p>
  ));
}

const takenOver = ({ group, delta_r, delta_r_error }: OfferedOffset): Record<string, string> => ({
  delta_r: String(delta_r),
  delta_r_error: String(delta_r_error),
  delta_r_group: group,
});
