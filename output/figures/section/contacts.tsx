/** Lines between the units of a section: how certain by how they are broken, a wave where the upper one cut into the lower. */
import type { CorrelationResult, SectionResult } from '@stillstand/campaign/results';
import {
  LINE,
  overlaps,
  polyline,
  type Rect,
  type Scale,
  Text,
  textWidth,
  useInk,
} from '@stillstand/output/drawing';
import { square } from '@stillstand/science/base';
import { type Ground, touchesGround } from './ground.tsx';
import type { Stand } from './layout.ts';
import { holesAlong, lineOnPaper, type Paper, type SectionPaper } from './on-paper.ts';
import { linesOutside, tieDashes, tieLine } from './ties.tsx';

/** Weight of a contact, points: over patterns it must be seen. */
const DRAWN = 0.8;

export type SectionContact = SectionResult['contacts'][number];

/** How sure a line is; one that no person has said anything of is not known. */
export type Sureness = 'certain' | 'probable' | 'possible';

export function surenessOf({ confidence, ending, tie, boundary }: SectionContact): Sureness {
  if (ending === 'unknown') return 'possible';
  if (confidence !== null) return confidence;
  return tie === null && boundary === null ? 'possible' : 'probable';
}

export interface DrawnContact {
  contact: SectionContact;
  line: Paper[];
}

export function drawnContacts(section: SectionResult | null, paper: SectionPaper | null): DrawnContact[] {
  if (section === null || paper === null) return [];
  const along = holesAlong(section);
  return section.contacts.flatMap((contact) => {
    const line = lineOnPaper(contact.line, paper, along);
    return line.length < 2 ? [] : [{ contact, line }];
  });
}

/** A wave along a line: half-waves of so many points, to one side and the other by turns. */
export function waveAlong(line: readonly Paper[], half = 2.6, height = 0.9): string {
  const length = lengthOf(line);
  const count = Math.max(2, Math.round(length / half));
  const points = Array.from({ length: count + 1 }, (_, i) => pointAlong(line, (i / count) * length));
  let d = polyline([points[0]!]);
  for (let i = 0; i < count; i++) {
    const [a, b] = [points[i]!, points[i + 1]!];
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    const long = Math.max(1e-6, Math.sqrt(square(dx) + square(dy)));
    const side = ((i % 2 === 0 ? 1 : -1) * 2 * height) / long;
    const [cx, cy] = [(a[0] + b[0]) / 2 + dy * side, (a[1] + b[1]) / 2 - dx * side];
    d += `Q${cx.toFixed(2)} ${cy.toFixed(2)} ${b[0].toFixed(2)} ${b[1].toFixed(2)}`;
  }
  return d;
}

export const lengthOf = (line: readonly Paper[]): number =>
  line
    .slice(1)
    .reduce((sum, [x, y], i) => sum + Math.sqrt(square(x - line[i]![0]) + square(y - line[i]![1])), 0);

/** The place at so much of a line's length. */
export function pointAlong(line: readonly Paper[], at: number): Paper {
  let left = at;
  for (const [i, b] of line.slice(1).entries()) {
    const a = line[i]!;
    const long = Math.sqrt(square(b[0] - a[0]) + square(b[1] - a[1]));
    if (left <= long && long > 0)
      return [a[0] + (left / long) * (b[0] - a[0]), a[1] + (left / long) * (b[1] - a[1])];
    left -= long;
  }
  return line.at(-1)!;
}

const pathOf = ({ contact, line }: DrawnContact, written: readonly Rect[]): string =>
  linesOutside(line, written)
    .map((part) => (contact.is_erosional ? waveAlong(part) : polyline(part)))
    .join('');

/**
 * Contacts of correlations as one path each, in the order of the correlations; a correlation that runs along nothing that
 * is filled is a straight line from base to base.
 */
