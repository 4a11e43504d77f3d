/** What both panels have: the ruling of time, and the chosen interval laid under. */
import { box, multiples, type Rect, useInk, vertical } from '@stillstand/output/drawing';
import type { Ages } from './bands.tsx';
import { across, type Panels } from './panels.ts';

/** Of a mark before a rate or a name, points. */
export const MARK_ROOM = 10;

export interface PanelProps {
  panels: Panels;
  converged: boolean;
  step: { step: number; every: number };
  ages: Ages | null;
  id: string;
}

export type Interval = { older_cal_bp: number; younger_cal_bp: number };

/** The chosen interval, laid under a panel. */
export function Chosen({
  panels: p,
  frame,
  chosen,
}: {
  panels: Panels;
  frame: Rect;
  chosen: Interval | null;
}) {
  const ink = useInk();
  if (chosen === null) return null;
  const { x1, x2 } = across(p.time, chosen.older_cal_bp, chosen.younger_cal_bp);
  return <path d={box(x1, frame.y1, x2, frame.y2)} fill={ink.leaf} />;
}

export function timeLines(
  p: Panels,
  step: PanelProps['step'],
  frame: Rect,
): { at: number[]; d: (value: number) => string } {
  const { scale } = p.timeAxis;
  const ends = [scale.from, scale.to];
  const at = multiples(Math.min(...ends), Math.max(...ends), step.step * step.every);
  return { at, d: (value) => vertical(scale(value), frame.y1, frame.y2) };
}
