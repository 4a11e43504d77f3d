/** The width a place has on the page, followed as it changes. */
import { type RefObject, useLayoutEffect, useState } from 'react';

export function useWidth(place: RefObject<HTMLElement | null>): number {
  const [width, setWidth] = useState(0);
  useLayoutEffect(() => {
    const element = place.current;
    if (element === null) return;
    const measure = (): void => setWidth(Math.floor(element.getBoundingClientRect().width));
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    measure();
    return () => observer.disconnect();
  }, [place]);
  return width;
}
