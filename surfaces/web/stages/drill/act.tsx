/** The one action at the foot of the screen: it records what is typed, else does what usually comes next. */

import { useEffect, useState } from 'react';
import { t, translated } from '../../language/index.ts';
import { ActionBar } from '../../parts/index.ts';
import { missing } from './forms/draft.ts';
import { LOAD } from './next/action.ts';
import { MARK_OF } from './next/action-words.ts';
import { openSaid } from './next/safety-first.ts';
import type { Opened } from './opened.ts';
import type { Shown } from './shown.ts';
import './act.css';

interface ActProps {
  shown: Shown;
  opened: Opened;
  ended: boolean;
  readOnly: boolean;
}

export function Act({ shown, opened, ended, readOnly }: ActProps) {
  const { next, dangers } = shown;
  const { below } = opened;
  return (
    <div
      className="act"
      ref={measured}
      data-urgent={next.urgent && opened.entry === null}
      data-hazard={dangers.length > 0}
    >
      <Action {...{ shown, opened, ended, readOnly }} />
      <button
        type="button"
        className="else"
        aria-expanded={below?.kind === 'else'}
        disabled={readOnly}
        onClick={() => opened.turn('else')}
      >{t`Other event`}</button>
    </div>
  );
}

/** What is held above the action knows how high it is: its words are never cut to fit. */
function measured(act: HTMLElement | null): (() => void) | undefined {
  const drill = act?.parentElement;
  if (act === null || drill == null) return undefined;
  const watch = new ResizeObserver(() => drill.style.setProperty('--act', `${act.offsetHeight}px`));
  watch.observe(act);
  return () => watch.disconnect();
}

function Action({ shown, opened, ended, readOnly }: ActProps) {
  const { checks, dangers, isNew, next } = shown;
  const { below, entry, lacks, cable, cableTyped, leave, press, save } = opened;
  const isSettled = useSettled(
    entry !== null
      ? `form ${entry.form.name} ${entry.form.title}`
      : cableTyped
        ? 'cable'
        : `${next.name} ${next.title}`,
  );
  if (entry !== null)
    return (
      <ActionBar
        mark={entry.kind === 'amend' ? 'amended' : 'tick'}
        does={entry.form.verb}
        says={entry.form.caution ?? undefined}
        then={
          lacks !== '' ? (
            t`needs ${lacks}`
          ) : entry.kind === 'amend' && entry.isUnchanged ? (
            <b role="alert">{t`Nothing is changed. Type the right value, or close the form.`}</b>
          ) : undefined
        }
        disabled={lacks !== '' || readOnly || !isSettled}
        onClick={save}
      />
    );
  if (below?.kind === 'check')
    return (
      <ActionBar
        mark="tick"
        does={t`Close site check`}
        says={dangers[0] === undefined ? undefined : `${translated(dangers[0].hazard)}.`}
        then={openShort(openSaid(checks)) ?? t`all answered`}
        onClick={leave}
      />
    );
  if (cable !== null && cableTyped) {
    const isWhole = missing(cable.form, cable.draft) === '';
    return (
      <ActionBar
        mark="tick"
        does={t`Record the cable`}
        says={LOAD}
        then={isWhole ? t`then read on, or lift` : t`needs a length`}
        disabled={!isWhole || readOnly}
        onClick={save}
      />
    );
  }
  const recordsAtOnce = next.name === 'tighten' || next.name === 'lift';
  // what the site check left open stays on the main action until something is in the ground
  const unanswered = ended || next.name === 'check' ? null : openSaid(checks);
  return (
    <ActionBar
      mark={next.held === null ? MARK_OF[next.name] : 'stop'}
      does={next.title}
      says={next.caution ?? undefined}
      then={
        <>
          {next.held === null ? next.why : t`no, ${next.why}`}
          <br />
          {isNew && unanswered !== null ? openShort(unanswered) : next.then}
        </>
      }
      disabled={readOnly || (recordsAtOnce && !isSettled)}
      onClick={() => press(next.name)}
    />
  );
}

/** A second tap of a cold hand must not do what has only just come under it. */
const SETTLE_MS = 500;

/** False for half a second after `action` has become another one. */
function useSettled(action: string): boolean {
  const [settled, setSettled] = useState('');
  useEffect(() => {
    const timer = setTimeout(() => setSettled(action), SETTLE_MS);
    return () => clearTimeout(timer);
  }, [action]);
  return settled === action;
}

/** The first two open questions by name, and how many more: what the bar has room for. */
function openShort(open: string | null): string | null {
  if (open === null) return null;
  const names = open.split('; ');
  const more = names.length - 2;
  return t`not answered: ${names.slice(0, 2).join('; ')}${more > 0 ? t`; ${more} more` : ''}`;
}
