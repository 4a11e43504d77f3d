/** One tide level: what is entered for it, what is computed, and below it what is wrong. */
import type { Problem } from '@stillstand/campaign/problems';
import type { SiteTideResult } from '@stillstand/campaign/results';
import { useId, useState } from 'react';
import { columnHelp, GridCell, Mark, printed, signed, useUnsaved } from '../../../../parts/index.ts';
import { ENTRIES, type LevelCells, type LevelEntry } from './level-rows.ts';

const HEADS: Readonly<Record<LevelEntry, string>> = {
  elevation_m: 'entered',
  sigma_m: '1σ',
  source: 'source',
};

export function LevelLine({
  level,
  cells,
  datum,
  computed,
  problems,
  readOnly,
  onCommit,
  onPaste,
}: {
  level: string;
  cells: LevelCells;
  /** Of its elevation, where it is not that of the grid. */
  datum: string;
  computed: SiteTideResult['levels'][number] | null;
  problems: readonly Problem[];
  readOnly: boolean;
  onCommit: (cells: Partial<LevelCells>) => void;
  onPaste: (entry: LevelEntry, text: string) => boolean;
}) {
  const saysId = useId();
  const [typed, setTyped] = useState<Partial<LevelCells>>({});
  useUnsaved(Object.keys(typed).length > 0);
  const leave = (entry: LevelEntry): void => {
    const text = typed[entry];
    if (text === undefined) return;
    setTyped(({ [entry]: _, ...others }) => others);
    if (text.trim() !== cells[entry].trim()) onCommit({ [entry]: text.trim() });
  };
  const wrong = (entry: LevelEntry): boolean =>
    problems.some(({ column, severity }) => column === entry && severity === 'error');
  const value = computed?.computed_m ?? null;
  return (
    <>
      <tr>
        <th scope="row">
          {level}
          {datum === '' ? null : <small> on {datum}</small>}
        </th>
        {ENTRIES.map((entry) => (
          <td key={entry} data-entry={entry}>
            <GridCell
              name={`${HEADS[entry]} of ${level}`}
              help={String(columnHelp('tide_levels', entry).about)}
              head={HEADS[entry]}
              value={typed[entry] ?? cells[entry].replace(/^-/, '−')}
              isNumber={entry !== 'source'}
              className={entry === 'source' ? undefined : 'number'}
              saysId={problems.length === 0 ? undefined : saysId}
              isWrong={wrong(entry)}
              readOnly={readOnly}
              onType={(text) => setTyped((before) => ({ ...before, [entry]: text }))}
              onPaste={(text) => onPaste(entry, text)}
              onLeave={() => leave(entry)}
            />
          </td>
        ))}
        <td className="number computed">
          {value === null ? '' : `${signed(value, 2)} ±${printed(2 * (computed!.computed_sigma_m ?? 0), 2)}`}
        </td>
      </tr>
      {problems.length === 0 ? null : (
        <tr className="cell-says">
          <td colSpan={5} id={saysId}>
            {problems.map((each) => (
              <p
                key={`${each.code} ${each.column}`}
                data-severity={each.severity === 'error' ? 'error' : 'question'}
              >
                <Mark name={each.severity === 'error' ? 'stop' : 'help'} size={16} />
                <span>{problemWords(each)}</span>
              </p>
            ))}
          </td>
        </tr>
      )}
    </>
  );
}

/** What was found says the whole of it where two levels are held against each other. */
function problemWords({ code, found, expected, fix }: Problem): string {
  if (/^tide-level/.test(code)) return `${found}. ${fix}`;
  return found === '' ? `Expected ${expected}. ${fix}` : `Found “${found}”; expected ${expected}. ${fix}`;
}
