/** All calibrated ages as densities on one time axis, hole by hole from the top down. */
import type { DateResult, HoleResult, Results } from '@stillstand/campaign/results';
import {
  AgeDensity,
  AgeSwatch,
  CautionMark,
  firstLines,
  horizontal,
  isMarine,
  LINE,
  LyingStaff,
  multiples,
  Ruling,
  type Scale,
  Span,
  scale,
  shortened,
  staffStep,
  Text,
  textWidth,
  useInk,
  vertical,
  wrapped,
} from '@stillstand/output/drawing';
import { counted, isLimit, printed, yearRange, years } from '@stillstand/output/words';
import { ageWarnings, isTruncated, yearsOf } from './chronology.ts';
import { drawn, type Figure, type FigureOptions, innerWidth, narrowness, type Warning } from './figure.tsx';

interface Row {
  date: DateResult;
  depth_m: number | null;
}

interface Group {
  name: string;
  rows: Row[];
}

/** Two columns of a page leave this much for rows, points. */
const MOST_HEIGHT = 600;
const HEAD = 22;
const GROUP_HEAD = 11;

/** Dates by hole, holes along the section, each from the top down; those without a hole last. */
function grouped(results: Results): Group[] {
  const along = (hole: HoleResult): number => hole.section_m ?? Number.POSITIVE_INFINITY;
  const holes = [...results.holes].sort((a, b) => along(a) - along(b)).map((h) => h.hole);
  const depths = new Map(results.samples.map((s) => [s.sample, s.depth_m?.value ?? null]));
  const rows = results.dates.map((date) => ({ date, depth_m: depths.get(date.sample) ?? null }));
  const names = [
    ...holes,
    ...rows.map(({ date }) => date.hole).filter((h) => h !== null && !holes.includes(h)),
  ];
  const groups: Group[] = [...new Set(names)].map((name) => ({
    name: `Hole ${name}`,
    rows: rows.filter(({ date }) => date.hole === name),
  }));
  groups.push({ name: 'From the surface', rows: rows.filter(({ date }) => date.hole === null) });
  for (const group of groups) {
    group.rows.sort(
      (a, b) =>
        (a.depth_m ?? Number.POSITIVE_INFINITY) - (b.depth_m ?? Number.POSITIVE_INFINITY) ||
        a.date.median_cal_bp - b.date.median_cal_bp,
    );
  }
  return groups.filter((group) => group.rows.length > 0);
}

const oldestOf = (date: DateResult): number => date.sets_95[0]?.older_cal_bp ?? date.median_cal_bp;
const youngestOf = (date: DateResult): number => date.sets_95.at(-1)?.younger_cal_bp ?? date.median_cal_bp;

/** Room for the head of the depths, points. */
const DEPTH = 30;

/** What the laboratory gave and its 1 sd: F14C where there is one. */
/** What was measured and its error. */
function measuredOf(date: DateResult): [string, string] {
  const { value, error, f14c, f14c_sigma } = date;
  if (f14c !== null) return [`F14C ${printed(f14c, 4)}`, `± ${printed(f14c_sigma, 4)}`];
  return [years(value), isLimit(date) ? 'limit' : `± ${years(error)}`];
}

/** " 1963 CE" of a year after 1950. */
const commonEra = (cal_bp: number): string => (cal_bp < 0 ? ` ${1950 - Math.round(cal_bp)} CE` : '');

/** "(8,979–8,602)"; of an age after 1950 its year too. */
const rangeOf = (date: DateResult): string =>
  `(${yearRange(oldestOf(date), youngestOf(date))})${commonEra(date.median_cal_bp)}`;

/** Columns of words that give way to time on a narrow paper, in this order. */
const GIVES_WAY = ['lab', 'measured', 'depth', 'range'] as const;
type GivesWay = (typeof GIVES_WAY)[number];
/** Least room for time, points. */
const TIME = 60;
/** To the range of an age at the right, past its median, and least room for it to the edge of the page. */
const RANGE_AT = 36.5;
const RANGE_ROOM = 61.5;
const MEDIAN = 38;

/** As many columns of words as leave time its room; `least` is what all of them need, from margin to margin. */
function lanes(groups: readonly Group[], inner: number) {
  const tries = [...GIVES_WAY.keys(), GIVES_WAY.length].map((n) =>
    lanesWithout(groups, inner, new Set(GIVES_WAY.slice(0, n))),
  );
  const fit = tries.find(({ plot, right }) => right - plot >= TIME) ?? tries.at(-1)!;
  return { ...fit, least: tries[0]!.plot + TIME + tries[0]!.atRight };
}

