import type { ComponentProps, ReactNode } from 'react';
import './button.css';
import { Mark, type MarkName } from './mark.tsx';

interface ButtonProps extends ComponentProps<'button'> {
  /** `main`: the one thing to do here. `bare`: without an edge, beside others. `danger`: takes something away. */
  kind?: 'plain' | 'main' | 'bare' | 'danger';
  mark?: MarkName;
}

/** Verb and noun: "Add a site". With a mark alone, give `aria-label`. */
export function Button({ kind = 'plain', mark, className, children, ...rest }: ButtonProps) {
  return (
    <button type="button" {...rest} className={['button', kind, className].filter(Boolean).join(' ')}>
      {mark === undefined ? null : <Mark name={mark} size={kind === 'main' ? 26 : 22} />}
      {children}
    </button>
  );
}

/** The main action of a screen, held in reach of a wet glove: what it does, its caution, what follows. */
export function ActionBar({
  mark,
  does,
  says,
  then,
  ...rest
}: Omit<ComponentProps<'button'>, 'children' | 'className'> & {
  mark: MarkName;
  does: string;
  /** The caution that stands on it. */
  says?: ReactNode;
  then?: ReactNode;
}) {
  return (
    <button type="button" {...rest} className="action-bar">
      <Mark name={mark} size={40} />
      <span>
        <span className="does">{does}</span>
        {says === undefined ? null : (
          <>
            <br />
            <span className="says">{says}</span>
          </>
        )}
      </span>
      {then === undefined ? null : <span className="then">{then}</span>}
    </button>
  );
}
