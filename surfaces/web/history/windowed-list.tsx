/** A long list that scrolls with the page: only what is in view is drawn, whatever its length. */
import { type ReactNode, useEffect, useLayoutEffect, useMemo, useRef, useState } from 'react';
import './windowed-list.css';

export interface Item {
  readonly key: string;
  /** px; what is drawn may be higher only where it is the open one. */
  readonly height: number;
}

/** Drawn beyond the view at either end, px: what a quick flick reaches before the next frame. */
const BEYOND = 600;

export function WindowedList<I extends Item>({
  label,
  items,
  open,
  draw,
}: {
  label: string;
  items: readonly I[];
  /** Key of the one that is as high as what is in it. */
  open: string | null;
  draw: (item: I) => ReactNode;
}) {
  const list = useRef<HTMLUListElement>(null);
  const [opened, setOpened] = useState<{ key: string; height: number } | null>(null);
  const heightOfOpen = opened !== null && opened.key === open ? opened.height : null;
  const tops = useMemo(() => topsOf(items, open, heightOfOpen), [items, open, heightOfOpen]);
  const [from, to] = useView(list);
  const first = Math.max(0, placeAt(tops, from - BEYOND));
  const last = Math.min(items.length - 1, placeAt(tops, to + BEYOND));
  return (
    <ul ref={list} className="windowed" aria-label={label} style={{ height: tops.at(-1) ?? 0 }}>
      {items.slice(first, last + 1).map((item, i) => (
        <li
          key={item.key}
          aria-setsize={items.length}
          aria-posinset={first + i + 1}
          style={{ top: tops[first + i] ?? 0, ...(item.key === open ? {} : { height: item.height }) }}
        >
          {item.key === open ? (
            <Measured onHeight={(height) => setOpened({ key: item.key, height })}>{draw(item)}</Measured>
          ) : (
            draw(item)
          )}
        </li>
      ))}
    </ul>
  );
}

/** Top of each item, and the end of the last, px. */
function topsOf(items: readonly Item[], open: string | null, heightOfOpen: number | null): number[] {
  const tops = [0];
  for (const { key, height } of items)
    tops.push(tops.at(-1)! + (key === open && heightOfOpen !== null ? heightOfOpen : height));
  return tops;
}

/** The item that lies at a height; −1 above the first. */
function placeAt(tops: readonly number[], height: number): number {
  let [low, high] = [0, tops.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (tops[middle]! <= height) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}

/** What of the list the window shows, px from its top. */
function useView(list: { readonly current: HTMLElement | null }): readonly [from: number, to: number] {
  const [view, setView] = useState<readonly [number, number]>([0, innerHeight]);
  useEffect(() => {
    const look = (): void => {
      const from = -(list.current?.getBoundingClientRect().top ?? 0);
      // A new view by steps: between them nothing is drawn again.
      const step = Math.floor(from / STEP) * STEP;
      setView((before) =>
        before[0] === step && before[1] === step + STEP + innerHeight
          ? before
          : [step, step + STEP + innerHeight],
      );
    };
    look();
    addEventListener('scroll', look, { passive: true });
    addEventListener('resize', look);
    return () => {
      removeEventListener('scroll', look);
      removeEventListener('resize', look);
    };
  }, [list]);
  return view;
}

const STEP = 200;

function Measured({ onHeight, children }: { onHeight: (px: number) => void; children: ReactNode }) {
  const element = useRef<HTMLDivElement>(null);
  const heard = useRef(onHeight);
  heard.current = onHeight;
  useLayoutEffect(() => {
    const measured = element.current!;
    const observer = new ResizeObserver(() => heard.current(measured.offsetHeight));
    observer.observe(measured);
    return () => observer.disconnect();
  }, []);
  return <div ref={element}>{children}</div>;
}
