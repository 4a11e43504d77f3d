/** Determinations as a ruled table, each with its density in its row; the rows of a hole go down with the depth. */
import type { Problem } from '@stillstand/campaign/problems';
import type { DateResult } from '@stillstand/campaign/results';
import {
  INKS,
  InkContext,
  LyingStaff,
  type Scale,
  SIZE,
  staffStep,
  TEXT_FAMILY,
  type Theme,
} from '@stillstand/output/drawing';
import { years } from '@stillstand/output/words';
import { columnsOf } from './columns.ts';
import { DateRow } from './date-row.tsx';
import { laneScale, PX } from './lane.ts';
import type { Group } from './rows.ts';
import './dates-table.css';

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
  const { isWide, hasLab, lane } = columnsOf(
    groups.flatMap(({ rows }) => rows),
    width,
  );
  const x = laneScale(span.oldest, span.youngest, lane);
  return (
    <table className={isWide ? 'dates wide' : 'dates'}>
      <caption>
        Determinations
        <span className="quiet"> measured ages are ±1 sd as the laboratory gave them</span>
      </caption>
      <thead>
        <tr>
          <th scope="col">sample</th>
          {hasLab ? <th scope="col">laboratory</th> : null}
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
            <th scope="rowgroup" colSpan={isWide ? (hasLab ? 6 : 5) : 3}>
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
                hasLab={hasLab}
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
  const { step, every } = staffStep(x.k, 5, 24);
  // A short lane has its beginning and its end in figures.
  const most = Math.floor(span.oldest / step);
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
          step={step}
          every={Math.max(1, Math.min(every, most))}
        />
      </InkContext>
    </svg>
  );
}
