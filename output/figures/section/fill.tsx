/** Units filled between the holes of a section, and the names they have room for. */
import type { HoleResult, SectionResult } from '@stillstand/campaign/results';
import {
  boxAround,
  LINE,
  overlaps,
  PatternWithin,
  polyline,
  type Rect,
  roomWithin,
  type Scale,
  type Sediment,
  sedimentOf,
  sedimentOfUnit,
  Text,
  textWidth,
  useInk,
} from '@stillstand/output/drawing';
import { type Ground, groundAt, touchesGround } from './ground.tsx';
import type { Stand } from './layout.ts';
import { holesAlong, outlineOnPaper, type Paper, type SectionPaper } from './on-paper.ts';

export interface DrawnBody {
  sediment: Sediment;
  outline: Paper[];
  /** Holes and units it runs through. */
  units: SectionResult['bodies'][number]['units'];
}

/** Bodies on paper, each with the sediment of its first unit. */
export function drawnBodies(
  section: SectionResult | null,
  holes: readonly HoleResult[],
  paper: SectionPaper | null,
): DrawnBody[] {
  if (section === null || paper === null) return [];
  const along = holesAlong(section);
  const sedimentIn = sedimentsOfBodies(holes);
  return section.bodies.flatMap((body) => {
    const outline = outlineOnPaper(body.outline, paper, along);
    return outline.length < 3 ? [] : [{ sediment: sedimentIn(body), outline, units: body.units }];
  });
}

/** The sediment of a body is that of its first unit. */
export function sedimentsOfBodies(
  holes: readonly HoleResult[],
): (body: SectionResult['bodies'][number]) => Sediment {
  const key = (hole: string, unit: string): string => JSON.stringify([hole, unit]);
  const units = new Map(
    holes.flatMap(({ hole, units: own }) => own.map((unit) => [key(hole, unit.row_id), unit] as const)),
  );
  return ({ units: [first], sediment }) => {
    const unit = first === undefined ? undefined : units.get(key(first.hole, first.unit_row_id));
    return unit === undefined ? sedimentOf(sediment) : sedimentOfUnit(unit);
  };
}

/** Beside the staff a unit is drawn at least this far on each side, points: what ends sooner would not be seen. */
const COLLAR = 5;

/** A unit at its hole, on a side where nothing or too little of it is drawn between the holes. */
interface Collar {
  sediment: Sediment;
  outline: Paper[];
}

export function collarsOf(
  stands: readonly Stand[],
  y: Scale,
  ground: Ground,
  bodies: readonly DrawnBody[],
): Collar[] {
  return stands.flatMap((stand, i) => {
    const [before, after] = [stands[i - 1], stands[i + 1]];
    // No farther than half way to the next staff.
    const left = before === undefined ? COLLAR : (stand.x - before.x - before.width) / 2;
    const right = after === undefined ? COLLAR : (after.x - stand.x - stand.width) / 2;
    const [from, to] = [
      stand.x - Math.min(COLLAR, Math.max(0, left)),
      stand.x + stand.width + Math.min(COLLAR, Math.max(0, right)),
    ];
    return collarsAt(stand, { from, to }, y, ground, bodies);
  });
}

function collarsAt(
  { hole, ground_m, x, width }: Stand,
  { from, to }: { from: number; to: number },
  y: Scale,
  ground: Ground,
  bodies: readonly DrawnBody[],
): Collar[] {
  return hole.units.flatMap((unit): Collar[] => {
    const own = bodies
      .filter(({ units }) =>
        units.some((each) => each.hole === hole.hole && each.unit_row_id === unit.row_id),
      )
      .map(({ outline }) => boxAround(outline));
    const isShort = {
      left: !own.some((box) => box.x1 < from + 1 && box.x2 > x),
      right: !own.some((box) => box.x2 > to - 1 && box.x1 < x + width),
    };
    if (!isShort.left && !isShort.right) return [];
    const [x1, x2] = [isShort.left ? from : x, isShort.right ? to : x + width];
    const [top, bottom] = [y(ground_m - unit.depth_top_m.value), y(ground_m - unit.depth_bottom_m.value)];
    // Nothing is over the ground, where that falls steeply.
    const under = (at: number): Paper => [at, Math.min(bottom, Math.max(top, groundAt(ground, at)))];
    return [
      {
        sediment: sedimentOfUnit(unit),
        outline: [...[x1, x, x + width, x2].map(under), [x2, bottom], [x1, bottom]],
      },
    ];
  });
}

export function Collars({ collars, id }: { collars: readonly Collar[]; id: string }) {
  const ink = useInk();
  return (
    <g id={`${id}-collars`}>
      {collars.map(({ sediment, outline }, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a unit is drawn in one place
        <g key={i}>
          <PatternWithin sediment={sediment} outline={outline} id={`${id}-collar-${i + 1}`} seed={50 + i} />
          <path d={polyline(outline.slice(-2))} stroke={ink.ink} strokeWidth={LINE.fine} fill="none" />
        </g>
      ))}
    </g>
  );
}

export function Bodies({ bodies, id }: { bodies: readonly DrawnBody[]; id: string }) {
  return (
    <g id={`${id}-fill`}>
      <Fills bodies={bodies} id={id} />
    </g>
  );
}

export function Fills({
  bodies,
  id,
}: {
  bodies: readonly Pick<DrawnBody, 'sediment' | 'outline'>[];
  id: string;
}) {
  return bodies.map(({ sediment, outline }, i) => (
    <PatternWithin
      // biome-ignore lint/suspicious/noArrayIndexKey: bodies have no other name
      key={i}
      sediment={sediment}
      outline={outline}
      id={`${id}-body-${i + 1}`}
      seed={2000 + i}
    />
  ));
}

const NAME = { weight: 600 } as const;
/** From the top of its capitals to the foot of its descenders, and white around it, points. */
const [HEIGHT, AROUND] = [7.5, 2];

interface PlacedUnitName {
  name: string;
  x: number;
  y: number;
  box: Rect;
}

/** The largest body of each name first; a name that has no room is left to the key. */
export function placedUnitNames(
  bodies: readonly DrawnBody[],
  ground: Ground,
  taken: readonly Rect[],
): PlacedUnitName[] {
  const boxes = [...taken];
  const isFree = (box: Rect): boolean =>
    !touchesGround(ground, box) && !boxes.some((other) => overlaps(box, other));
  return [...bodies]
    .map((body) => ({ body, area: areaOf(body.outline) }))
    .sort((a, b) => b.area - a.area)
    .flatMap(({ body }): PlacedUnitName[] => {
      const { name } = body.sediment;
      const size = { width: textWidth(name, NAME) + 2 * AROUND, height: HEIGHT + 2 * AROUND };
      const at = roomWithin(body.outline, size, isFree);
      if (at === null) return [];
      const box = { x1: at.x, y1: at.y, x2: at.x + size.width, y2: at.y + size.height };
      boxes.push(box);
      return [{ name, x: at.x + AROUND, y: at.y + AROUND + 5.7, box }];
    });
}

const areaOf = (outline: readonly Paper[]): number =>
  Math.abs(
    outline.reduce((sum, [x, y], i) => {
      const [u, v] = outline[(i + 1) % outline.length]!;
      return sum + x * v - u * y;
    }, 0) / 2,
  );

export function UnitNames({ placed }: { placed: readonly PlacedUnitName[] }) {
  if (placed.length === 0) return null;
  return (
    <g id="section-units">
      {placed.map(({ name, x, y }) => (
        <Text key={`${name} ${x} ${y}`} x={x} y={y} weight={600} halo>
          {name}
        </Text>
      ))}
    </g>
  );
}
