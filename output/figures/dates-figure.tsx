/** All calibrated ages as densities on one time axis, hole by hole from the top down. */
import type { DateResult, Results } from '@stillstand/campaign/results';
import { LyingStaff, multiples, Ruling, scale, staffStep, Text, vertical } from '@stillstand/output/drawing';
import { counted, countedFrom, printed, years } from '@stillstand/output/words';
import { ageWarnings, timeAxis, yearsOf } from './chronology.ts';
import {
  type Column,
  type Group,
  grouped,
  type Lanes,
  lanesOf,
  medianHead,
  type Row,
} from './dates/lanes.ts';
import { AgeLegend, ageLegend, ageLegendHeight } from './dates/legend.tsx';
import { DateRow } from './dates/row.tsx';
import { drawn, type Figure, type FigureOptions, innerWidth, narrowness, type Warning } from './figure.tsx';

/** Two columns of a page leave this much for rows, points. */
const MOST_HEIGHT = 600;
const HEAD = 22;
const GROUP_HEAD = 11;
const BETWEEN_GROUPS = 2;
/** Of a row: the least for type of 7 points, the least with a line to each hole, the most. */
const ROW_HEIGHT = { least: 8, open: 9, most: 17 } as const;
/** Less room than this for time: the blocks of its staff are shorter, points. */
const NARROW = 130;
/** The least a density is drawn high, points. */
const LEAST_DENSITY = 6;

/** Where every row stands, each hole under its own line or, where that is too high, named in its first row. */
function placed(groups: readonly Group[], isDense: boolean) {
  const count = groups.reduce((sum, g) => sum + g.rows.length, 0);
  const heads = groups.length * (isDense ? BETWEEN_GROUPS : GROUP_HEAD + BETWEEN_GROUPS);
  const row = Math.max(
    isDense ? ROW_HEIGHT.least : ROW_HEIGHT.open,
    Math.min(ROW_HEIGHT.most, (MOST_HEIGHT - HEAD - heads) / Math.max(1, count)),
  );
  let y = HEAD;
  const all = groups.map((group) => {
    const head = y + 8;
    if (!isDense) y += GROUP_HEAD;
    const rows = group.rows.map((each) => {
      y += row;
      return { ...each, y: y - (isDense ? 1.8 : 4) };
    });
    y += BETWEEN_GROUPS;
    return { name: group.name, head, rows };
  });
  return { groups: all, row, bottom: y + 2 };
}

/** A reason has two lines where the row is as high as they are, or nearly so with no reason in the rows next to it. */
function reasonLines(rows: readonly Row[], i: number, height: number): 1 | 2 {
  const isRejected = (row: Row | undefined): boolean => row?.date.status === 'rejected';
  const isAlone = !isRejected(rows[i - 1]) && !isRejected(rows[i + 1]);
  return height >= 13 || (height >= 11 && isAlone) ? 2 : 1;
}

