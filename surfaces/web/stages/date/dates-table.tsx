/** Determinations as a ruled table, each with its density in its row; the rows of a hole go down with the depth. */
import type { Problem } from '@stillstand/campaign/problems';
import type { DateResult } from '@stillstand/campaign/results';
import {
  INKS,
  InkContext,
  LINE,
  LyingStaff,
  type Scale,
  Sets,
  SIZE,
  Silhouette,
  scale,
  staffStep,
  TEXT_FAMILY,
  type Theme,
  useInk,
  years,
} from '@stillstand/output/figures';
import { memo } from 'react';
import { Mark, printed } from '../../parts/index.ts';
import type { Determination, Group } from './rows.ts';
import { setWords } from './set-words.ts';

const PX = 13 / 7;
/** Of a silhouette with its sets, pixels; a row is a ruled line, or two on a narrow page. */
const TALL = 38;

export function DatesTable({
  groups,
  span,
  chosen,
  drafted,
  problems,
  width,
  theme,
  onChoose,
}: {
  groups: readonly Group[];
  span: { oldest: number; youngest: number };
  chosen: string | null;
  /** The chosen one as it is being typed; its row shows that. */
  drafted: DateResult | null;
  problems: ReadonlyMap<string, Problem>;
  width: number;
  theme: Theme;
  onChoose: (row_id: string) => void;
}) {
  const isWide = width >= 620;
  const lane = Math.max(86, Math.floor(isWide ? width - 502 : width - 216));
  const x = scale(span.oldest, span.youngest, 4, lane / PX - 4);
  return (
    <table className={isWide ? 'dates wide' : 'dates'}>
      <caption>
        Determinations
        <span className="quiet"> measured ages are ±1 sd as the laboratory gave them</span>
      </caption>
      <thead>
        <tr>
          <th scope="col">sample</th>
          {isWide ? <th scope="col">laboratory</th> : null}
          {isWide ? (
            <th scope="col" className="number">
              depth, m
            </th>
          ) : null}
          <th scope="col" className="number">
            measured, yr
          </th>
          <th scope="col" className="lane" style={{ width: lane }}>
            <span className="unseen">calibrated density, cal BP</span>
            <TimeStaff x={x} lane={lane} span={span} theme={theme} />
          </th>
          {isWide ? <th scope="col">median (95 %), cal BP</th> : null}
        </tr>
      </thead>
      {groups.map((group) => (
        <tbody key={group.name}>
          <tr className="group">
            <th scope="rowgroup" colSpan={isWide ? 6 : 3}>
              {group.name}
            </th>
          </tr>
          {group.rows.map((d) => {
            const isChosen = d.row.row_id === chosen;
            return (
              <DateRow
                key={d.row.row_id}
                determination={d}
                date={isChosen && drafted !== null ? drafted : d.date}
                isChosen={isChosen}
                problem={problems.get(d.row.row_id) ?? null}
                isWide={isWide}
                lane={lane}
                oldest={span.oldest}
                youngest={span.youngest}
                theme={theme}
                onChoose={onChoose}
              />
            );
          })}
        </tbody>
      ))}
    </table>
  );
}

function TimeStaff({
  x,
  lane,
  span,
  theme,
}: {
  x: Scale;
  lane: number;
  span: { oldest: number; youngest: number };
  theme: Theme;
}) {
  return (
    <svg
      width={lane}
      height={26}
      viewBox={`0 0 ${lane / PX} ${26 / PX}`}
      fontFamily={TEXT_FAMILY}
      fontSize={SIZE.text}
      aria-hidden="true"
    >
      <InkContext value={INKS[theme]}>
        <LyingStaff
          y={10}
          scale={x}
          low={Math.max(0, span.youngest)}
          high={span.oldest}
          labels="above"
          label={years}
          {...staffStep(x.k, 5, 24)}
        />
      </InkContext>
    </svg>
  );
}

const DateRow = memo(function DateRow({
  determination: { row, depth_m },
  date,
  isChosen,
  problem,
  isWide,
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
  lane: number;
  oldest: number;
  youngest: number;
  theme: Theme;
  onChoose: (row_id: string) => void;
}) {
  const cell = (column: string): string => row.cells[column]?.trim() ?? '';
  const isRejected = cell('status') === 'rejected';
  const code = cell('lab_code') || 'no code';
  const measured = `${cell('value') === '' ? '–' : numberWords(cell('value'))} ± ${cell('error') === '' ? '–' : numberWords(cell('error'))}`;
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
        {isWide ? null : <span className="under">{code}</span>}
      </th>
      {isWide ? <td className="lab">{code}</td> : null}
      {isWide ? <td className="number">{printed(depth_m, 2)}</td> : null}
      <td className="number measured">{measured}</td>
      <td className="lane">
        {date === null ? (
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
            </>
          )}
        </td>
      ) : null}
    </tr>
  );
});

/** From the oldest to the youngest year of the 95 % set. */
const wholeSet = (date: DateResult): string => {
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
  const x = scale(oldest, youngest, 4, lane / PX - 4);
  const tall = TALL / PX;
  return (
    <svg width={lane} height={TALL} viewBox={`0 0 ${lane / PX} ${tall}`} aria-hidden="true">
      <InkContext value={INKS[theme]}>
        <Baseline y={tall - 5} lane={lane / PX} />
        <Silhouette date={date} x={x} y={tall - 5} height={tall - 7} />
        <Sets date={date} x={x} y={tall - 2.6} />
      </InkContext>
    </svg>
  );
}

function Baseline({ y, lane }: { y: number; lane: number }) {
  const ink = useInk();
  return <path d={`M0 ${y}H${lane}`} stroke={ink.rule} strokeWidth={LINE.fine} />;
}

/** As typed where it is no plain number. */
const numberWords = (typed: string): string =>
  /^-?\d+(?:\.\d+)?$/.test(typed) ? printed(Number(typed), typed.includes('.') ? 1 : 0) : typed;
