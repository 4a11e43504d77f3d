/** What becomes of every line that gives no row: what is wrong with it, corrected in its cell, or why it is set aside. */
import {
  type Decision,
  type LineOutcome,
  type Mapping,
  type Proposal,
  placeOf,
  TABLE_OF,
  type TheirSheet,
} from '@stillstand/campaign/import';
import type { Problem } from '@stillstand/campaign/problems';
import { capital, columnName } from '@stillstand/campaign/tables';
import { useState } from 'react';
import { Mark } from '../parts/index.ts';

/** So many lines are shown at once: the others follow as these are corrected. */
const SHOWN = 40;
/** Lines set aside for one reason are said as one; more reasons are left to the file. */
const MOST_REASONS = 500;

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
  const { lines, problems, decisions } = proposal;
  // A line with a warning is used whole.
  const doubts = problems.filter(({ severity }) => severity === 'warning');
  const faultsAt = Map.groupBy(
    problems.filter(({ severity }) => severity !== 'warning'),
    ({ line }) => line,
  );
  const left = lines.filter(({ outcome }) => outcome === 'problem');
  // What is decided once for the table is not said once more in each of its lines.
  const waits = left.filter(({ line }) => {
    const faults = faultsAt.get(line) ?? [];
    return faults.length > 0 && faults.every((fault) => isDecided(fault, decisions));
  });
  const openOf = new Map(
    [...faultsAt].map(([line, faults]) => [line, faults.filter((fault) => !isDecided(fault, decisions))]),
  );
  const waiting = new Set(waits.map(({ line }) => line));
  // A line that is used may still have a value that is not.
  const wrong = lines.filter(
    ({ line, outcome }) =>
      outcome !== 'set_aside' &&
      !waiting.has(line) &&
      (outcome === 'problem' || (openOf.get(line) ?? []).length > 0),
  );
  const inPart = wrong.filter(({ outcome }) => outcome === 'used').length;
  const aside = lines.filter(({ outcome }) => outcome === 'set_aside');
  const used = lines.filter(({ outcome }) => outcome === 'used').length;
  return (
    <section className="import-lines" aria-label="Every line">
      <p role="status" tabIndex={-1}>
        <b>{lines.length} lines:</b> {used} used, {aside.length} set aside,{' '}
        {waits.length === 0 ? '' : `${waits.length} waiting for a decision above, `}
        {wrong.length} with something wrong
        {inPart === 0 ? '' : `, ${inPart} of them used without a value`}.
      </p>
      {wrong.length === 0 ? null : (
        <ol className="import-wrong">
          {wrong.slice(0, SHOWN).map(({ line, why }) => (
            <li key={line} data-line={line}>
              <b>
                <Mark name="close" size={16} label="something wrong" /> line {line}
              </b>
              <Faults
                faults={openOf.get(line) ?? []}
                why={why}
                cells={sheet.lines.find((each) => each.line === line)?.cells ?? []}
                mapping={mapping}
                onCorrect={(column, text) => onCorrect(line, column, text)}
              />
            </li>
          ))}
          {wrong.length > SHOWN ? (
            <li className="more">and {wrong.length - SHOWN} more, shown as these are corrected</li>
          ) : null}
        </ol>
      )}
      {doubts.length === 0 ? null : <Doubts doubts={doubts} />}
      {aside.length === 0 ? null : <SetAside aside={aside} />}
    </section>
  );
}

/** Used all the same, and worth a look. */
function Doubts({ doubts }: { doubts: readonly Problem[] }) {
  return (
    <ul className="import-wrong" aria-label="Warnings">
      {doubts.slice(0, SHOWN).map(({ line, column, code, found, expected, fix }) => (
        <li key={`${line} ${column} ${code}`}>
          <b>
            <Mark name="close" size={16} label="warning" /> line {line}
          </b>
          <p>
            Found “{found}”; expected {expected}. {fix}
          </p>
        </li>
      ))}
      {doubts.length > SHOWN ? <li className="more">and {doubts.length - SHOWN} more</li> : null}
    </ul>
  );
}

/** True where a line waits for a decision that is still open, or for a column to be chosen. */
const isDecided = (fault: Problem, decisions: readonly Decision[]): boolean =>
  decisions.some(
    ({ where, taken, words, heading }) =>
      taken === null &&
      (where === `fixed.${fault.column}` ||
        where === `column.${fault.column}` ||
        (where === `words.${fault.column}` && words.includes(fault.found)) ||
        (fault.code === 'no-unit' && heading === fault.column)),
  );

/** Opened when somebody wants to know: of a table imported once more it may be every line. */
function SetAside({ aside }: { aside: readonly LineOutcome[] }) {
  const [isOpen, setOpen] = useState(false);
  const reasons = isOpen ? [...Map.groupBy(aside, ({ why }) => why)] : [];
  return (
    <details onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{aside.length} set aside</summary>
      <ol className="import-aside">
        {reasons.slice(0, MOST_REASONS).map(([why, of]) => (
          <li key={why}>
            {of.length === 1 ? 'line' : 'lines'} {ranges(of.map(({ line }) => line))}: {why}
          </li>
        ))}
        {reasons.length > MOST_REASONS ? <li>and {reasons.length - MOST_REASONS} more</li> : null}
      </ol>
    </details>
  );
}

/** "2–5, 9": runs of lines, in order. */
function ranges(lines: readonly number[]): string {
  const runs: [number, number][] = [];
  for (const line of lines) {
    const last = runs.at(-1);
    if (last !== undefined && last[1] === line - 1) last[1] = line;
    else runs.push([line, line]);
  }
  return runs.map(([from, to]) => (from === to ? `${from}` : `${from}–${to}`)).join(', ');
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
        {theirs?.heading ?? capital(columnName(TABLE_OF[mapping.as], fault.column ?? ''))}: found{' '}
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