function lanesWithout(groups: readonly Group[], inner: number, leftOut: ReadonlySet<GivesWay>) {
  const rows = groups.flatMap((g) => g.rows);
  const widest = (of: (row: Row) => string, least: number, most: number): number =>
    Math.min(most, Math.max(least, ...rows.map((row) => textWidth(of(row)))));
  const depth = 0;
  const sample = leftOut.has('depth') ? 0 : depth + DEPTH + 6;
  const lab = sample + widest((r) => r.date.sample, 24, 60) + 8;
  const measured = leftOut.has('lab') ? lab : lab + widest((r) => r.date.lab_code, 36, 66) + 6;
  const measuredWidth = leftOut.has('measured')
    ? 0
    : widest(({ date }) => measuredOf(date).join(' '), 38, 84);
  const plot = measured + measuredWidth + 12;
  const atRight = RANGE_AT + widest(({ date }) => rangeOf(date), RANGE_ROOM, 120);
  return {
    depth: depth + DEPTH,
    sample,
    sampleWidth: lab - sample - 8,
    lab,
    labWidth: measured - lab - 6,
    leftOut,
    right: inner - (leftOut.has('range') ? MEDIAN : atRight),
    atRight,
    measured: measured + measuredWidth,
    plot,
  };
}

/** Calibrated ages of the whole campaign, two columns wide. */
export function datesFigure(results: Results, options: FigureOptions = {}): Figure {
  const groups = grouped(results);
  const dates = groups.flatMap((g) => g.rows.map((r) => r.date));
  const inner = innerWidth('two', options);
  const lane = lanes(groups, inner);
  const { right } = lane;
  const room = MOST_HEIGHT - HEAD - groups.length * GROUP_HEAD;
  const rowHeight = Math.max(9, Math.min(17, room / Math.max(1, dates.length)));
  const oldest = Math.max(100, ...dates.map((d) => oldestOf(d) + d.sd_yr));
  const youngest = Math.min(0, ...dates.map((d) => youngestOf(d) - d.sd_yr));
  const span = oldest - youngest;
  // From the youngest date where all are old.
  const near = Math.min(...dates.map(youngestOf), oldest);
  const from = near > youngest + span * 0.4 ? near - span * 0.03 : youngest;
  const isNarrow = right - lane.plot < 130;
  const step = staffStep((right - lane.plot) / (oldest * 1.01 - from), isNarrow ? 6 : 12, isNarrow ? 28 : 32);
  const time = scale(oldest + span * 0.03, from, lane.plot, right);

  let y = HEAD;
  const placed = groups.map((group) => {
    const head = y + 8;
    y += GROUP_HEAD;
    const rows = group.rows.map((row) => {
      y += rowHeight;
      return { ...row, y: y - 4 };
    });
    y += 2;
    return { name: group.name, head, rows, end: y };
  });
  const bottom = y + 2;
  const legend = legendOf(dates, inner);
  const drawing = (
    <g>
      <Heads lane={lane} right={right} />
      <Ruling
        at={multiples(from, oldest + span * 0.03, step.step * step.every)}
        d={(age) => vertical(time(age), HEAD, bottom)}
      />
      <LyingStaff
        y={HEAD - 3.4}
        scale={time}
        low={from}
        high={oldest + span * 0.03}
        labels="above"
        label={years}
        {...step}
      />
      {placed.map((group) => (
        <g key={group.name}>
          <Text x={0} y={group.head} weight={600}>
            {group.name}
          </Text>
          {group.rows.map((row) => (
            <DateRow
              key={row.date.row_id}
              row={row}
              y={row.y}
              lane={lane}
              right={right}
              time={time}
              height={rowHeight - 4.5}
            />
          ))}
        </g>
      ))}
      <LyingStaff
        y={bottom}
        scale={time}
        low={from}
        high={oldest + span * 0.03}
        labels="below"
        label={years}
        {...step}
      />
      {legend.map((item) => (
        <g key={item.kind}>
          <AgeSwatch x={item.x + 2} y={bottom + 28 + item.row * 12} kind={item.kind} />
          <Text x={item.x + 20} y={bottom + 29 + item.row * 12}>
            {shortened(item.words, inner - 20)}
          </Text>
        </g>
      ))}
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
      caption: {
        head: 'Calibrated ages.',
        text: `Each density${yearsOf(dates)} is drawn to one height on its own line, filled within its 95.4 % range and darker within its 68.3 % range, gaps left open; marine carbon is ruled and stands on a wave. At the right median${lane.leftOut.has('range') ? '' : ' and 95 % range'}, cal BP. ${lane.leftOut.has('measured') ? 'Offsets' : `Measured ages (radiocarbon yr BP${dates.some((d) => d.f14c !== null) ? ' or F14C' : ''}, or yr before 1950) and offsets`} are ±1 sd${lane.leftOut.has('depth') ? '' : ', depths below ground'}.`,
      },
      height: bottom + 34 + (legend.at(-1)?.row ?? 0) * 12,
    },
    drawing,
    options,
  );
}

const COLUMNS: Record<GivesWay, string> = {
  lab: 'laboratory codes',
  measured: 'measured ages',
  depth: 'depths',
  range: '95 % ranges',
};

