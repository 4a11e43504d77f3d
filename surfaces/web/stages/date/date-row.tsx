/** One determination in the table, its density in its row. */
import type { Problem } from '@stillstand/campaign/problems';
import type { DateResult } from '@stillstand/campaign/results';
import { readLimit } from '@stillstand/campaign/tables';
import { AgeDensity, INKS, InkContext, LINE, type Theme, useInk } from '@stillstand/output/drawing';
import { yearRange, years } from '@stillstand/output/words';
import { memo } from 'react';
import { Mark, printed } from '../../parts/index.ts';
import { type Cells, isReportedAsF14C } from './age.ts';
import { laneScale, PX } from './lane.ts';
import type { Determination } from './rows.ts';
import { commonEra, setWords } from './set-words.ts';

/** Of a density, pixels; a row is a ruled line, or two on a narrow page. */
const TALL = 38;

export const DateRow = memo(function DateRow({
  determination: { row, depth_m },
  date,
  isChosen,
  problem,
  isWide,
  hasLab,
  lane,
  oldest,
  youngest,
  theme,
  onChoose,
}: {
  determination: Determination;
  date: DateResult | null;
  isChosen: boolean;
  problem: Problem | null;
  isWide: boolean;
  /** The laboratory's code has a column of its own. */
  hasLab: boolean;
  lane: number;
  oldest: number;
  youngest: number;
  theme: Theme;
  onChoose: (row_id: string) => void;
}) {
  const cell = (column: string): string => row.cells[column]?.trim() ?? '';
  const isRejected = cell('status') === 'rejected';
  const code = cell('lab_code') || 'no code';
  const isShell = cell('known_age_ce') !== '' || cell('paired_with') !== '';
  const isF14C = isReportedAsF14C(row.cells);
  const measured = measuredWords(row.cells, date);
  const countsFrom = cell('method') === 'radiocarbon' ? '' : cell('reference_year');
  return (
    <tr
      className={
        [isChosen ? 'chosen' : '', isRejected ? 'rejected' : ''].filter(Boolean).join(' ') || undefined
      }
      onClick={() => onChoose(row.row_id)}
    >
      <th scope="row">
        <button
          type="button"
          aria-pressed={isChosen}
          aria-label={`${code}, sample ${cell('sample') || 'not named'}`}
          onClick={() => onChoose(row.row_id)}
        >
          {cell('sample') || '–'}
        </button>
        {hasLab ? null : <span className="under">{code}</span>}
      </th>
      {hasLab ? <td className="lab">{code}</td> : null}
      {isWide ? <td className="number">{printed(depth_m, 2)}</td> : null}
      <td className="number measured">
        {isF14C ? <span className="over">F14C</span> : null} {measured}
        {date === null || date.age_from === 'stated' ? null : (
          <span className="under">{date.age_from === 'density' ? 'age density' : 'computed'}</span>
        )}
        {countsFrom === '' ? null : <span className="under">before {countsFrom}</span>}
      </td>
      <td className="lane">
        {date === null && problem === null && isShell ? (
          <span className="under">gives the ΔR of {cell('delta_r_group') || 'its water'}</span>
        ) : date === null ? (
          <span className="no-age">
            <Mark name="stop" size={16} />{' '}
            {problem === null
              ? 'not dated'
              : `found ${problem.found || 'nothing'}; expected ${problem.expected}`}
          </span>
        ) : (
          <RowAge date={date} oldest={oldest} youngest={youngest} lane={lane} theme={theme} />
        )}
        {isRejected && isWide ? (
          <span className="under">
            <Mark name="rejected" size={13} /> rejected: {cell('reason') || 'no reason given'}
          </span>
        ) : null}
      </td>
      {isWide ? (
        <td className="age">
          {date === null ? null : (
            <>
              <b>{years(date.median_cal_bp)}</b> <span className="pm">({wholeSet(date)})</span>
              {date.median_cal_bp < 0 ? <span className="under">{commonEra(date.median_cal_bp)}</span> : null}
            </>
          )}
        </td>
      ) : null}
    </tr>
  );
});

/** From the oldest to the youngest year of the 95 % set. */
export const wholeSet = (date: DateResult): string => {
  const [first, last] = [date.sets_95[0], date.sets_95.at(-1)];
  return first === undefined || last === undefined
    ? ''
    : setWords(
        { older_cal_bp: first.older_cal_bp, younger_cal_bp: last.younger_cal_bp, probability: 1 },
        false,
      );
};

function RowAge({
  date,
  oldest,
  youngest,
  lane,
  theme,
}: {
  date: DateResult;
  oldest: number;
  youngest: number;
  lane: number;
  theme: Theme;
}) {
  const x = laneScale(oldest, youngest, lane);
  const tall = TALL / PX;
  return (
    <svg width={lane} height={TALL} viewBox={`0 0 ${lane / PX} ${tall}`} aria-hidden="true">
      <InkContext value={INKS[theme]}>
        <Baseline y={tall - 5} lane={lane / PX} />
        <AgeDensity date={date} x={x} y={tall - 5} height={tall - 7} />
      </InkContext>
    </svg>
  );
}

function Baseline({ y, lane }: { y: number; lane: number }) {
  const ink = useInk();
  return <path d={`M0 ${y}H${lane}`} stroke={ink.rule} strokeWidth={LINE.fine} />;
}

/** As it was typed; of a limit the sign, as it has no error; where no age in use was typed, as it was computed. */
export function measuredWords(cells: Cells, date: DateResult | null): string {
  if (date !== null && date.age_from !== 'stated') return `${years(date.value)} ± ${years(date.error)}`;
  const cell = (column: string): string => cells[column]?.trim() ?? '';
  const isF14C = isReportedAsF14C(cells);
  const limit = readLimit(cell('value')) ?? { qualifier: cell('qualifier'), value: cell('value') };
  if (limit.qualifier === 'not_determined') return 'not determined';
  const value = numberWords(limit.value, isF14C);
  const [middle, half] = [Number(limit.value), Number(cell('error'))];
  const isRange = cell('error_shape') === 'uniform' && cell('method') !== 'radiocarbon';
  if (limit.qualifier === '' && isRange && Number.isFinite(middle - half))
    return yearRange(middle + half, middle - half);
  if (limit.qualifier === '') return `${value} ± ${numberWords(cell('error'), isF14C)}`;
  return `${limit.qualifier === 'less_than' ? '<' : '>'} ${value}`;
}

/** In the decimals it was typed with, of F14C four; as typed where it is no plain number. */
function numberWords(typed: string, isF14C: boolean): string {
  if (!/^-?\d+(?:\.\d+)?$/.test(typed)) return typed || '–';
  return printed(Number(typed), isF14C ? 4 : (typed.split('.')[1]?.length ?? 0));
}
