/** What is wrong, the gravest first; each opens its place: its row, else the stage where it is worked on. */
import { problemWords, type TypedTables } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import { Mark, type MarkName, Sheet } from '../../parts/index.ts';
import { type ProblemPlace, placeOfProblem } from './places.ts';
import './problems-sheet.css';

const SHOWN: Readonly<Record<Problem['severity'], { mark: MarkName; word: string }>> = {
  danger: { mark: 'stop', word: 'danger' },
  error: { mark: 'stop', word: 'error' },
  warning: { mark: 'close', word: 'warning' },
  note: { mark: 'note', word: 'note' },
};

export function ProblemsSheet({
  problems,
  rowsOf,
  onOpen,
  onClose,
}: {
  problems: readonly Problem[];
  rowsOf: TypedTables;
  onOpen: (place: ProblemPlace) => void;
  onClose: () => void;
}) {
  return (
    <Sheet title={problems.length === 0 ? 'No problems' : `Problems: ${problems.length}`} onClose={onClose}>
      {problems.length === 0 ? <p>Everything could be read, and everything read could be used.</p> : null}
      <ProblemList problems={problems} rowsOf={rowsOf} onOpen={onOpen} />
    </Sheet>
  );
}

/** Of a file that was not taken in there are no rows, and nothing opens. */
export function ProblemList({
  problems,
  rowsOf = () => [],
  onOpen,
}: {
  problems: readonly Problem[];
  rowsOf?: TypedTables;
  onOpen?: (place: ProblemPlace) => void;
}) {
  return (
    <ol className="problems">
      {problems.map((problem, i) => {
        const place = onOpen === undefined ? null : placeOfProblem(problem, rowsOf);
        const said = <Said problem={problem} rowsOf={rowsOf} />;
        return (
          // biome-ignore lint/suspicious/noArrayIndexKey: the list is drawn whole
          <li key={i} className={problem.severity}>
            {place === null ? (
              <div>{said}</div>
            ) : (
              <button type="button" onClick={() => onOpen?.(place)}>
                {said}
              </button>
            )}
          </li>
        );
      })}
    </ol>
  );
}

function Said({ problem, rowsOf }: { problem: Problem; rowsOf: TypedTables }) {
  const { mark, word } = SHOWN[problem.severity];
  const { place, found, expected, fix } = problemWords(problem, rowsOf);
  return (
    <>
      <Mark name={mark} size={20} label={word} />
      <span className="said">
        <b>{place}</b>
        <span>
          Found {found === '' ? 'nothing' : <q>{found}</q>}; expected {expected}.
        </span>
        <span className="quiet">{fix}</span>
      </span>
    </>
  );
}
