/** What is wrong, the gravest first; each opens its place. */
import type { Problem } from '@stillstand/campaign/problems';
import { Mark, type MarkName, Sheet } from '../../parts/index.ts';
import { type RowPlace, rowPlace } from './row-dialog.tsx';
import './problems-sheet.css';

const SHOWN: Readonly<Record<Problem['severity'], { mark: MarkName; word: string }>> = {
  danger: { mark: 'stop', word: 'danger' },
  error: { mark: 'stop', word: 'error' },
  warning: { mark: 'close', word: 'warning' },
  note: { mark: 'note', word: 'note' },
};

export function ProblemsSheet({
  problems,
  onOpen,
  onClose,
}: {
  problems: readonly Problem[];
  onOpen: (place: RowPlace) => void;
  onClose: () => void;
}) {
  return (
    <Sheet title={problems.length === 0 ? 'No problems' : `Problems: ${problems.length}`} onClose={onClose}>
      {problems.length === 0 ? <p>Everything could be read, and everything read could be used.</p> : null}
      <ProblemList problems={problems} onOpen={onOpen} />
    </Sheet>
  );
}

export function ProblemList({
  problems,
  onOpen,
}: {
  problems: readonly Problem[];
  onOpen?: (place: RowPlace) => void;
}) {
  return (
    <ol className="problems">
      {problems.map((problem, i) => {
        const place = rowPlace(problem.table, problem.row_id);
        const said = <Said problem={problem} />;
        return (
          // biome-ignore lint/suspicious/noArrayIndexKey: the list is drawn whole
          <li key={i} className={problem.severity}>
            {place === null || onOpen === undefined ? (
              <div>{said}</div>
            ) : (
              <button type="button" onClick={() => onOpen(place)}>
                {said}
              </button>
            )}
          </li>
        );
      })}
    </ol>
  );
}

function Said({ problem }: { problem: Problem }) {
  const { mark, word } = SHOWN[problem.severity];
  const where = [problem.table.replaceAll('_', ' '), problem.label, problem.column?.replaceAll('_', ' ')];
  const line = problem.line === null ? '' : `, line ${problem.line}`;
  return (
    <>
      <Mark name={mark} size={20} label={word} />
      <span className="said">
        <b>
          {where.filter(Boolean).join(', ')}
          {line}
        </b>
        <span>
          Found {problem.found === '' ? 'nothing' : <q>{problem.found}</q>}; expected {problem.expected}.
        </span>
        <span className="quiet">{problem.fix}</span>
      </span>
    </>
  );
}
