import type { ReactNode } from 'react';
import './plate.css';
import { Mark } from './mark.tsx';

/** Shape first, then word, then colour. `danger` is read out at once. */
export function Plate({
  state = 'normal',
  word,
  children,
}: {
  state?: 'normal' | 'caution' | 'danger';
  word?: string;
  children?: ReactNode;
}) {
  const mark = state === 'danger' ? 'stop' : state === 'caution' ? 'close' : null;
  return (
    <div className={`plate ${state}`} role={state === 'danger' ? 'alert' : undefined}>
      {word === undefined ? null : (
        <p className="word">
          {mark === null ? null : <Mark name={mark} size={24} />}
          {word}
        </p>
      )}
      {children}
    </div>
  );
}
