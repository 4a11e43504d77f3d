/** One hole of the ages across: its ages at their elevation, and the ranges of the hole before it. */
import {
  AgeDensity,
  box,
  EdgeArrow,
  horizontal,
  isMarine,
  LINE,
  LyingStaff,
  multiples,
  Ruling,
  type Scale,
  shortened,
  staffStep,
  Text,
  useInk,
  vertical,
} from '@stillstand/output/drawing';
import { years } from '@stillstand/output/words';
import { oldestOf, youngestOf } from '../chronology.ts';
import { type AgeAcross, type AgePanel, HEAD, TIME_LABELS } from './layout.ts';

/** Of a density, points. */
const HEIGHT = 10;
/** Half of the bar at each end of a range, points. */
const CAP = 1.3;

export function Panel({
  panel,
  before,
  y,
}: {
  panel: AgePanel;
  /** The hole next to it, on its left or at the end of the row above. */
  before: AgePanel | undefined;
  y: Scale;
}) {
  const ink = useInk();
  const { hung, dates, x1, x2, time } = panel;
  const step = staffStep(time.k, 6, 30);
  const top = y(y.from);
  return (
    <g id={`across-${hung.hole.row_id}`}>
      <Text x={x1} y={top - HEAD + 8} weight={600}>
        {shortened(hung.hole.hole, x2 - x1 + 4, { weight: 600 })}
      </Text>
      <Ruling
        at={multiples(time.to, time.from, step.step * step.every)}
        d={(age) => vertical(time(age), y(hung.ground_m), y(hung.bottom_m))}
      />
      <path
        d={box(x1, y(hung.ground_m), x2, y(hung.bottom_m))}
        stroke={ink.line}
        strokeWidth={LINE.fine}
        fill="none"
      />
      <path d={horizontal(x1, x2, y(hung.ground_m))} stroke={ink.ink} strokeWidth={LINE.page} fill="none" />
      <LyingStaff
        y={top - TIME_LABELS + 2.6}
        scale={time}
        low={time.to}
        high={time.from}
        labels="above"
        label={years}
        bounds={[x1, x2 + 4]}
        {...step}
      />
      {dates.map((each) => (
        <Age key={each.date.row_id} age={each} panel={panel} y={y} />
      ))}
      {before === undefined ? null : <Ranges of={before} time={time} y={y} />}
    </g>
  );
}

/** A density on its elevation, and the 95 % of that at its median. */
function Age({ age: { date, elevation_m, isFar }, panel, y }: { age: AgeAcross; panel: AgePanel; y: Scale }) {
  const ink = useInk();
  const { time, x1, x2 } = panel;
  const at = y(elevation_m.value);
  if (isFar) {
    const isLeft = date.median_cal_bp > time.from;
    return (
      <EdgeArrow
        x={isLeft ? x1 + 1 : x2 - 1}
        y={at}
        isLeft={isLeft}
        voice={isMarine(date) ? 'sea' : 'ink'}
        rejected={date.status === 'rejected'}
      />
    );
  }
  return (
    <g>
      <AgeDensity date={date} x={time} y={at} height={HEIGHT} />
      <path
        d={vertical(time(date.median_cal_bp), y(elevation_m.upper95), y(elevation_m.lower95))}
        stroke={date.status === 'rejected' ? ink.ink3 : ink.ink}
        strokeWidth={LINE.edge}
        fill="none"
      />
    </g>
  );
}

/** 95 % of the ages in use of another hole, as bars with ends: where one passes under a density, the two holes agree. */
function Ranges({ of, time, y }: { of: AgePanel; time: Scale; y: Scale }) {
  const ink = useInk();
  const bars = of.dates
    .filter(({ date, isFar }) => date.status === 'accepted' && !isFar)
    .map(({ date, elevation_m }) => {
      const at = y(elevation_m.value);
      const [a, b] = [time(oldestOf(date)), time(youngestOf(date))];
      return horizontal(a, b, at) + vertical(a, at - CAP, at + CAP) + vertical(b, at - CAP, at + CAP);
    });
  return <path d={bars.join('')} stroke={ink.ink3} strokeWidth={LINE.edge} fill="none" />;
}
