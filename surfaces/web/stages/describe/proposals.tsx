/** What is proposed between neighbouring holes: the one that is chosen, to be accepted or refused, and all of them in a table. */
import { Button, counted, printed, Table } from '../../parts/index.ts';
import { nextBest, type Proposed } from './proposed.ts';

export type Decide = (proposed: Proposed, isAccepted: boolean) => void;

const nameOf = ({ a, b }: Proposed): string => `${a.hole} ${a.label} to ${b.hole} ${b.label}`;

export function ChosenProposal({
  proposed,
  left,
  onDecide,
}: {
  proposed: Proposed;
  left: number;
  onDecide: Decide;
}) {
  const { a, b, result } = proposed;
  return (
    <section className="proposal-chosen" aria-label="Proposed correlation">
      <p>
        <strong>
          Base of {a.hole} unit {a.label} with base of {b.hole} unit {b.label}
        </strong>
        , margin {printed(result.margin, 1)}
        {result.is_clear ? '' : ', doubtful'}
      </p>
      <p className="quiet">
        {nextBest(proposed)} {counted(left, 'proposal')} left.
      </p>
      <p className="acts">
        <Button kind="main" mark="tick" onClick={() => onDecide(proposed, true)}>
          Accept correlation
        </Button>
        <Button mark="cross" onClick={() => onDecide(proposed, false)}>
          Refuse correlation
        </Button>
      </p>
    </section>
  );
}

export function ProposalsTable({
  proposed,
  chosen,
  doubtful,
  showsDoubtful,
  isReadOnly,
  onShowDoubtful,
  onChoose,
  onDecide,
}: {
  /** Those that are shown. */
  proposed: readonly Proposed[];
  chosen: string | null;
  /** How many are below the stated margin. */
  doubtful: number;
  showsDoubtful: boolean;
  isReadOnly: boolean;
  onShowDoubtful: (isShown: boolean) => void;
  onChoose: (id: string) => void;
  onDecide: Decide;
}) {
  return (
    <>
      <Table
        caption="Proposed correlations"
        columns={[
          { name: 'base of' },
          { name: 'and of' },
          { name: 'margin', number: true },
          { name: <span className="unseen">decide</span> },
        ]}
      >
        {proposed.length === 0 ? (
          <tr>
            <td colSpan={4} className="quiet">
              None.
            </td>
          </tr>
        ) : null}
        {proposed.map((each) => (
          <tr key={each.id} className={each.id === chosen ? 'chosen' : undefined}>
            <td>
              {each.a.hole}, unit {each.a.label}
            </td>
            <td>
              {each.b.hole}, unit {each.b.label}
            </td>
            <td className="number">
              {printed(each.result.margin, 1)}
              {each.result.is_clear ? '' : ' ?'}
            </td>
            <td className="proposal-acts">
              <Button
                kind="bare"
                mark="on"
                title="Show in the section"
                aria-label={`Show the proposal ${nameOf(each)}`}
                onClick={() => onChoose(each.id)}
              />
              <Button
                kind="bare"
                mark="tick"
                title="Accept correlation"
                disabled={isReadOnly}
                aria-label={`Accept the proposal ${nameOf(each)}`}
                onClick={() => onDecide(each, true)}
              />
              <Button
                kind="bare"
                mark="cross"
                title="Refuse correlation"
                disabled={isReadOnly}
                aria-label={`Refuse the proposal ${nameOf(each)}`}
                onClick={() => onDecide(each, false)}
              />
            </td>
          </tr>
        ))}
      </Table>
      <p className="quiet">
        From sediment, thickness and elevation of the units of neighbouring holes. The margin says how much
        better the best alignment is than the best one without the correlation, as a natural logarithm.
      </p>
      {doubtful === 0 ? null : (
        <label className="proposals-doubtful">
          <input
            type="checkbox"
            checked={showsDoubtful}
            onChange={(event) => onShowDoubtful(event.target.checked)}
          />{' '}
          Show {counted(doubtful, 'doubtful proposal')}, margin too small to be clear
        </label>
      )}
    </>
  );
}
