import { type RefCallback, useCallback, useState } from 'react';

/** The width an element is given, px, for drawings that fit it without shrinking their words. */
export function useWidth(initial: number): [RefCallback<HTMLElement>, number] {
  const [width, setWidth] = useState(initial);
  const ref = useCallback((element: HTMLElement | null) => {
    if (element === null) return;
    const observer = new ResizeObserver(([entry]) => {
      if (entry !== undefined) setWidth(Math.max(200, Math.round(entry.contentRect.width)));
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return [ref, width];
}
