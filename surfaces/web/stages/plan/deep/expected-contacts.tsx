/** Under the target depth of a planned hole: what its neighbours expect there, and the depths that reach it. */
import type { ExpectationResult } from '@stillstand/campaign/results';
import { askedInWords, percentExpected } from '@stillstand/output/words';
import type { TapeUnit } from '@stillstand/science/base';
import { printed, signed, Table } from '../../../parts/index.ts';
import { type Reach, type Reaches, reachedWith, reachesOf } from './reaches.ts';
import './expected-contacts.css';

export function ExpectedContacts({
  hole,
  expectation,
  unit,
  target_m,
  onTake,
}: {
  hole: string;
  expectation: ExpectationResult;
  unit: TapeUnit;
  /** Depth that is typed, m; null where none is. */
  target_m: number | null;
  /** Takes a depth as the target; absent where nothing can be changed. */
  onTake?: ((typed: string) => void) | undefined;
}) {
  const reaches = reachesOf(expectation, unit);
  if (reaches.length === 0) return null;
  const isLevelled = expectation.ground_m !== null;
  return (
    <div className="expected-contacts">
      <Table
        caption={`Expected in ${hole}`}
        columns={[
          { name: 'contact' },
          { name: 'is there', number: true },
          { name: isLevelled ? 'depth for 80 %' : 'down to, for 80 %', number: true },
          { name: 'for 95 %', number: true },
        ]}
      >
        {reaches.map((of) => (
          <tr key={of.key}>
            <th scope="row">
              {of.name}
              <small>{of.as}</small>
            </th>
            <td className="number">{percentExpected(of.present)}</td>
            {([80, 95] as const).map((percent) => (
              <td key={percent} className="number">
                <TakeDepth {...{ hole, of, percent, isLevelled, onTake }} />
              </td>
            ))}
          </tr>
        ))}
      </Table>
      {isLevelled && target_m !== null ? <Typed target_m={target_m} reaches={reaches} /> : null}
      <p className="small">
        {isLevelled
          ? 'Depths below ground reach it where it is there; select one to make it the target depth. '
          : 'Elevations, because the ground is not levelled. '}
        Expected from {askedInWords(expectation.asked)}. Services, gas and ordnance are not foretold.
      </p>
    </div>
  );
}

function TakeDepth({
  hole,
  of,
  percent,
  isLevelled,
  onTake,
}: {
  hole: string;
  of: Reaches;
  percent: 80 | 95;
  isLevelled: boolean;
  onTake: ((typed: string) => void) | undefined;
}) {
  const reach: Reach = percent === 80 ? of.with80 : of.with95;
  if (reach.typed === null)
    return isLevelled
      ? reach.m > 0
        ? `${printed(reach.m, 1)} m`
        : 'not below ground'
      : `${signed(reach.m, 1)} m`;
  if (onTake === undefined) return reach.typed;
  const { typed } = reach;
  return (
    <button
      type="button"
      className="take-depth"
      aria-label={`Target depth of ${hole}: ${typed}, reaches ${of.name} with ${percent} %`}
      onClick={() => onTake(typed)}
    >
      {typed}
    </button>
  );
}

/** Of each horizon that has a name. */
function Typed({ target_m, reaches }: { target_m: number; reaches: readonly Reaches[] }) {
  const named = reaches.filter(({ horizon }) => horizon !== null);
  if (named.length === 0) return null;
  return (
    <p>
      The target depth reaches{' '}
      {named.map((of) => `${of.horizon} with a probability of ${reachedWith(target_m, of)}`).join('; ')},
      where it is there.
    </p>
  );
}
