/** The call ashore that is due: said from 15 minutes before, more loudly when overdue, made by one press. */

import { type CallIn, callInNow, callWords } from '@stillstand/campaign/holes';
import { useEffect, useState } from 'react';
import { t, translated } from '../language/index.ts';
import { Button, Mark } from '../parts/index.ts';
import { type Store, timeWithOffset, today } from '../store/index.ts';
import { asTyped } from './as-typed.ts';
import './call-in.css';

type CallStore = Pick<Store, 'rows' | 'document' | 'addReading' | 'readOnly'>;

/** The call due next, drawn again as the minutes pass. */
export function useCallIn(store: CallStore): CallIn | null {
  const [now_ms, setNow] = useState(Date.now);
  useEffect(() => {
    const timer = setInterval(() => setNow(Date.now()), 5_000);
    return () => clearInterval(timer);
  }, []);
  return callInNow(asTyped(store), now_ms);
}

const clock = (iso: string): string => iso.slice(11, 16);

/** Of the day, not of a hole: whoever is ashore waits for people. */
function called(store: CallStore, with_whom: string, due: string | null): void {
  store.addReading('events', {
    kind: 'call_in',
    date: today(),
    with_whom,
    ...(due === null ? { text: 'last call' } : { due }),
  });
}

/** Only while it is soon due or overdue. */
export function CallInPlate({ store }: { store: CallStore }) {
  const call = useCallIn(store);
  if (call === null || call.level === 'later') return null;
  const who = call.with_whom === '' ? t`your contact` : call.with_whom;
  const isDanger = call.level === 'danger';
  return (
    <section
      className="call-in"
      data-level={call.level}
      aria-label={t`Call that is due`}
      role={call.level === 'soon' ? undefined : 'alert'}
    >
      <p>
        <Mark name={isDanger ? 'stop' : 'close'} size={24} />
        <strong>
          {call.level === 'soon'
            ? t`Call ${who} by ${clock(call.due)}`
            : t`Call-in ${translated(callWords(call))}: call ${who} now`}
        </strong>
        <span>
          {call.level === 'soon'
            ? translated(callWords(call))
            : t`It was due at ${clock(call.due)}.${isDanger ? t` They could be calling for help already.` : ''}`}
        </span>
      </p>
      <CalledIn store={store} call={call} />
    </section>
  );
}

function CalledIn({ store, call }: { store: CallStore; call: CallIn }) {
  if (store.readOnly) return null;
  const next = timeWithOffset(new Date(call.next_ms));
  return (
    <Button mark="tick" onClick={() => called(store, call.with_whom, next)}>
      {t`Called in, next ${clock(next)}`}
    </Button>
  );
}

/** In the plan of the day: begun here, and ended here when all are off the site. */
export function CallInPanel({ store }: { store: CallStore }) {
  const call = useCallIn(store);
  const [who, setWho] = useState('');
  const [at, setAt] = useState('');
  if (call !== null)
    return (
      <div className="call-in-panel">
        <p>{t`Next call ${clock(call.due)}${call.with_whom === '' ? '' : t` with ${call.with_whom}`}, ${translated(callWords(call))}.`}</p>
        <CalledIn store={store} call={call} />
        {store.readOnly ? null : (
          <Button
            onClick={() => called(store, call.with_whom, null)}
          >{t`End call-ins: all off the site`}</Button>
        )}
      </div>
    );
  if (store.readOnly) return null;
  return (
    <form
      className="call-in-panel"
      onSubmit={(event) => {
        event.preventDefault();
        called(store, who.trim(), dueAt(at));
        setAt('');
      }}
    >
      <label>
        <span>{t`Call-in with`}</span>
        <input
          required
          title={t`Who expects the call, and how they are called: for lone work, or with a contact ashore`}
          value={who}
          onChange={(event) => setWho(event.target.value)}
        />
      </label>
      <label>
        <span>{t`next call at`}</span>
        <input
          required
          type="time"
          title={t`When they expect the next call, by this device’s clock; every hour is common practice, no source`}
          value={at}
          onChange={(event) => setAt(event.target.value)}
        />
      </label>
      <Button type="submit">{t`Start call-ins`}</Button>
    </form>
  );
}

/** A time of day that is still to come: today, else tomorrow. */
function dueAt(typed: string): string {
  const [hours = 0, minutes = 0] = typed.split(':').map(Number);
  const due = new Date();
  due.setHours(hours, minutes, 0, 0);
  if (due.getTime() <= Date.now()) due.setDate(due.getDate() + 1);
  return timeWithOffset(due);
}
