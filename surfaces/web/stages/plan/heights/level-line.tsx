/** One line of the level book: its cells, what comes of them, and below it what is wrong with them or was before. */
import { printed, signed } from '@stillstand/output/words';
import { useId } from 'react';
import { Mark } from '../../../parts/index.ts';
import { LevelCell, NAMES } from './level-cell.tsx';
import type { BookLine, Entry, LineCells } from './level-lines.ts';
import type { Method } from './level-method.ts';
import type { Preview } from './level-preview.ts';

export interface GridProps {
  lines: readonly BookLine[];
  preview: Preview;
  method: Method;
  /** Key of the line being typed. */
  inHand: string | null;
  stations: readonly string[];
  readOnly: boolean;
  onType: (line: BookLine, cells: Partial<LineCells>) => void;
  onPaste: (from: BookLine, block: readonly Partial<LineCells>[]) => void;
  onHand: (at: { key: string; entry: Entry }) => void;
  onOpen: (row_id: string) => void;
}

export function LevelLine({
  line,
  at,
  preview,
  method,
  inHand,
  stationsId,
  isAdjusted,
  readOnly,
  onType,
  onPaste,
  onHand,
  onOpen,
}: GridProps & {
  line: BookLine;
  at: number;
  stationsId: string;
  isAdjusted: boolean;
}) {
  const saysId = useId();
  const says = preview.says.get(line.key);
  const isFixed = line.state === 'withdrawn' || line.state === 'conflict';
  const reduced = preview.lines.get(line.key);
  const rise = reduced?.rise_m ?? null;
  const m = (value: number | null | undefined, sign = false): string =>
    value === null || value === undefined ? '' : sign ? signed(value, 3) : printed(value, 3);
  const input = (entry: Entry) => (
    <LevelCell
      entry={entry}
      name={`${NAMES[entry]} of line ${at + 1}`}
      value={line.cells[entry]}
      says={says?.get(entry) ?? null}
      saysId={saysId}
      list={stationsId}
      readOnly={readOnly || isFixed}
      onType={(text) => onType(line, { [entry]: text })}
      onPaste={(block) => onPaste(line, block)}
      onHand={() => onHand({ key: line.key, entry })}
    />
  );
  const state = isFixed ? line.state : line.isChanged && line.row_id !== null ? 'changed' : line.state;
  return (
    <>
      <tr data-state={state} data-in-hand={inHand === line.key}>
        <th scope="row">
          {state === 'written' || state === 'new' ? null : (
            <button
              type="button"
              className="line-state"
              onClick={() => line.row_id !== null && onOpen(line.row_id)}
            >
              <Mark
                name={STATE[state]![0]}
                size={18}
                label={`${STATE[state]![1]}: open the record of line ${at + 1}`}
              />
            </button>
          )}
          {input('point')}
        </th>
        <td>{input('backsight_m')}</td>
        <td>{input('intermediate_m')}</td>
        <td>{input('foresight_m')}</td>
        {method === 'rise-and-fall' ? (
          <>
            <td className="number" data-name="rise">
              {rise !== null && rise >= 0 ? m(rise) : ''}
            </td>
            <td className="number" data-name="fall">
              {rise !== null && rise < 0 ? m(-rise) : ''}
            </td>
          </>
        ) : (
          <td className="number" data-name="collimation">
            {m(reduced?.collimation_m, true)}
          </td>
        )}
        <td className="number height" data-name="height">
          {m(reduced?.reduced_m, true)}
        </td>
        <td className="number" data-name="adjusted">
          {isAdjusted ? m(reduced?.adjusted_m, true) : ''}
        </td>
        <td>{input('distance_m')}</td>
        <td>{input('note')}</td>
      </tr>
      {says === undefined && line.was.length === 0 ? null : (
        <tr className="cell-says">
          <td colSpan={method === 'rise-and-fall' ? 10 : 9} id={saysId}>
            {line.was.length === 0 ? null : (
              <p>
                <Mark name="amended" size={16} />
                <span>
                  before:{' '}
                  {line.was.map(({ entry, text }, i) => (
                    <span key={`${entry} ${text}`}>
                      {i === 0 ? '' : ', '}
                      {NAMES[entry]} <s>{text.replace(/^-/, '−')}</s>
                    </span>
                  ))}
                </span>
              </p>
            )}
            {[...(says ?? [])].map(([entry, { severity, words, meant }]) => (
              <p key={entry} data-severity={severity}>
                <Mark name={SAYS[severity]} size={16} />
                <span>
                  {NAMES[entry]}: {words}
                </span>
                {meant === null || readOnly || isFixed ? null : (
                  <button type="button" className="meant" onClick={() => onType(line, { [entry]: meant })}>
                    Use {meant}
                  </button>
                )}
              </p>
            ))}
          </td>
        </tr>
      )}
    </>
  );
}

const STATE: Readonly<Record<string, readonly ['amended' | 'rejected' | 'close', string]>> = {
  replaced: ['amended', 'amended'],
  changed: ['amended', 'changed, not recorded yet'],
  withdrawn: ['rejected', 'withdrawn'],
  conflict: ['close', 'amendments differ'],
};
const SAYS = { error: 'stop', question: 'help', note: 'note' } as const;
