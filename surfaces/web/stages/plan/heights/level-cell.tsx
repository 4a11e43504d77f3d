/** One cell of the level book. */
import { columnHelp, GridCell } from '../../../parts/index.ts';
import type { Entry, LineCells } from './level-lines.ts';
import { pastedLines } from './level-paste.ts';
import type { CellSays } from './level-preview.ts';

/** Heads of the columns, as in the paper book. */
export const NAMES: Readonly<Record<Entry, string>> = {
  point: 'station',
  backsight_m: 'backsight',
  intermediate_m: 'intersight',
  foresight_m: 'foresight',
  distance_m: 'distance',
  note: 'note',
};

export function LevelCell({
  entry,
  name,
  value,
  says,
  saysId,
  list,
  readOnly,
  onType,
  onPaste,
  onHand,
}: {
  entry: Entry;
  name: string;
  value: string;
  says: CellSays | null;
  saysId: string;
  list: string;
  readOnly: boolean;
  onType: (text: string) => void;
  onPaste: (block: readonly Partial<LineCells>[]) => void;
  onHand: () => void;
}) {
  return (
    <GridCell
      name={name}
      help={String(columnHelp('levelling', entry).about)}
      head={NAMES[entry]}
      value={value}
      isNumber={entry.endsWith('_m')}
      className={CLASSES[entry]}
      list={entry === 'point' ? list : undefined}
      saysId={says === null ? undefined : saysId}
      isWrong={says?.severity === 'error'}
      readOnly={readOnly}
      onType={onType}
      onPaste={(text) => {
        const block = pastedLines(text, entry);
        if (block !== null) onPaste(block);
        return block !== null;
      }}
      onHand={onHand}
    />
  );
}

const CLASSES: Readonly<Partial<Record<Entry, string>>> = {
  backsight_m: 'number',
  intermediate_m: 'number',
  foresight_m: 'number',
  distance_m: 'number seldom',
  note: 'seldom',
};