function narrow({ leftOut, least }: ReturnType<typeof lanes>, inner: number): Warning[] {
  if (leftOut.size === 0) return [];
  return narrowness(least, inner, `left out are ${[...leftOut].map((column) => COLUMNS[column]).join(', ')}`);
}

function Heads({ lane, right }: { lane: ReturnType<typeof lanes>; right: number }) {
  const y = HEAD - 6;
  return (
    <g>
      {lane.leftOut.has('depth') ? null : (
        <Text x={lane.depth} y={y} anchor="end" voice="ink3">
          depth, m
        </Text>
      )}
      <Text x={lane.sample} y={y} voice="ink3">
        sample
      </Text>
      {lane.leftOut.has('lab') ? null : (
        <Text x={lane.lab} y={y} voice="ink3">
          laboratory
        </Text>
      )}
      {lane.leftOut.has('measured') ? null : (
        <Text x={lane.measured} y={y} anchor="end" voice="ink3">
          age, 1 sd
        </Text>
      )}
      <Text x={right + 10} y={y} voice="ink3">
        {lane.leftOut.has('range') ? 'cal BP' : 'median (95 %), cal BP'}
      </Text>
    </g>
  );
}

interface RowProps {
  row: Row;
  y: number;
  lane: ReturnType<typeof lanes>;
  right: number;
  time: Scale;
  height: number;
}

function DateRow({ row, y, lane, right, time, height }: RowProps) {
  const ink = useInk();
  const { date } = row;
  const rejected = date.status === 'rejected';
  const voice = rejected ? 'ink2' : 'ink';
  const [measured, error] = measuredOf(date);
  const median = years(date.median_cal_bp);
  const cut = isTruncated(date);
  const reasonRoom = time(oldestOf(date)) - lane.plot - 6;
  const reason = date.reason === null ? 'rejected' : `rejected: ${date.reason}`;
  // The reason stands on the side of the density with more room.
  const onLeft = reasonRoom > right - time(youngestOf(date)) - 6;
  const reasonWidth = Math.max(reasonRoom, right - time(youngestOf(date)) - 6);
  const lines = firstLines(wrapped(reason, reasonWidth), 2, reasonWidth);
  const reasonX = onLeft ? time(oldestOf(date)) - 5 : time(youngestOf(date)) + 5;
  return (
    <g>
      <path d={horizontal(lane.plot, right, y)} stroke={ink.rule} strokeWidth={LINE.fine} fill="none" />
      {row.depth_m === null || lane.leftOut.has('depth') ? null : (
        <Text x={lane.depth} y={y} anchor="end" voice="ink2">
          {printed(row.depth_m, 2)}
        </Text>
      )}
      <Text x={lane.sample} y={y}>
        {shortened(date.sample, lane.sampleWidth + 0.5)}
      </Text>
      {lane.leftOut.has('lab') ? null : (
        <Text x={lane.lab} y={y} voice="ink2">
          {shortened(date.lab_code, lane.labWidth + 0.5)}
        </Text>
      )}
      {lane.leftOut.has('measured') ? null : (
        <Text x={lane.measured} y={y} anchor="end" voice={voice} struck={rejected}>
          {measured} <Span voice="ink2">{error}</Span>
        </Text>
      )}
      <AgeDensity date={date} x={time} y={y} height={height} />
      {rejected
        ? lines.map((line, i) => (
            <Text
              key={line}
              x={reasonX}
              y={y - 1.6 + (i - (lines.length - 1) / 2) * 7.2}
              anchor={onLeft ? 'end' : 'start'}
              voice="ink2"
              halo
            >
              {line}
            </Text>
          ))
        : null}
      <Text x={right + 10 + 24} y={y} anchor="end" weight={600} voice={voice} struck={rejected}>
        {median}
      </Text>
      {lane.leftOut.has('range') ? null : (
        <Text x={right + RANGE_AT} y={y} voice="ink2" struck={rejected}>
          {rangeOf(date)}
        </Text>
      )}
      {cut ? <CautionMark x={right + 5.4} y={y} /> : null}
    </g>
  );
}

function legendOf(dates: readonly DateResult[], inner: number) {
  const kinds: { kind: 'land' | 'marine' | 'rejected'; words: string; shown: boolean }[] = [
    {
      kind: 'land',
      words: 'terrestrial carbon or another method, straight base',
      shown: dates.some((d) => !isMarine(d) && d.status === 'accepted'),
    },
    {
      kind: 'marine',
      words: 'marine carbon, ruled on a wave',
      shown: dates.some((d) => isMarine(d) && d.status === 'accepted'),
    },
    { kind: 'rejected', words: 'rejected, and why', shown: dates.some((d) => d.status === 'rejected') },
  ];
  let x = 0;
  let row = 0;
  return kinds
    .filter((k) => k.shown)
    .map((k) => {
      if (x > 0 && x + 20 + textWidth(k.words) > inner) {
        x = 0;
        row += 1;
      }
      const item = { ...k, x, row };
      x += textWidth(k.words) + 46;
      return item;
    });
}
