/** A copy held against the open campaign: what came, what differs, what is to be decided; nothing is written before the key is pressed. */
import { useCallback, useState } from 'react';
import { ActionBar, Button, counted, Plate, printed } from '../../parts/index.ts';
import { campaignName, useStore } from '../../store/index.ts';
import { HeadAside, HeadTitle } from '../frame/head-slot.tsx';
import { ConflictRow, signs } from './conflict-row.tsx';
import { type Copy, useArrivals } from './copy.ts';
import { openAmong } from './decided.ts';
import { MergeCopyButton } from './merge-copy-button.tsx';
import './merge-page.css';
import { Strands } from './strands.tsx';
import { changesIn, useMerge } from './use-merge.ts';
import { CameAndDiffers } from './what-came.tsx';
import { whenWords, whoWords } from './when-words.ts';

export function MergePage() {
  const { copy } = useArrivals();
  const store = useStore();
  if (copy !== null && copy.into === store.id) return <Merge copy={copy} />;
  return (
    <>
      <HeadTitle>
        <h1>Merge a copy</h1>
      </HeadTitle>
      <p>
        Choose the file of a copy of this campaign. Nothing is changed before you have seen what it holds.
      </p>
      <p>
        <MergeCopyButton />
      </p>
    </>
  );
}

function Merge({ copy }: { copy: Copy }) {
  const store = useStore();
  const { leave } = useArrivals();
  const { file, unpacked } = copy.arrived;
  const name = campaignName(unpacked.document);
  const last = unpacked.written;
  const [decisions, setDecisions] = useState<ReadonlyMap<string, string>>(new Map());
  const decide = useCallback(
    (conflict: string, choice: string): void =>
      setDecisions((before) => {
        const next = new Map(before);
        // Pressed again, it is open again.
        if (before.get(conflict) === choice) next.delete(conflict);
        else next.set(conflict, choice);
        return next;
      }),
    [],
  );
  const { whenKept } = copy;
  const whenMerged = useCallback((): void => {
    whenKept();
    leave();
  }, [whenKept, leave]);
  const { plan, state, failure, merge } = useMerge(store, file, name, whenMerged);
  const [now_ms] = useState(Date.now);
  const open = plan === null ? [] : openAmong(plan.conflicts, decisions);
  const openKeys = new Set(open.map(({ key }) => key));
  const hasNothing =
    plan !== null &&
    (plan.relation === 'same' || plan.relation === 'ours ahead') &&
    plan.files.come.length === 0;

  return (
    <div className="merge-page">
      <HeadTitle>
        <h1>Merge a copy</h1>
      </HeadTitle>
      <HeadAside>
        <p className="merge-copy">
          {name === '' ? 'Campaign without a name' : name}
          <br />
          {last === null
            ? 'no time stated'
            : [whoWords(last), whenWords(last.time)].filter(Boolean).join(', ')}
        </p>
        <Button kind="bare" mark="cross" aria-label="Close without merging" onClick={leave} />
      </HeadAside>
      {failure === null ? null : (
        <Plate state="danger" word="The copy was not merged">
          <p>{failure} The campaign is as it was.</p>
        </Plate>
      )}
      {plan === null && failure === null ? (
        <p role="status" aria-busy="true" className="reading">
          Reading the copy… <Button onClick={leave}>Cancel</Button>
        </p>
      ) : null}
      {plan === null ? null : (
        <>
          <p className="relation">
            <b>{plan.by === 'history' ? 'Same campaign' : 'Merged by rows'}</b>{' '}
            {plan.since === null
              ? 'no history in common: rows are known by their row_id'
              : `both have everything up to ${whenWords(plan.since.time)}`}
          </p>
          {plan.ours.length + plan.theirs.length === 0 ? null : (
            <Strands plan={plan} open={openKeys} now_ms={now_ms} />
          )}
          {hasNothing ? (
            <Plate word="Nothing in the copy is new">
              <p>
                {plan.relation === 'same'
                  ? 'It holds the same as this device.'
                  : 'This device has everything in it, and more. Save a copy here and merge it on the other device.'}
              </p>
              <p>
                <Button onClick={leave}>Close</Button>
              </p>
            </Plate>
          ) : (
            <>
              <CameAndDiffers plan={plan} />
              {plan.conflicts.length === 0 ? null : (
                <section aria-labelledby="to-decide" className="to-decide">
                  <header>
                    <h2 id="to-decide">
                      To decide: {printed(open.length, 0)} of {printed(plan.conflicts.length, 0)} open
                    </h2>
                    <p className="quiet">Nothing is lost: what is not kept stays in the record, struck.</p>
                  </header>
                  <ol>
                    {plan.conflicts.map((conflict, i) => (
                      <ConflictRow
                        key={conflict.key}
                        conflict={conflict}
                        number={i + 1}
                        chosen={decisions.get(conflict.key) ?? null}
                        disabled={state === 'merging'}
                        onChoose={(choice) => decide(conflict.key, choice)}
                      />
                    ))}
                  </ol>
                </section>
              )}
              <div className="merge-key">
                {open.length === 0 ? null : (
                  <Plate state="caution" word={`${counted(open.length, 'conflict')} still open`}>
                    <p>
                      {open[0]!.name}. {signs(open[0]!.until)}
                      {open.length === 1 ? '' : ` ${printed(open.length - 1, 0)} more above.`}
                    </p>
                  </Plate>
                )}
                <ActionBar
                  mark="merge"
                  does={state === 'merging' ? 'Merging…' : 'Merge copy'}
                  says="One step; Undo takes it back whole."
                  disabled={state === 'merging'}
                  then={
                    <>
                      {counted(changesIn(plan), 'change comes in', 'changes come in')}
                      <br />
                      {counted(plan.ours.length, 'stays', 'stay')}, {printed(open.length, 0)} open
                    </>
                  }
                  onClick={() => merge(decisions)}
                />
              </div>
            </>
          )}
        </>
      )}
    </div>
  );
}
