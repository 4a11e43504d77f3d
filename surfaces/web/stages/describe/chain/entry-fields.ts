/** What is asked at each action of the chain: what the others ask would be in the way. */
import type { Custody } from '@stillstand/campaign/chain';
import type { Row } from '@stillstand/campaign/tables';

export type Action = NonNullable<Row<'custody'>['action']>;

const KEPT_AT = ['place', 'shelf', 'box', 'condition', 'left'] as const;

const ASKED: Readonly<Record<Action, readonly string[]>> = {
  stored: KEPT_AT,
  opened: ['condition'],
  sampled: ['left'],
  sent: ['laboratory', 'submission', 'request', 'amount', 'due', 'left', 'cost', 'currency'],
  arrived: ['laboratory', 'condition'],
  result: ['laboratory', 'cost', 'currency'],
  returned: ['laboratory', ...KEPT_AT],
  lent: ['laboratory', 'due', 'condition', 'left'],
  discarded: [],
};

/** Columns besides the action and its day, which every entry has, and the note. */
export const askedAt = (action: Action): readonly string[] => ASKED[action];

/** What the button does, and what is said once it is done. */
export const ACTIONS: Readonly<Record<Action, { verb: string; done: string }>> = {
  stored: { verb: 'Record storing', done: 'stored' },
  opened: { verb: 'Record opening', done: 'opened' },
  sampled: { verb: 'Record sampling', done: 'sampled' },
  sent: { verb: 'Record sending', done: 'sent' },
  arrived: { verb: 'Record arrival', done: 'arrived' },
  result: { verb: 'Record result', done: 'result received' },
  returned: { verb: 'Record return', done: 'returned' },
  lent: { verb: 'Record loan', done: 'lent' },
  discarded: { verb: 'Record discarding', done: 'discarded' },
};

/** The action that comes next as a rule; several that lie in store are chosen for a parcel. */
export function nextAction(things: readonly Pick<Custody, 'state'>[]): Action {
  const [state, ...others] = new Set(things.map((of) => of.state));
  if (others.length > 0 || state === undefined) return things.length > 1 ? 'sent' : 'stored';
  if (state === 'sent' || state === 'arrived') return 'result';
  if (state === 'lent') return 'returned';
  return things.length > 1 ? 'sent' : 'stored';
}