export function Ties({
  ties,
  contacts,
  stands,
  y,
  written,
}: {
  ties: readonly CorrelationResult[];
  contacts: readonly DrawnContact[];
  stands: readonly Stand[];
  y: Scale;
  written: readonly Rect[];
}) {
  const ink = useInk();
  const own = Map.groupBy(
    contacts.filter(({ contact }) => contact.tie !== null),
    ({ contact }) => contact.tie,
  );
  const lines = ties.flatMap((tie) => {
    const along = own.get(tie.row_id);
    if (along !== undefined)
      return [
        {
          tie,
          d: along.map((each) => pathOf(each, written)).join(''),
          sureness: surenessOf(along[0]!.contact),
          isErosional: along[0]!.contact.is_erosional,
        },
      ];
    const parts = tieLine(tie, stands, y, written);
    return parts === null
      ? []
      : [
          {
            tie,
            d: parts.map(polyline).join(''),
            sureness: tie.confidence ?? 'probable',
            isErosional: false,
          },
        ];
  });
  if (lines.length === 0) return null;
  return (
    <g id="section-ties" fill="none" stroke={ink.ink} strokeWidth={DRAWN} strokeLinecap="round">
      {lines.map(({ tie, d, sureness, isErosional }) => (
        <path
          key={tie.row_id}
          d={d}
          strokeDasharray={tieDashes(sureness)}
          strokeWidth={isErosional || sureness === 'possible' ? LINE.bold : undefined}
        />
      ))}
    </g>
  );
}

/** All other contacts: where a unit ends between two holes, or how it goes on is not known. */
export function OtherContacts({
  contacts,
  written,
}: {
  contacts: readonly DrawnContact[];
  written: readonly Rect[];
}) {
  const ink = useInk();
  const others = contacts.filter(({ contact }) => contact.tie === null);
  if (others.length === 0) return null;
  return (
    <g id="section-contacts" fill="none" stroke={ink.ink} strokeWidth={DRAWN} strokeLinecap="round">
      {others.map((each, i) => (
        <path
          // biome-ignore lint/suspicious/noArrayIndexKey: contacts have no other name
          key={i}
          d={pathOf(each, written)}
          strokeDasharray={tieDashes(surenessOf(each.contact))}
          strokeWidth={
            each.contact.is_erosional || surenessOf(each.contact) === 'possible' ? LINE.bold : undefined
          }
        />
      ))}
    </g>
  );
}

/** Question marks nearer than this say one thing, points. */
const QUERIES_APART = 15;
const QUERY = { weight: 600, size: 9 } as const;

export interface PlacedQuery {
  x: number;
  y: number;
  box: Rect;
}

/** Question marks where nobody knows, each at its place or as near as something written leaves it. */
export function placedQueries(
  section: SectionResult | null,
  paper: SectionPaper | null,
  ground: Ground,
  right: number,
  taken: readonly Rect[],
): PlacedQuery[] {
  if (section === null || paper === null) return [];
  const boxes = [...taken];
  const placed: PlacedQuery[] = [];
  const half = textWidth('?', QUERY) / 2 + 0.6;
  for (const { along_m, elevation_m } of section.queries) {
    if (along_m < paper.from_m || along_m > paper.to_m) continue;
    const [x, y] = [paper.x(along_m), paper.y(elevation_m)];
    const isSaid = placed.some((other) => square(other.x - x) + square(other.y - y) < square(QUERIES_APART));
    const query = isSaid
      ? undefined
      : TRIES.map(([dx, dy]) => ({
          x: x + dx,
          y: y + dy,
          box: { x1: x + dx - half, x2: x + dx + half, y1: y + dy - 3.6, y2: y + dy + 5 },
        })).find(
          ({ box }) =>
            box.x2 <= right && !touchesGround(ground, box) && !boxes.some((other) => overlaps(box, other)),
        );
    if (query === undefined) continue;
    boxes.push(query.box);
    placed.push(query);
  }
  return placed;
}

const TRIES: readonly (readonly [number, number])[] = [
  [0, 0],
  [0, 6],
  [0, -6],
  [6, 0],
  [-6, 0],
  [8, 8],
  [-8, 8],
];

export function Queries({ placed }: { placed: readonly PlacedQuery[] }) {
  if (placed.length === 0) return null;
  return (
    <g id="section-queries">
      {placed.map(({ x, y }) => (
        <Text key={`${x} ${y}`} x={x} y={y + 3.2} anchor="middle" {...QUERY} halo>
          ?
        </Text>
      ))}
    </g>
  );
}
