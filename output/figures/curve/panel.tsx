/** What both panels have: the ruling of time, and the chosen interval laid under. */
import { box, multiples, type Rect, useInk, vertical } from '@stillstand/output/drawing';
import type { Ages } from './bands.tsx';
import type { Panels } from './panels.ts';

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
  const { older_cal_bp, younger_cal_bp } = chosen;
  return <path d={box(p.time(older_cal_bp), frame.y1, p.time(younger_cal_bp), frame.y2)} fill={ink.leaf} />;
}

export function timeLines(
  p: Panels,
  step: PanelProps['step'],
  frame: Rect,
): { at: number[]; d: (age: number) => string } {
  const at = multiples(p.time.to, p.time.from, step.step * step.every);
  return { at, d: (age) => vertical(p.time(age), frame.y1, frame.y2) };
}
