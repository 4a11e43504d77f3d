/**
 * One length as it is typed, with the metres beside it and what is doubtful about it below. The text stays what was
 * typed; no doubt keeps anybody from entering it.
 */

import type { ReactNode } from 'react';
import { t } from '../../language/index.ts';
import { faultWords, readTyping, type Typing } from './keypad-typing.ts';
import './length-entry.css';
import { useWholeSelected } from './whole-selected.ts';

interface LengthEntryProps {
  id: string;
  label: string;
  typing: Typing;
  /** Nothing was typed: this stands there, taken from what the string should be. */
  assumed: boolean;
  focused: boolean;
  /** Its value is selected whole. */
  isWhole?: boolean;
  needed: boolean;
  doubt: { level: 'caution' | 'danger'; words: string } | null;
  /** The same number in the unit that was probably meant: asked before any other doubt, changed by one press. */
  meant?: { text: string; metres: number; onTake: () => void } | null;
  /** Stood there before, where a reading is amended. */
  was?: string;
  onFocus: () => void;
  /** Pressed, in hand already or not. */
  onPress: () => void;
  onText: (text: string) => void;
  onEnter: () => void;
  /** Turns it below zero and back; not given where it cannot be. */
  onSign?: () => void;
}

export function LengthEntry(props: LengthEntryProps) {
  const { id, label, typing, assumed, focused, needed, doubt, was } = props;
  const input = useWholeSelected(focused, props.isWhole ?? false, typing.text);
  const read = readTyping(typing);
  const metres = read?.ok ? read.metres : null;
  const wrong = read !== null && !read.ok ? read : null;
  const unitless = typing.text !== '' && /\d$/.test(typing.text);
  return (
    <Row
      focused={focused}
      doubt={wrong !== null ? { level: 'caution', words: faultWords(wrong) } : isAsked(props) ? null : doubt}
      id={id}
      asks={props.meant ?? null}
    >
      <label htmlFor={id}>
        {label}
        {needed ? null : <small> {t`if read`}</small>}
      </label>
      {was === undefined || was === '' ? null : <s className="was">{was}</s>}
      <span className="typed">
        {focused && props.onSign !== undefined ? (
          <button
            type="button"
            className="sign"
            tabIndex={-1}
            aria-label={t`plus or minus`}
            // the field keeps the focus and its caret
            onPointerDown={(event) => event.preventDefault()}
            onClick={props.onSign}
          >
            ±
          </button>
        ) : null}
        <input
          ref={input}
          id={id}
          inputMode="none"
          autoComplete="off"
          spellCheck={false}
          value={typing.text}
          className={assumed ? 'assumed' : undefined}
          data-whole={props.isWhole === true && typing.text !== ''}
          aria-describedby={`${id}-meant ${id}-says`}
          aria-invalid={wrong !== null}
          onFocus={props.onFocus}
          // The press that took it in hand sets the caret after the focus.
          onClick={props.onPress}
          // a comma is how many people write the point; it is shown as what it is taken for
          onChange={(event) => props.onText(event.target.value.replace(',', '.'))}
          onKeyDown={(event) => {
            if (event.key === 'Enter') {
              event.preventDefault();
              props.onEnter();
            }
          }}
        />
        {unitless ? <span className="unit">{/ft/.test(typing.text) ? 'in' : typing.unit}</span> : null}
      </span>
      <output className="metres" htmlFor={id}>
        {metres === null
          ? ''
          : /^-?[\d.]+( m)?$/.test(typing.text) && typing.unit === 'm'
            ? ''
            : `${said(metres)} m`}
        {assumed ? <em> {t`assumed`}</em> : null}
      </output>
    </Row>
  );
}

/** A question about the unit goes before a caution; a danger is said whatever the unit. */
const isAsked = ({ meant, doubt }: LengthEntryProps): boolean => meant != null && doubt?.level !== 'danger';

/** True minus, to the millimetre where a tape says so. */
const said = (m: number): string => `${m < 0 ? '−' : ''}${Math.abs(m).toFixed(3)}`;

function Row({
  focused,
  doubt,
  id,
  asks,
  children,
}: {
  focused: boolean;
  doubt: LengthEntryProps['doubt'];
  asks: NonNullable<LengthEntryProps['meant']> | null;
  id: string;
  children: ReactNode;
}) {
  return (
    <div className="length-entry" data-focused={focused} data-doubt={doubt?.level}>
      {children}
      {asks === null ? null : (
        <button
          type="button"
          id={`${id}-meant`}
          className="meant"
          // the field keeps the focus and its caret
          onPointerDown={(event) => event.preventDefault()}
          onClick={asks.onTake}
        >
          <span>
            {t`Did you mean`} <strong>{asks.text}</strong>?
          </span>
          {asks.text.endsWith(' m') ? null : <small>{said(asks.metres)} m</small>}
        </button>
      )}
      <p id={`${id}-says`} className="says" role={doubt?.level === 'danger' ? 'alert' : undefined}>
        {doubt === null ? '' : doubt.words}
      </p>
    </div>
  );
}
