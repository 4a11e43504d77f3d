/**
 * A form being filled: its fields in order on the left, and on the right whatever the field in hand needs, keys,
 * choices or ready words. Enter goes on to the next field and from the last one records.
 */

import { type HoleState, readOn } from '@stillstand/campaign/holes';
import { useEffect, useRef, useState } from 'react';
import { flushSync } from 'react-dom';
import { t } from '../../../language/index.ts';
import {
  Button,
  completeLength,
  emptied,
  Keypad,
  LengthEntry,
  type PadKey,
  pressKey,
  readTyping,
  type Typing,
} from '../../../parts/index.ts';
import { Choices, ReadyWords } from './choices.tsx';
import { type Draft, typingOf } from './draft.ts';
import type { EntryForm, Field } from './field.ts';
import { FieldRow } from './field-row.tsx';
import { bringInSight } from './in-sight.ts';
import { typedIn } from './kept.ts';
import { unitMeant } from './ordinary.ts';
import { doubtOf, labelDoubt, textDoubt } from './plausible.ts';
import { afterChoice, alongWith, assumedWith } from './ready.ts';
import './entry.css';

interface EntryProps {
  form: EntryForm;
  draft: Draft;
  /** The hole a reading is compared with: as it stood before the one that is amended. */
  now: HoleState;
  /** Beside the title, in the second voice. */
  note?: string;
  /** What stood in the reading before, where it is being amended. */
  was?: Readonly<Record<string, string>>;
  onDraft: (draft: Draft) => void;
  onEnter: () => void;
  onLeave: () => void;
  /** Clears what was typed; not given where the form is never left. */
  onClear?: () => void;
  /** It was cleared just now: the same press takes that back. */
  cleared?: boolean;
  /** Stands above the fields: the tape, a checklist, what is known. */
  above?: React.ReactNode;
  /** At the foot of the fields. */
  below?: React.ReactNode;
  /** Below the keys, on a phone below the fields: what must be read beside them. */
  aside?: React.ReactNode;
}

