/** What becomes of every line that gives no row: what is wrong with it, corrected in its cell, or why it is set aside. */
import { type Mapping, type Proposal, placeOf, type TheirSheet } from '@stillstand/campaign/import';
import type { Problem } from '@stillstand/campaign/problems';
import { Mark } from '../parts/index.ts';

/** So many lines are shown at once: the others follow as these are corrected. */
const SHOWN = 40;

export function LinesLeftOut({
  sheet,
  mapping,
  proposal,
  onCorrect,
}: {
  sheet: TheirSheet;
  mapping: Mapping;
  proposal: Proposal;
  /** `column`: of theirs, A is 0. */
  onCorrect: (line: number, column: number, text: string) => void;
}) {
  const { lines, problems } = proposal;
  const wrong = lines.filter(({ outcome }) => outcome === 'problem');
  const aside = lines.filter(({ outcome }) => outcome === 'set_aside');
  const used = lines.filter(({ outcome }) => outcome === 'used').length;
  return (
    <section className="import-lines" aria-label="Every line">
      <p role="status">
        <b>{lines.length} lines:</b> {used} used, {aside.length} set aside, {wrong.length} with something
        wrong.
      </p>
      {wrong.length === 0 ? null : (
        <ol className="import-wrong">
          {wrong.slice(0, SHOWN).map(({ line, why }) => (
            <li key={line} data-line={line}>
              <b>
                <Mark name="close" size={16} label="something wrong" /> line {line}
              </b>
              <Faults
                faults={problems.filter((p) => p.line === line)}
                why={why}
                cells={sheet.lines.find((each) => each.line === line)?.cells ?? []}
                mapping={mapping}
                onCorrect={(column, text) => onCorrect(line, column, text)}
              />
            </li>
          ))}
          {wrong.length > SHOWN ? <li>and {wrong.length - SHOWN} more</li> : null}
        </ol>
      )}
      {aside.length === 0 ? null : (
        <details>
          <summary>{aside.length} set aside</summary>
          <ol className="import-aside">
            {aside.map(({ line, why }) => (
              <li key={line}>
                line {line}: {why}
              </li>
            ))}
          </ol>
        </details>
      )}
    </section>
  );
}

function Faults({
  faults,
  why,
  cells,
  mapping,
  onCorrect,
}: {
  faults: readonly Problem[];
  why: string;
  cells: readonly string[];
  mapping: Mapping;
  onCorrect: (column: number, text: string) => void;
}) {
  if (faults.length === 0) return <p>{why}</p>;
  return faults.map((fault) => {
    const theirs = mapping.columns.find(({ heading, to }) => heading === fault.column || to === fault.column);
    const at = theirs === undefined ? null : placeOf(theirs.column);
    return (
      <p key={`${fault.column} ${fault.code}`}>
        {theirs?.heading ?? fault.column?.replaceAll('_', ' ')}: found{' '}
        {fault.found === '' ? 'nothing' : `“${fault.found}”`}; expected {fault.expected}. {fault.fix}
        {theirs === undefined || at === null ? null : (
          <input
            aria-label={`${theirs.heading}, line ${fault.line}`}
            aria-invalid="true"
            title="Corrected here only; the file stays as it is"
            defaultValue={cells[at] ?? ''}
            onBlur={(event) => {
              if (event.target.value !== (cells[at] ?? '')) onCorrect(at, event.target.value.trim());
            }}
            onKeyDown={(event) => {
              if (event.key === 'Enter') event.currentTarget.blur();
            }}
          />
        )}
      </p>
    );
  });
}
