/** Ages at the dated samples of a hole in a section, and the list of them where only their numbers have room. */
import {
  isMarine,
  LINE,
  Lozenge,
  placeAlong,
  polygon,
  polyline,
  type Rect,
  type Scale,
  Text,
  textWidth,
  useInk,
  wave,
} from '@stillstand/output/drawing';
import { printed, years } from '@stillstand/output/words';
import { type Ground, lowestGround } from './ground.tsx';
import { AGE_FROM, AGE_ROW, type AgeLabel, type AgesShown, AXIS, type Stand, UNDER } from './layout.ts';

const mean = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;

/** An age or its number: on a wave and in the sea's colour, in greys in italics, where all of it is marine carbon, struck where rejected. */
function AgeText({ x, y, text, label }: { x: number; y: number; text: string; label: AgeLabel }) {
  const ink = useInk();
  const rejected = label.dates.every(({ date }) => date.status === 'rejected');
  const marine = label.dates.every(({ date }) => isMarine(date));
  const face = ink.grey && marine ? 'water' : 'text';
  return (
    <>
      <Text x={x} y={y} halo voice={rejected ? 'ink2' : marine ? 'sea' : 'ink'} face={face} struck={rejected}>
        {text}
      </Text>
      {marine && !rejected ? (
        <path
          d={wave(x, x + textWidth(text, { face }), y + 1.8, 1.5, 0.45)}
          stroke={ink.sea}
          strokeWidth={LINE.fine}
          fill="none"
        />
      ) : null}
    </>
  );
}

/** From a mark to an age that has no need of a leader, points. */
const FAR_LABEL = 12;
/** Of a mark on its way to an age that is led to it, points. */
const CLEAR_OF_MARK = 2.4;

/** Paper under the mark of a sample, points from its middle. */
const MARK = 3.1;

interface AgesProps {
  stand: Stand;
  y: Scale;
  ground: Ground;
  shown: AgesShown;
  /** Of the drawing, points. */
  bottom: number;
}

interface PlacedAge {
  label: AgeLabel;
  /** Of the sample's mark, points. */
  mark: number;
  /** Left end and middle of the words. */
  x: number;
  at: number;
}

/** Each age where it is written: beside its sample, else apart from it on a leader. */
function placedAges({ stand, y, ground, shown, bottom }: AgesProps): PlacedAge[] {
  const { labels, x, width } = stand;
  // Under the ground, also where that falls along the label.
  const from =
    Math.max(y(stand.ground_m), lowestGround(ground, x + width * 0.55, x + width + stand.lane)) + 1.6;
  const places = placeAlong(
    labels.map((label) => ({ at: y(mean(label.dates.map((d) => d.elevation_m))), size: AGE_ROW })),
    from,
    // Where the ground falls steeply next to the hole they reach below the drawing.
    Math.max(bottom + UNDER, from + labels.length * AGE_ROW),
  );
  return labels.map((label, i) => ({
    label,
    mark: y(mean(label.dates.map((d) => d.elevation_m))),
    x: x + width + AGE_FROM[shown],
    at: places[i]!,
  }));
}

/** The words of every age, with a little paper about them, for what must not run through them. */
export const ageRects = (props: AgesProps): Rect[] =>
  placedAges(props).map(({ label, x, at }) => ({
    x1: x - 1.2,
    x2: x + textWidth(label.text) + 1.2,
    y1: at - 3.6,
    // Down to the wave under a marine one.
    y2: at + 5.4,
  }));

/** Boxes of the marks of samples. */
export const ageMarks = ({ stand: { dates, x, width }, y, shown }: AgesProps): Rect[] => {
  const at = shown === 'beside' ? x + width + 3.4 : x + width * AXIS;
  return dates.map(({ elevation_m }) => ({
    x1: at - MARK,
    x2: at + MARK,
    y1: y(elevation_m) - MARK,
    y2: y(elevation_m) + MARK,
  }));
};

export function Ages(props: AgesProps) {
  const ink = useInk();
  const { stand, y, shown } = props;
  const { dates, x, width } = stand;
  const placed = placedAges(props);
  /** Next to the staff where its age is written there too; else on the hole itself. */
  const markX = shown === 'beside' ? x + width + 3.4 : x + width * AXIS;
  return (
    <g>
      {dates.map(({ date, elevation_m }) => (
        <g key={date.row_id}>
          <path
            d={polygon([
              [markX - MARK, y(elevation_m)],
              [markX, y(elevation_m) - MARK],
              [markX + MARK, y(elevation_m)],
              [markX, y(elevation_m) + MARK],
            ])}
            fill={ink.paper}
          />
          <Lozenge x={markX} y={y(elevation_m)} filled={date.status !== 'rejected'} size={1.9} />
        </g>
      ))}
      {placed.map(({ label, mark, at, x: labelX }) => (
        <g key={label.dates[0]!.date.row_id}>
          {Math.abs(at - mark) > (shown === 'beside' ? 1 : 4) || labelX - markX > FAR_LABEL ? (
            <path
              d={polyline([
                [markX + CLEAR_OF_MARK, mark],
                [labelX - 0.6, at],
              ])}
              stroke={ink.line}
              strokeWidth={LINE.hair}
              fill="none"
            />
          ) : null}
          <AgeText x={labelX} y={at + 2.4} text={label.text} label={label} />
        </g>
      ))}
    </g>
  );
}

const COLUMN_GAP = 9;
const ROW = 8.6;

interface Listed {
  number: string;
  age: string;
  label: AgeLabel;
  x: number;
  row: number;
}

/** Every numbered age, in columns read downwards. */
export function ageList(
  stands: readonly Stand[],
  width: number,
): { items: Listed[]; rows: number; number: number } {
  const dates = stands.flatMap((s) => s.dates);
  const texts = dates.map((each, i) => ({
    number: printed(i + 1),
    age: years(each.date.median_cal_bp),
    label: { text: '', dates: [each] },
  }));
  const number = Math.max(0, ...texts.map((t) => textWidth(t.number, { weight: 600 })));
  const age = Math.max(0, ...texts.map((t) => textWidth(t.age)));
  const columns = Math.max(1, Math.floor((width + COLUMN_GAP) / (number + 4 + age + COLUMN_GAP)));
  const rows = Math.ceil(texts.length / columns);
  const items = texts.map((text, i) => ({
    ...text,
    x: Math.floor(i / Math.max(1, rows)) * (number + 4 + age + COLUMN_GAP),
    row: i % Math.max(1, rows),
  }));
  return { items, rows, number };
}

export const ageListHeight = (rows: number): number => rows * ROW + 12;

export function AgeList({ list, x, y }: { list: ReturnType<typeof ageList>; x: number; y: number }) {
  return (
    <g>
      <Text x={x} y={y} voice="ink2">
        median ages, cal BP, by number
      </Text>
      {list.items.map((item) => (
        <g key={item.number}>
          <Text x={x + item.x + list.number} y={y + ROW * (item.row + 1) + 1} anchor="end" weight={600}>
            {item.number}
          </Text>
          <AgeText
            x={x + item.x + list.number + 4}
            y={y + ROW * (item.row + 1) + 1}
            text={item.age}
            label={item.label}
          />
        </g>
      ))}
    </g>
  );
}
