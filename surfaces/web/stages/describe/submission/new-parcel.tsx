/** A parcel put together: to whom, what for, which samples. Recorded as one act, an entry a sample. */
import type { Campaign } from '@stillstand/campaign/document';
import type { Parcel, ParcelSample } from '@stillstand/output/lists';
import { type FormEvent, useMemo, useState } from 'react';
import { Button, ColumnField, counted, Field, labelsFor, useUnsaved } from '../../../parts/index.ts';
import { crew, today, useStore } from '../../../store/index.ts';
import type { Lists } from './list-paper.tsx';
import { ParcelSamples } from './parcel-samples.tsx';

/** What is asked for as a rule; anything else can be typed. */
const REQUESTS = [
  'radiocarbon',
  'luminescence',
  'U series',
  'grain size',
  'microfossils',
  'loss on ignition',
];

/** Columns of `custody` that all samples of the parcel have alike. */
const ALIKE = ['laboratory', 'submission', 'date', 'request', 'due', 'cost', 'currency'] as const;
type Alike = (typeof ALIKE)[number];

const NAMES: Readonly<Record<Alike, string>> = {
  laboratory: 'Laboratory',
  submission: 'Parcel label',
  date: 'Date sent',
  request: 'Asked for',
  due: 'Result due',
  cost: 'Cost of each sample',
  currency: 'Currency',
};

export function NewParcel({
  lists,
  campaign,
  onSent,
}: {
  lists: Lists;
  campaign: Campaign;
  onSent: (parcel: Parcel) => void;
}) {
  const store = useStore();
  const day = today();
  const toSend = useMemo(() => lists.samplesToSend(campaign, day), [lists, campaign, day]);
  const taken = lists.parcelLabels(campaign);
  const [typed, setTyped] = useState<Partial<Record<Alike, string>>>({});
  const [sender, setSender] = useState(() => crew().by);
  const [chosen, setChosen] = useState<ReadonlyMap<string, ParcelSample>>(new Map());
  useUnsaved(chosen.size > 0);

  const known = labelsFor('custody', 'laboratory', store.rows) ?? [];
  const offered = known.length === 1 ? known[0]! : '';
  const laboratory = (typed.laboratory ?? offered).trim();
  const lab = campaign.rows.laboratories.find((row) => row.laboratory === laboratory);
  const usual: Readonly<Record<Alike, string>> = {
    laboratory: offered,
    submission: lists.nextParcelLabel(taken),
    date: day,
    request: 'radiocarbon',
    due: '',
    cost: lab?.price?.toString() ?? '',
    currency: lab?.currency ?? '',
  };
  const cell = (column: Alike): string => typed[column] ?? usual[column];
  const type = (column: Alike, text: string): void => setTyped((before) => ({ ...before, [column]: text }));
  const labels: Partial<Record<Alike, readonly string[]>> = { laboratory: known, request: REQUESTS };

  const label = cell('submission').trim();
  const lacks = [
    ...(laboratory === '' ? ['the laboratory'] : []),
    ...(label === '' ? ['a label of the parcel'] : []),
    ...(chosen.size === 0 ? ['a sample'] : []),
  ];
  const record = (event: FormEvent): void => {
    event.preventDefault();
    if (lacks.length > 0) return;
    const samples = [...chosen.values()].map((sample) => ({
      ...sample,
      request: sample.request || cell('request').trim(),
    }));
    const parcel: Parcel = { label, laboratory, sender, date: cell('date').trim(), samples };
    const alike = Object.fromEntries(
      (['due', 'cost', 'currency'] as const)
        .map((column) => [column, cell(column).trim()] as const)
        .filter(([column, text]) => text !== '' && (column !== 'currency' || cell('cost').trim() !== '')),
    );
    const isDone = store.together(() => {
      if (!known.includes(laboratory)) store.addRow('laboratories', { laboratory });
      for (const cells of lists.entriesOfParcel(parcel))
        store.addReading('custody', { ...cells, ...alike, ...(sender === '' ? {} : { by: sender }) });
    });
    if (isDone) onSent(parcel);
  };

  if (toSend.length === 0) return <p className="quiet">No sample is waiting to be sent.</p>;
  return (
    <form aria-label="New parcel" onSubmit={record}>
      <div className="fields">
        {ALIKE.map((column) => (
          <ColumnField
            key={column}
            table="custody"
            column={column}
            name={NAMES[column]}
            value={cell(column)}
            {...(labels[column] === undefined ? {} : { labels: labels[column] })}
            onCommit={(text) => type(column, text)}
            onType={(text) => type(column, text)}
          />
        ))}
        <Field
          name="Sender"
          help={{ about: 'Who sends it, as the laboratory is to know; kept with each entry' }}
        >
          {(input) => (
            <input
              {...input}
              value={sender}
              autoComplete="off"
              onChange={({ target }) => setSender(target.value)}
            />
          )}
        </Field>
      </div>
      {taken.includes(label) ? (
        <p className="quiet" role="status">
          Parcel {label} was sent before: these samples are added to it.
        </p>
      ) : null}
      <ParcelSamples toSend={toSend} chosen={chosen} onChoose={setChosen} />
      <p className="acts">
        <Button kind="main" type="submit" disabled={lacks.length > 0}>
          Record parcel as sent
        </Button>
        <span className="quiet" role="status">
          {lacks.length > 0
            ? `Still needed: ${lacks.join(', ')}.`
            : `${counted(chosen.size, 'sample')} to ${laboratory}. Its sheet follows.`}
        </span>
      </p>
    </form>
  );
}
