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
import { startTransition, useEffect, useRef, useState } from 'react';
import { columnsOf } from './columns.ts';
import { DateRow } from './date-row.tsx';
import { laneScale, PX } from './lane.ts';
import type { Group } from './rows.ts';
import './dates-table.css';

/** Rows on either side of the chosen one that are there at once: more than a tall screen shows. */
const NEAR = 24;

export function DatesTable({
  groups,
  span,
  chosen,
  asked,
  drafted,
  problems,
  width,
  theme,
  onChoose,
}: {
  groups: readonly Group[];
  span: { oldest: number; youngest: number };
  chosen: string | null;
  /** What was asked for by its address, and is in sight among the others. */
  asked: string | undefined;
  /** The chosen one as it is being typed; its row shows that. */
  drafted: DateResult | null;
  problems: ReadonlyMap<string, Problem>;
  width: number;
  theme: Theme;
  onChoose: (row_id: string) => void;
}) {
  const { isWide, hasLab, lane, widths } = columnsOf(
    groups.flatMap(({ rows }) => rows),
    width,
  );
  const x = laneScale(span.oldest, span.youngest, lane);
  // The rows of a long table that are far off follow once the page is there; a press does not wait for them.
  const [isWhole, setWhole] = useState(false);
  useEffect(() => startTransition(() => setWhole(true)), []);
  const order = groups.flatMap(({ rows }) => rows.map(({ row }) => row.row_id));
  const middle = order.indexOf(chosen ?? '');
  const near = isWhole ? null : new Set(order.slice(Math.max(0, middle - NEAR), middle + NEAR));
  const table = useRef<HTMLTableElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: once more when the rows above it have their heights.
  useEffect(() => {
    if (asked === undefined || innerWidth < 700) return;
    table.current?.querySelector('.chosen')?.scrollIntoView({ block: 'nearest' });
  }, [asked, isWhole]);
  return (
    <table ref={table} className={isWide ? 'dates wide' : 'dates'}>
      <caption>
        Determinations
        <span className="quiet"> measured ages are ±1 sd as the laboratory gave them</span>
      </caption>
      <thead>
        <tr>
          <th scope="col" style={{ width: widths.sample }}>
            sample
          </th>
          {hasLab ? (
            <th scope="col" style={{ width: widths.lab }}>
              laboratory
            </th>
          ) : null}
          {isWide ? (
            <th scope="col" className="number">
              depth, m
            </th>
          ) : null}
          <th scope="col" className="number" style={{ width: widths.measured }}>
            measured, yr
          </th>
          <th scope="col" className="lane" style={{ width: lane }}>
            <span className="unseen">calibrated density, cal BP</span>
            <TimeStaff x={x} lane={lane} span={span} theme={theme} />
          </th>
          {isWide ? (
            <th scope="col" style={{ width: widths.age }}>
              median (95 %), cal BP
            </th>
          ) : null}
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
            if (near?.has(d.row.row_id) === false) return <tr key={d.row.row_id} className="later" />;
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
