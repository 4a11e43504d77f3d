/** The page with its flags beside it, each at the height of its section. */
import { useEffect, useRef, useState } from 'react';
import { PaperPage } from '../../parts/index.ts';
import { FlagNote } from './flag-note.tsx';
import type { Flag } from './flags.ts';
import './sheet.css';

export function Sheet({
  html,
  theme,
  flags,
}: {
  html: string;
  theme: 'day' | 'night';
  flags: readonly Flag[];
}) {
  const [tops, setTops] = useState<ReadonlyMap<string, number>>(new Map());
  const list = useRef<HTMLUListElement>(null);
  const [places, setPlaces] = useState<readonly number[]>([]);
  useEffect(() => {
    const items = [...(list.current?.children ?? [])];
    // In the order of the page, none over another.
    let free = 0;
    setPlaces(
      items.map((item, i) => {
        const at = Math.max(free, tops.get(flags[i]!.section) ?? 0);
        free = at + item.getBoundingClientRect().height + 6;
        return at;
      }),
    );
  }, [tops, flags]);
  return (
    <div className="sheet-and-margin">
      <PaperPage html={html} theme={theme} onSections={setTops} />
      <ul ref={list} className="margin" aria-label="Missing or not to be trusted">
        {flags.map((flag, i) => (
          <li key={flag.section + flag.words} style={{ top: places[i] ?? 0 }} className={flag.kind}>
            <FlagNote flag={flag} />
          </li>
        ))}
      </ul>
    </div>
  );
}
