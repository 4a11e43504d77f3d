/** Sheets of parcels to laboratories: a new one, and those that were sent. */
import type { Campaign } from '@stillstand/campaign/document';
import type { Results } from '@stillstand/campaign/results';
import type { Parcel } from '@stillstand/output/lists';
import { useMemo, useState } from 'react';
import { useComputation } from '../../../compute/index.ts';
import { Button, counted, Field, useLoaded } from '../../../parts/index.ts';
import { useStore } from '../../../store/index.ts';
import { ListPaper, type Lists, loadLists } from './list-paper.tsx';
import { NewParcel } from './new-parcel.tsx';

export function SubmissionPage({ parcel, onClose }: { parcel: string | null; onClose: () => void }) {
  const lists = useLoaded(loadLists);
  const { campaign, results } = useComputation();
  return (
    <div className="list-page">
      <header>
        <h2>Submission sheet</h2>
        <Button kind="bare" mark="cross" aria-label="Leave the submission sheet" onClick={onClose} />
      </header>
      {lists === null || campaign === null ? (
        <p role="status">Reading the samples.</p>
      ) : (
        <Parcels lists={lists} campaign={campaign} results={results} first={parcel} />
      )}
    </div>
  );
}

/** In the list of parcels. */
const NEW = '';

function Parcels({
  lists,
  campaign,
  results,
  first,
}: {
  lists: Lists;
  campaign: Campaign;
  results: Results | null;
  first: string | null;
}) {
  const store = useStore();
  const sent = lists.parcelLabels(campaign);
  const [label, setLabel] = useState(first ?? NEW);
  const [said, setSaid] = useState('');
  const parcel = useMemo(
    () => (label === NEW ? null : lists.parcelSent(campaign, label)),
    [lists, campaign, label],
  );
  return (
    <>
      <div className="fields">
        <Field name="Parcel" help={{ about: 'A new parcel, or one that was sent, to print its sheet again' }}>
          {(input) => (
            <select
              {...input}
              value={label}
              onChange={({ target }) => {
                setLabel(target.value);
                setSaid('');
              }}
            >
              <option value={NEW}>new parcel</option>
              {[...new Set([...(label === NEW ? [] : [label]), ...sent])].map((one) => (
                <option key={one}>{one}</option>
              ))}
            </select>
          )}
        </Field>
      </div>
      <p className="quiet" role="status">
        {said}
      </p>
      {label === NEW ? (
        store.readOnly ? (
          <p className="quiet">This campaign cannot be changed here: choose a parcel that was sent.</p>
        ) : (
          <NewParcel
            lists={lists}
            campaign={campaign}
            onSent={(made) => {
              setLabel(made.label);
              setSaid(`Parcel ${made.label}: ${counted(made.samples.length, 'sample')} recorded as sent.`);
            }}
          />
        )
      ) : parcel === null ? (
        <p className="quiet">No sample is recorded as sent in parcel {label}.</p>
      ) : (
        <Sent
          {...{ lists, campaign, results, parcel }}
          onWithdrawn={() => {
            setLabel(NEW);
            setSaid(`Parcel ${parcel.label} withdrawn: its samples can be sent again.`);
          }}
        />
      )}
    </>
  );
}

function Sent({
  lists,
  campaign,
  results,
  parcel,
  onWithdrawn,
}: {
  lists: Lists;
  campaign: Campaign;
  results: Results | null;
  parcel: Parcel;
  onWithdrawn: () => void;
}) {
  const store = useStore();
  const list = useMemo(
    () => lists.submissionOf(campaign, results, parcel),
    [lists, campaign, results, parcel],
  );
  // Readings are never undone; they are withdrawn, all of a parcel at once.
  const withdraw = (): void => {
    const entries = campaign.rows.custody.filter(
      ({ action, submission }) => action === 'sent' && submission === parcel.label,
    );
    const isDone = store.together(() => {
      for (const { row_id } of entries) store.withdraw('custody', row_id);
    });
    if (isDone) onWithdrawn();
  };
  return (
    <>
      <ListPaper lists={lists} list={list} name={`submission ${parcel.label}`} />
      {store.readOnly ? null : (
        <p className="acts">
          <Button onClick={withdraw}>Withdraw parcel</Button>
          <span className="quiet">If it was not sent after all. Its entries stay in the record.</span>
        </p>
      )}
    </>
  );
}
