/** Samples and cores after the hole: where each is, one chosen with its history, several chosen for one parcel. */
import { type Custody, custodyOf, custodyWords, overdueDays, thingKey } from '@stillstand/campaign/chain';
import type { Campaign } from '@stillstand/campaign/document';
import { useMemo, useState } from 'react';
import { useComputation } from '../../../compute/index.ts';
import { Button, counted, Field, Mark } from '../../../parts/index.ts';
import { useNavigate } from '../../../shell/index.ts';
import { today, useStore } from '../../../store/index.ts';
import { chosenFrom, isShown, SHOWN, type Shown } from './choosing.ts';
import { History } from './history.tsx';
import { NextEntry } from './next-entry.tsx';
import { type Found, ScanDialog } from './scan-dialog.tsx';
import './chain.css';

export interface Asked {
  hole: string;
  /** The sample to begin with. */
  sample: string | null;
  /** The run or push of the hole whose core to begin with. */
  run: string | null;
  /** Begins with the label before the camera. */
  isScanning: boolean;
}

export function ChainPage({ asked, onClose }: { asked: Asked; onClose: () => void }) {
  const { campaign } = useComputation();
  const navigate = useNavigate();
  const [isScanning, setScanning] = useState(asked.isScanning);
  const open = (found: Found): void => {
    setScanning(false);
    if (found.thing === null)
      navigate('Describe', found.planned.hole === null ? { view: 'chain' } : { hole: found.planned.hole });
    else
      navigate('Describe', {
        view: 'chain',
        ...(found.hole === null ? {} : { hole: found.hole }),
        ...(found.thing.kind === 'sample' ? { sample: found.thing.sample } : { run: found.thing.run }),
      });
  };
  return (
    <div className="chain-page">
      {isScanning && campaign !== null ? (
        <ScanDialog campaign={campaign} onFound={open} onClose={() => setScanning(false)} />
      ) : null}
      <header>
        <h2>Samples and cores</h2>
        <p className="acts">
          <Button mark="photo" disabled={campaign === null} onClick={() => setScanning(true)}>
            Scan a label
          </Button>
          <Button kind="bare" mark="cross" aria-label="Leave samples and cores" onClick={onClose} />
        </p>
      </header>
      {campaign === null ? (
        <p role="status">Reading the entries…</p>
      ) : (
        <Chain campaign={campaign} asked={asked} />
      )}
    </div>
  );
}

function Chain({ campaign, asked }: { campaign: Campaign; asked: Asked }) {
  const store = useStore();
  const day = today();
  const all = useMemo(() => custodyOf(campaign, day), [campaign, day]);
  const [hole, setHole] = useState(asked.hole);
  const [shown, setShown] = useState<Shown>('all');
  const [word, setWord] = useState('');
  const [chosen, setChosen] = useState<ReadonlySet<string>>(() => new Set(keyAsked(all, asked)));
  const [done, setDone] = useState<Done | null>(null);
  const listed = chosenFrom(all, { hole, shown, word });
  // What is chosen stays chosen while the list shows others.
  const things = all.filter((of) => chosen.has(thingKey(of.thing)));
  const turn = (key: string): void => {
    const next = new Set(chosen);
    if (!next.delete(key)) next.add(key);
    setChosen(next);
    setDone(null);
  };
  const isAll = listed.length > 0 && listed.every((of) => chosen.has(thingKey(of.thing)));
  const [one] = things;
  return (
    <>
      <div className="fields">
        <Field name="Hole" help={{ about: 'Of one hole, or of all and of the surface' }}>
          {(input) => (
            <select {...input} value={hole} onChange={({ target }) => setHole(target.value)}>
              <option value="">all</option>
              {campaign.rows.holes.map((row) => (
                <option key={row.row_id}>{row.hole}</option>
              ))}
            </select>
          )}
        </Field>
        <Field name="Show" help={{ about: 'Which samples and cores are in the list' }}>
          {(input) => (
            <select
              {...input}
              value={shown}
              onChange={({ target: { value } }) => {
                if (isShown(value)) setShown(value);
              }}
            >
              {Object.entries(SHOWN).map(([name, words]) => (
                <option key={name} value={name}>
                  {words}
                </option>
              ))}
            </select>
          )}
        </Field>
        <Field name="Search" help={{ about: 'A word of a label, place, box, laboratory or parcel' }}>
          {(input) => (
            <input
              {...input}
              value={word}
              autoComplete="off"
              onChange={({ target }) => setWord(target.value)}
            />
          )}
        </Field>
      </div>
      <div className="chain-both" data-asked={asked.sample !== null || asked.run !== null}>
        <section aria-label="List">
          <p className="acts">
            <Button
              disabled={listed.length === 0}
              onClick={() => setChosen(new Set(isAll ? [] : listed.map((of) => thingKey(of.thing))))}
            >
              {isAll ? 'Choose none' : `Choose all ${listed.length}`}
            </Button>
            <span className="quiet" role="status">
              {counted(things.length, 'chosen', 'chosen')}
            </span>
          </p>
          {listed.length === 0 ? (
            <p className="quiet">
              {all.length === 0
                ? 'There is no sample and no core yet.'
                : 'No sample or core matches. Choose another hole, state or word.'}
            </p>
          ) : (
            <ul className="chain-list">
              {listed.map((of) => {
                const key = thingKey(of.thing);
                return (
                  <li key={key}>
                    <Line of={of} isChosen={chosen.has(key)} onTurn={() => turn(key)} />
                  </li>
                );
              })}
            </ul>
          )}
        </section>
        <section aria-label="What is chosen" className="chain-chosen">
          <p className="describe-said" role="status">
            {done?.words}
          </p>
          {done === null || done.added.length === 0 ? null : (
            <Button
              mark="undo"
              onClick={() => {
                const isGone = store.together(() => {
                  for (const row_id of done.added) store.withdraw('custody', row_id);
                });
                if (isGone) setDone({ words: `Withdrawn: ${done.words}`, added: [] });
              }}
            >
              Withdraw {counted(done.added.length, 'entry', 'entries')}
            </Button>
          )}
          {one === undefined ? (
            <p className="quiet">Choose a sample or core for its chain, or several for one parcel.</p>
          ) : (
            <>
              {things.length === 1 ? (
                <History of={one} />
              ) : (
                <p>
                  <b>{counted(things.length, 'sample or core', 'samples and cores')}:</b>{' '}
                  {things.map(({ name }) => name).join(', ')}
                </p>
              )}
              {store.readOnly ? null : (
                <NextEntry things={things} today={day} onDone={(words, added) => setDone({ words, added })} />
              )}
            </>
          )}
        </section>
      </div>
    </>
  );
}

/** Entries just recorded; readings are not undone, they are withdrawn. */
interface Done {
  words: string;
  added: readonly string[];
}

const keyAsked = (all: readonly Custody[], { hole, sample, run }: Asked): string[] =>
  all
    .filter(({ thing }) =>
      thing.kind === 'sample'
        ? thing.sample === sample
        : thing.hole === hole && thing.run === run && thing.tray === null,
    )
    .map(({ thing }) => thingKey(thing));

function Line({ of, isChosen, onTurn }: { of: Custody; isChosen: boolean; onTurn: () => void }) {
  return (
    <label title={`Choose ${of.name}`}>
      <input type="checkbox" checked={isChosen} onChange={onTurn} />
      <span>
        <b>{of.name}</b> <span className="quiet">{custodyWords(of)}</span>
      </span>
      {overdueDays(of) !== null ? <Mark name="close" size={18} label="overdue" /> : null}
    </label>
  );
}
