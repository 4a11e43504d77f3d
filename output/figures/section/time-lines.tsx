/** Surfaces of one age across a section: beads on a thread, the age set into it. */
import type { SectionResult } from '@stillstand/campaign/results';
import {
  dot,
  LINE,
  overlaps,
  polyline,
  type Rect,
  Text,
  textWidth,
  useInk,
} from '@stillstand/output/drawing';
import { years } from '@stillstand/output/words';
import { lengthOf, pointAlong } from './contacts.tsx';
import { type Ground, touchesGround } from './ground.tsx';
import { holesAlong, lineOnPaper, type Paper, type SectionPaper } from './on-paper.ts';
import { linesOutside } from './ties.tsx';

const WORDS = { weight: 600 } as const;
/** Between beads, and across one, points. */
const [APART, BEAD] = [11, 2.1];

export interface PlacedTimeLine {
  line: Paper[];
  words: { text: string; x: number; y: number; box: Rect } | null;
}

/** Each with its age where that runs over nothing written. */
export function placedTimeLines(
  section: SectionResult | null,
  paper: SectionPaper | null,
  ground: Ground,
  taken: readonly Rect[],
): PlacedTimeLine[] {
  if (section === null || paper === null) return [];
  const along = holesAlong(section);
  const boxes = [...taken];
  return section.time_lines.flatMap(({ age_cal_bp, line }): PlacedTimeLine[] => {
    const drawn = lineOnPaper(line, paper, along);
    if (drawn.length < 2) return [];
    const text = years(age_cal_bp);
    const half = textWidth(text, WORDS) / 2 + 1.5;
    const length = lengthOf(drawn);
    for (const share of [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9]) {
      const [x, y] = pointAlong(drawn, share * length);
      const box = { x1: x - half, x2: x + half, y1: y - 4.5, y2: y + 4.5 };
      if (length < 3 * half || touchesGround(ground, box)) continue;
      if (boxes.some((other) => overlaps(box, other))) continue;
      boxes.push(box);
      return [{ line: drawn, words: { text, x, y, box } }];
    }
    return [{ line: drawn, words: null }];
  });
}

export function TimeLines({
  placed,
  written,
}: {
  placed: readonly PlacedTimeLine[];
  written: readonly Rect[];
}) {
  const ink = useInk();
  if (placed.length === 0) return null;
  const parts = placed.flatMap(({ line }) => linesOutside(line, written));
  const thread = parts.map(polyline).join('');
  return (
    <g id="section-time" fill="none" strokeLinecap="round" strokeLinejoin="round">
      <path d={thread} stroke={ink.paper} strokeWidth={2.4} />
      <path d={thread} stroke={ink.ink} strokeWidth={LINE.hair} />
      <path d={parts.map(beads).join('')} stroke={ink.paper} strokeWidth={BEAD + 1} />
      <path d={parts.map(beads).join('')} stroke={ink.ink} strokeWidth={BEAD} />
      {placed.map(({ words }) =>
        words === null ? null : (
          <Text key={`${words.x} ${words.y}`} x={words.x} y={words.y + 2.4} anchor="middle" {...WORDS} halo>
            {words.text}
          </Text>
        ),
      )}
    </g>
  );
}

export function beads(line: readonly Paper[]): string {
  const length = lengthOf(line);
  const count = Math.floor(length / APART);
  const first = (length - count * APART) / 2;
  return Array.from({ length: count + 1 }, (_, i) => dot(...pointAlong(line, first + i * APART))).join('');
}
