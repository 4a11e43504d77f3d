import { type RefCallback, useCallback, useState } from 'react';
import type { Pad } from './view.ts';

/** The room an element is given, screen pixels; nothing until it is laid out. */
export function usePadSize(): [RefCallback<HTMLElement>, Pad] {
  const [pad, setPad] = useState<Pad>({ width: 0, height: 0 });
  const ref = useCallback((element: HTMLElement | null) => {
    if (element === null) return;
    const observer = new ResizeObserver(([entry]) => {
      if (entry === undefined) return;
      const { width, height } = entry.contentRect;
      setPad({ width: Math.floor(width), height: Math.floor(height) });
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return [ref, pad];
}
