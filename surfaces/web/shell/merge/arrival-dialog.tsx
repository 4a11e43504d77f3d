/** A campaign that came in a file and is here already, or is another than the one it was chosen for: a person decides. */
import { Button, Dialog, Plate } from '../../parts/index.ts';
import { campaignName } from '../../store/index.ts';
import { ProblemList } from '../rows/problems-sheet.tsx';
import { type Arrival, type Asked, askedOf } from './arrival.ts';
import './arrival-dialog.css';
import type { Target } from './copy.ts';
import { whenWords, whoWords } from './when-words.ts';

const TITLES: Readonly<Record<Asked['kind'], string>> = {
  here: 'This campaign is already on this device',
  other: 'This is another campaign',
  'not stated': 'This file does not say which campaign it is',
};

const called = (name: string): string => (name === '' ? 'Campaign without a name' : name);

export function ArrivalDialog({
  arrival,
  onMerge,
  onOpen,
  onClose,
}: {
  arrival: Arrival;
  onMerge: (into: Target) => void;
  onOpen: () => void;
  onClose: () => void;
}) {
  const { arrived, into } = arrival;
  const { document, problems, written } = arrived.unpacked;
  const asked = askedOf(arrival);
  if (asked === null) return null;
  const { kind, targets, whyNot } = asked;
  const name = called(campaignName(document));
  const [only] = targets;
  return (
    <Dialog
      title={TITLES[kind]}
      onClose={onClose}
      foot={
        <>
          <Button onClick={onClose}>Cancel</Button>
          <Button onClick={onOpen}>
            {kind === 'other' ? 'Open as its own campaign' : 'Open as a separate campaign'}
          </Button>
          {only === undefined || targets.length > 1 ? null : (
            <Button kind="main" mark="merge" onClick={() => onMerge(only)}>
              {kind === 'other' ? `Merge into ${called(only.name)}` : 'Merge into this campaign'}
            </Button>
          )}
        </>
      }
    >
      <div className="arrival">
        {into === null || kind === 'here' ? null : (
          <p>
            {kind === 'other'
              ? `The file holds “${name}”; “${called(into.name)}” is open.`
              : `Its package, or that of “${called(into.name)}”, has no id. If it is a copy, rows with the same row_id are merged.`}
          </p>
        )}
        <dl>
          <div>
            <dt>Copy</dt>
            <dd>{name}</dd>
          </div>
          <div>
            <dt>Last change in it</dt>
            <dd>
              {written === null
                ? 'no time stated'
                : [whenWords(written.time), whoWords(written)].filter(Boolean).join(', ')}
            </dd>
          </div>
        </dl>
        {whyNot === null ? null : (
          <Plate state="caution" word="This copy cannot be merged">
            <p>{whyNot}</p>
          </Plate>
        )}
        {targets.length < 2 ? null : (
          <>
            <p>It is on this device more than once. Choose what to merge it into.</p>
            <div className="acts">
              {targets.map((target) => (
                <Button key={target.id} mark="merge" onClick={() => onMerge(target)}>
                  Merge into {called(target.name)}
                </Button>
              ))}
            </div>
          </>
        )}
        <ProblemList problems={problems} />
        <p className="quiet">
          Nothing has been changed yet. Before anything is merged, you see what came and what differs.
        </p>
      </div>
    </Dialog>
  );
}
