/** What is done to the line in hand, and to all that is typed. */
import { Button } from '../../../parts/index.ts';
import { newRowId } from '../../../store/index.ts';
import { type BookLine, deleted, type Entry, inserted, NO_DRAFT } from './level-lines.ts';
import type { LoopDraft } from './use-loop-draft.ts';

export function LineActs({
  book,
  line,
  entry,
  isNew,
  hasTyped,
  onOpen,
}: {
  book: LoopDraft;
  /** The line in hand, and its cell. */
  line: BookLine | null;
  entry: Entry | null;
  isNew: boolean;
  hasTyped: boolean;
  onOpen: (row_id: string) => void;
}) {
  const { draft } = book;
  const reading =
    entry === 'backsight_m' || entry === 'intermediate_m' || entry === 'foresight_m' ? entry : null;
  return (
    <div className="line-acts">
      <Button disabled={line === null} onClick={() => book.change(inserted(draft, line!, newRowId()))}>
        Insert line above
      </Button>
      <Button
        disabled={line === null || reading === null}
        onClick={() => book.type(line!, { [reading!]: upsideDown(line!.cells[reading!]) })}
      >
        Staff upside down
      </Button>
      {line !== null && line.row_id !== null ? (
        <Button mark="reading" onClick={() => onOpen(line.row_id!)}>
          Open record
        </Button>
      ) : (
        <Button
          disabled={line === null || draft.added[line.at!] === undefined}
          onClick={() => book.change(deleted(draft, line!.at!), 'delete line')}
        >
          Delete line
        </Button>
      )}
      {book.undoes !== null ? (
        <Button onClick={book.undo}>Undo {book.undoes}</Button>
      ) : hasTyped ? (
        <Button onClick={() => book.change(NO_DRAFT, isNew ? 'clear' : 'discard')}>
          {isNew ? 'Clear lines' : 'Discard changes'}
        </Button>
      ) : null}
    </div>
  );
}

const upsideDown = (text: string): string =>
  /^\s*[-−–]/.test(text) ? text.replace(/^\s*[-−–]\s*/, '') : `-${text.trim()}`;
