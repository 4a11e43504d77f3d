/** Foot of a loop: bench marks that it still wants, and the button that records it with what that will write. */
import { columnName } from '@stillstand/campaign/tables';
import { useState } from 'react';
import { Button, counted } from '../../../parts/index.ts';
import { AddRow } from '../add-row.tsx';
import type { ToWrite } from './level-lines.ts';

export function BookFoot({
  isNew,
  label,
  isTaken,
  toRecord,
  unread,
  wanted,
  datum,
  onRecord,
}: {
  isNew: boolean;
  label: string;
  /** Another loop has this label. */
  isTaken: boolean;
  toRecord: ToWrite;
  /** Cells that cannot be read. */
  unread: number;
  /** Stations at the ends of the loop that are no bench marks yet. */
  wanted: readonly string[];
  datum: string;
  onRecord: () => void;
}) {
  const [marking, setMarking] = useState<string | null>(null);
  const isReady = toRecord.added.length + toRecord.amended.length > 0;
  const says = (): string => {
    if (label === '') return 'The loop needs a label.';
    if (isTaken) return `Loop ${label} exists: choose another label.`;
    if (unread > 0) {
      const they = unread === 1 ? 'It is' : 'They are';
      return `${counted(unread, 'cell')} cannot be read. ${they} recorded as typed; until corrected the loop gives no heights.`;
    }
    if (isReady) return `${recordedWords(toRecord)} to record. Kept on this device until then.`;
    return 'Each line is a reading: later changes are amendments, and the original stays.';
  };
  return (
    <div className="book-foot">
      {wanted.map((point) => (
        <Button key={point} mark="plus" onClick={() => setMarking(point)}>
          Add bench mark {point}
        </Button>
      ))}
      <Button
        kind="main"
        mark={isNew ? 'tick' : 'amended'}
        disabled={!isReady || label === '' || isTaken}
        onClick={onRecord}
      >
        {isNew ? 'Record level loop' : 'Record changes'}
      </Button>
      <span className="quiet" role="status">
        {says()}
      </span>
      {marking === null ? null : (
        <AddRow
          table="benchmarks"
          title="Add bench mark"
          prefill={{ benchmark: marking, datum: datum === 'as stated' ? '' : datum }}
          first={['benchmark', 'elevation_m', 'sigma_m', 'datum']}
          more={`From a satellite: ${columnName('benchmarks', 'ellipsoidal_height_m')}, and more`}
          onClose={() => setMarking(null)}
        />
      )}
    </div>
  );
}

export const recordedWords = ({ added, amended }: ToWrite): string =>
  [
    added.length === 0 ? '' : counted(added.length, 'line'),
    amended.length === 0 ? '' : counted(amended.length, 'amendment'),
  ]
    .filter(Boolean)
    .join(' and ');