export function Entry(props: EntryProps) {
  const { form, draft, now, onDraft, onEnter } = props;
  const field = form.fields.find((f) => f.column === draft.at) ?? null;
  const lengths = Object.fromEntries(
    form.fields.flatMap((f) => {
      if (f.kind !== 'length') return [];
      const read = readTyping(typingOf(draft, f.column));
      return [[f.column, read?.ok ? read.metres : null]];
    }),
  );
  const beside = { lengths, cells: { ...form.fixed, ...draft.values } };
  const set = (column: string, value: string, more: Partial<Draft> = {}): void => {
    const untouched = new Set(more.untouched ?? draft.untouched);
    untouched.delete(column);
    const values = { ...draft.values, ...more.values, [column]: value };
    onDraft({ ...draft, isWhole: false, ...more, values, untouched });
  };
  const goOn = (): void => {
    const at = form.fields.findIndex((f) => f.column === draft.at);
    const next = form.fields.slice(at + 1).find((f) => f.needed && (draft.values[f.column] ?? '') === '');
    if (next !== undefined) take(next.column);
    else onEnter();
  };
  const take = (column: string): void => {
    if (draft.at !== column || !draft.isWhole) onDraft({ ...draft, at: column, isWhole: true });
  };
  // words are ready for it: the keyboard of the device opens only when it is asked for
  const [keyboard, setKeyboard] = useState<string | null>(null);
  const openKeyboard = (column: string): void => {
    flushSync(() => {
      setKeyboard(column);
      take(column);
    });
    const input = document.getElementById(`drill-${column}`);
    input?.blur();
    input?.focus({ preventScroll: true });
  };
  const press = (key: PadKey): void => {
    if (field === null) return;
    const typing = typingOf(draft, field.column);
    // an assumed value, or one the field was taken in hand with, is replaced, not appended to
    const isReplaced =
      (draft.untouched.has(field.column) && key !== 'delete') || (draft.isWhole && isPart(key));
    const fresh = isReplaced ? emptied(typing) : typing;
    const after = field.kind === 'number' ? numberKey(fresh, key) : pressKey(fresh, key);
    set(field.column, after.text, { units: { ...draft.units, [field.column]: after.unit } });
  };
  const leaf = useRef<HTMLElement>(null);
  useEffect(() => {
    void draft;
    if (leaf.current !== null) bringInSight(leaf.current);
  }, [draft]);
  return (
    <>
      <section className="entry" aria-label={form.title} ref={leaf}>
        <header>
          <h2>
            {form.title} {props.note === undefined || props.note === '' ? null : <span>{props.note}</span>}
          </h2>
          {props.onClear === undefined ? null : (
            <Button
              kind="bare"
              className="clear"
              disabled={props.cleared !== true && typedIn(form, draft) === null}
              onClick={props.onClear}
            >
              {props.cleared === true ? t`Undo clear` : t`Clear form`}
            </Button>
          )}
          <Button kind="bare" mark="cross" aria-label={t`Leave: ${form.title}`} onClick={props.onLeave} />
        </header>
        {props.above}
        <div className="entry-fields">
          {form.fields.map((f) => {
            const id = `drill-${f.column}`;
            const value = draft.values[f.column] ?? '';
            const focused = draft.at === f.column;
            if (f.kind === 'length') {
              const m = lengths[f.column] ?? null;
              const was = props.was?.[f.column];
              // what is offered was not typed in any unit
              const meant = draft.untouched.has(f.column)
                ? null
                : unitMeant(f.column, completeLength(typingOf(draft, f.column)), now, beside);
              return (
                <LengthEntry
                  key={f.column}
                  id={id}
                  label={f.label}
                  typing={typingOf(draft, f.column)}
                  assumed={draft.untouched.has(f.column)}
                  focused={focused}
                  needed={f.needed ?? false}
                  doubt={m === null ? null : doubtOf(f.column, m, now, lengths, form.fixed)}
                  meant={
                    meant && {
                      ...meant,
                      onTake: () =>
                        set(f.column, meant.text, {
                          at: f.column,
                          units: { ...draft.units, [f.column]: meant.unit },
                        }),
                    }
                  }
                  {...(was === undefined || was === value ? {} : { was })}
                  isWhole={focused && draft.isWhole === true}
                  onFocus={() => (focused ? undefined : take(f.column))}
                  onPress={() => take(f.column)}
                  onText={(text) => set(f.column, text)}
                  onEnter={goOn}
                  {...(f.signed === true ? { onSign: () => press('sign') } : {})}
                />
              );
            }
            return (
              <FieldRow
                key={f.column}
                field={f}
                id={id}
                value={value}
                focused={focused}
                was={props.was?.[f.column]}
                doubt={
                  (f.column === 'joint' && form.fixed['action'] === 'add'
                    ? labelDoubt(value, draft.values['item'] ?? '', now)
                    : null) ?? textDoubt(f, value, draft.values)
                }
                assumed={draft.untouched.has(f.column)}
                isWhole={focused && (draft.isWhole === true || draft.untouched.has(f.column))}
                {...(isReady(f) && keyboard !== f.column ? { onKeyboard: () => openKeyboard(f.column) } : {})}
                onFocus={() => (focused ? undefined : take(f.column))}
                onPress={() => take(f.column)}
                onText={(text) => set(f.column, text, { values: alongWith(f, text, draft) })}
                onEnter={goOn}
              />
            );
          })}
        </div>
        {props.below}
        {field === null ? null : <p className="help">{field.help}</p>}
        {props.aside}
      </section>
      <div className="pad">
        {field === null ? null : field.kind === 'length' || field.kind === 'number' ? (
          <Keypad
            unit={draft.units[field.column] ?? 'm'}
            units={field.kind === 'length'}
            fractions={
              field.kind === 'length' &&
              (now.units[readOn(field.column)] === 'ft' || /ft|in/.test(draft.values[field.column] ?? ''))
            }
            onKey={press}
          />
        ) : field.kind === 'choice' ? (
          <Choices
            field={field}
            value={draft.values[field.column] ?? ''}
            onChoose={(v) =>
              set(field.column, v, {
                ...afterChoice(form, draft, field.column, v),
                at: nextOf(form, field.column),
                isWhole: true,
              })
            }
          />
        ) : (
          <ReadyWords
            field={field}
            value={draft.values[field.column] ?? ''}
            onChoose={(v, also) => {
              const values = { ...draft.values, ...also };
              set(field.column, v, { values, untouched: assumedWith(form, draft, also) });
            }}
            {...(keyboard === field.column ? {} : { onType: () => openKeyboard(field.column) })}
          />
        )}
        {field === null ? null : <p className="help">{field.help}</p>}
        {props.aside}
      </div>
    </>
  );
}

/** Words stand ready for it. */
const isReady = (f: Field): boolean => f.kind === 'text' && (f.ready ?? []).length > 0;
/** Keys that are part of a number, not what is done to one. */
const isPart = (key: PadKey): boolean => /^[\d./]+$/.test(key);

/** After a choice the field behind it, so that one press is enough; the last one keeps the hand. */
function nextOf(form: EntryForm, column: string): string {
  const at = form.fields.findIndex((f) => f.column === column);
  return form.fields[at + 1]?.column ?? column;
}

function numberKey(typing: Typing, key: PadKey): Typing {
  const { text } = typing;
  if (key === 'delete') return { ...typing, text: text.slice(0, -1) };
  if (key === '.') return text.includes('.') ? typing : { ...typing, text: `${text === '' ? '0' : text}.` };
  return /^\d$/.test(key) ? { ...typing, text: text + key } : typing;
}
