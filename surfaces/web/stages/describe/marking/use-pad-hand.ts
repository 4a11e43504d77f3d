/** Fingers and pointers on the pad: a tap places a mark, a drag moves a mark, a side or the view, two fingers or the wheel zoom. */
import { type RefObject, useEffect, useRef, useState } from 'react';
import type { MarkIndex } from './marking.ts';
import type { Side } from './sides.ts';
import type { Spot } from './view.ts';

/** What a pointer can take hold of. */
export type Grip = { kind: 'mark'; index: MarkIndex } | { kind: 'side'; side: Side };

/** Screen pixels: a fingertip around what it takes hold of, and how far it strays in a tap. */
const NEAR = 28;
const STRAY = 7;

export interface PadHand {
  /** The mark that is being dragged. */
  held: MarkIndex | null;
  onPointerDown: (event: React.PointerEvent) => void;
  onPointerMove: (event: React.PointerEvent) => void;
  onPointerUp: (event: React.PointerEvent) => void;
  onPointerCancel: (event: React.PointerEvent) => void;
}

type Hold =
  // `off`: from the finger to what it holds, so that this does not jump under it.
  | { kind: 'grip'; grip: Grip; off: Spot }
  | { kind: 'view'; last: Spot; isTap: boolean }
  | { kind: 'pinch'; middle: Spot; apart: number };

export function usePadHand(
  pad: RefObject<SVGSVGElement | null>,
  {
    grips,
    onTap,
    onDrag,
    onZoom,
  }: {
    grips: readonly { grip: Grip; at: Spot }[];
    onTap: (at: Spot) => void;
    onDrag: (grip: Grip, to: Spot) => void;
    /** Larger by a factor, what was under one spot then under another. */
    onZoom: (by: number, from: Spot, to: Spot) => void;
  },
): PadHand {
  const fingers = useRef(new Map<number, Spot>());
  const hold = useRef<Hold | null>(null);
  const [held, setHeld] = useState<MarkIndex | null>(null);
  const spot = (event: At): Spot => spotIn(pad.current!, event);
  const take = (next: Hold | null): void => {
    hold.current = next;
    setHeld(next?.kind === 'grip' && next.grip.kind === 'mark' ? next.grip.index : null);
  };

  // React's wheel is passive: the page would scroll.
  const zoom = useRef(onZoom);
  zoom.current = onZoom;
  useEffect(() => {
    const element = pad.current;
    const wheel = (event: WheelEvent): void => {
      event.preventDefault();
      const at = spotIn(element!, event);
      zoom.current(2 ** (-event.deltaY / 300), at, at);
    };
    element?.addEventListener('wheel', wheel, { passive: false });
    return () => element?.removeEventListener('wheel', wheel);
  }, [pad]);

  const release = (event: React.PointerEvent): void => {
    // Of a finger that holds nothing the others know nothing.
    if (!fingers.current.delete(event.pointerId)) return;
    const [rest] = fingers.current.values();
    // The finger that stays after a pinch moves the view; it taps nothing.
    take(rest === undefined ? null : { kind: 'view', last: rest, isTap: false });
  };
  return {
    held,
    onPointerDown: (event) => {
      if (event.button !== 0 || fingers.current.size === 2) return;
      const at = spot(event);
      fingers.current.set(event.pointerId, at);
      pad.current?.setPointerCapture(event.pointerId);
      const [first, second] = [...fingers.current.values()];
      if (second !== undefined) take({ kind: 'pinch', ...pinchOf(first!, second) });
      else {
        const near = nearest(grips, at);
        take(
          near === null
            ? { kind: 'view', last: at, isTap: true }
            : { kind: 'grip', grip: near.grip, off: { x: near.at.x - at.x, y: near.at.y - at.y } },
        );
      }
    },
    onPointerMove: (event) => {
      if (!fingers.current.has(event.pointerId)) return;
      const at = spot(event);
      fingers.current.set(event.pointerId, at);
      const now = hold.current;
      if (now?.kind === 'grip') onDrag(now.grip, { x: at.x + now.off.x, y: at.y + now.off.y });
      else if (now?.kind === 'view') {
        if (now.isTap && Math.hypot(at.x - now.last.x, at.y - now.last.y) < STRAY) return;
        onZoom(1, now.last, at);
        hold.current = { kind: 'view', last: at, isTap: false };
      } else if (now?.kind === 'pinch') {
        const [first, second] = [...fingers.current.values()];
        const next = pinchOf(first!, second!);
        onZoom(next.apart / now.apart, now.middle, next.middle);
        hold.current = { kind: 'pinch', ...next };
      }
    },
    onPointerUp: (event) => {
      if (!fingers.current.has(event.pointerId)) return;
      const now = hold.current;
      if (now?.kind === 'view' && now.isTap) onTap(now.last);
      release(event);
    },
    onPointerCancel: release,
  };
}

interface At {
  clientX: number;
  clientY: number;
}

function spotIn(pad: Element, { clientX, clientY }: At): Spot {
  const box = pad.getBoundingClientRect();
  return { x: clientX - box.left, y: clientY - box.top };
}

function nearest<T extends { at: Spot }>(grips: readonly T[], to: Spot): T | null {
  const off = ({ at }: T): number => Math.hypot(at.x - to.x, at.y - to.y);
  const [best] = grips.filter((grip) => off(grip) <= NEAR).sort((a, b) => off(a) - off(b));
  return best ?? null;
}

const pinchOf = (a: Spot, b: Spot): { middle: Spot; apart: number } => ({
  middle: { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 },
  apart: Math.max(1, Math.hypot(a.x - b.x, a.y - b.y)),
});