/** Calibrated ages of the whole campaign, two columns wide. */
export function datesFigure(results: Results, options: FigureOptions = {}): Figure {
  const groups = grouped(results);
  const dates = groups.flatMap((g) => g.rows.map((r) => r.date));
  const inner = innerWidth('two', options);
  const isDense =
    HEAD + groups.length * (GROUP_HEAD + BETWEEN_GROUPS) + dates.length * ROW_HEIGHT.open > MOST_HEIGHT;
  const lane = lanesOf(groups, inner, isDense);
  const { from, to, far } = timeAxis(dates);
  const time = scale(from, to, lane.plot, lane.right);
  const isNarrow = lane.right - lane.plot < NARROW;
  const step = staffStep(time.k, isNarrow ? 6 : 12, isNarrow ? 28 : 32);
  const { groups: rows, row, bottom } = placed(groups, isDense);
  const staff = { scale: time, low: to, high: from, label: years, ...step };
  const legend = ageLegend(dates, inner, 'rejected, and why');
  const drawing = (
    <g>
      <Heads lane={lane} />
      <Ruling
        at={multiples(to, from, step.step * step.every)}
        d={(age) => vertical(time(age), HEAD, bottom)}
      />
      <LyingStaff y={HEAD - 3.4} labels="above" {...staff} />
      {rows.map((group) => (
        <g key={group.name}>
          {isDense ? null : (
            <Text x={0} y={group.head} weight={600}>
              {group.name}
            </Text>
          )}
          {group.rows.map((each, i) => (
            <DateRow
              key={each.date.row_id}
              row={each}
              y={each.y}
              lane={lane}
              time={time}
              reasonLines={reasonLines(group.rows, i, row)}
              height={Math.max(LEAST_DENSITY, row - 4.5)}
              isFar={far.has(each.date)}
            />
          ))}
        </g>
      ))}
      <LyingStaff y={bottom} labels="below" {...staff} />
      <AgeLegend items={legend} y={bottom + 28} width={inner} />
    </g>
  );
  const rejected = dates.filter((d) => d.status === 'rejected').length;
  return drawn(
    {
      name: 'dates',
      width: 'two',
      title: `${results.name}, calibrated ages`,
      notes: [
        `${counted(dates.length, 'determination')}${rejected > 0 ? `, ${printed(rejected)} rejected` : ''}`,
      ],
      warnings: [...ageWarnings(dates), ...narrow(lane, inner)],
      caption: { head: 'Calibrated ages.', text: captionText(dates, far.size, lane) },
      height: bottom + 34 + ageLegendHeight(legend),
    },
    drawing,
    options,
  );
}

const COLUMNS: Record<Column, string> = {
  lab: 'laboratory codes',
  measured: 'measured ages',
  depth: 'depths',
  range: '95 % ranges',
};

function narrow({ leftOut, least }: Lanes, inner: number): Warning[] {
  if (leftOut.size === 0) return [];
  return narrowness(least, inner, `left out are ${[...leftOut].map((column) => COLUMNS[column]).join(', ')}`);
}

const isRange = ({ error_shape }: DateResult): boolean => error_shape === 'uniform';

function captionText(dates: readonly DateResult[], far: number, { leftOut }: Lanes): string {
  const measured = `Measured ages (radiocarbon yr BP${dates.some((d) => d.f14c !== null) ? ' or F14C' : ''}, or ${countedFrom(dates)}) and offsets`;
  return [
    `Each density${yearsOf(dates)} is drawn to one height on its own line, filled within its 95.4 % range and darker within its 68.3 % range, gaps left open; marine carbon is ruled and stands on a wave.`,
    far === 0
      ? ''
      : `${counted(far, 'age lies', 'ages lie')} beyond the axis: an arrow at its edge, with the median.`,
    `At the right median${leftOut.has('range') ? '' : ' and 95 % range'}, cal BP.`,
    `${leftOut.has('measured') ? 'Offsets' : measured} are ±1 sd${leftOut.has('depth') ? '' : ', depths below ground'}.`,
    !leftOut.has('measured') && dates.some(isRange) ? 'Two ages: the ends of a range.' : '',
  ]
    .filter((part) => part !== '')
    .join(' ');
}

function Heads({ lane }: { lane: Lanes }) {
  const heads = [
    { x: lane.hole, words: 'hole' },
    { x: lane.depth, words: 'depth, m', isEnd: true },
    { x: lane.sample, words: 'sample' },
    { x: lane.lab, words: 'laboratory' },
    { x: lane.measured, words: 'age, 1 sd', isEnd: true },
    { x: lane.right + 10, words: medianHead(lane.leftOut) },
  ];
  return heads.map(({ x, words, isEnd }) =>
    x === null ? null : (
      <Text key={words} x={x} y={HEAD - 6} anchor={isEnd ? 'end' : 'start'} voice="ink3">
        {words}
      </Text>
    ),
  );
}
