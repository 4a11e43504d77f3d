/** The end of a hole, and the hole that replaces a lost one. */

import { END_STATES, type HoleState, stoppedDrive } from '@stillstand/campaign/holes';
import { t } from '../../../language/index.ts';
import { nameOf } from '../next/string-now.ts';
import { type Base, type ChoiceField, choice, type EntryForm, number, ready, text } from './field.ts';

export function closeForm(base: Base, now: HoleState): EntryForm {
  const left = now.fold.account.filter((i) => i.fate === 'left' || i.fate === 'lost');
  const lost = now.fold.account.some((i) => i.fate === 'lost');
  return {
    ...base,
    title: t`End hole`,
    verb: t`End hole`,
    table: 'holes',
    fields: [
      choice(
        'state',
        t`End state`,
        [...END_STATES],
        t`Its state in the record.`,
        lost ? 'lost' : stoppedDrive(now) !== null ? 'refused' : 'finished',
      ),
      {
        ...text('end_reason', t`Reason`, t`Target reached, refusal, obstruction, tide.`),
        ready: ready([t`target reached`, t`refusal`, t`obstruction`]),
      },
      {
        ...text('left_in_ground', t`Left in the ground`, t`Named for the permit.`),
        initial: left.map(nameOf).join(', '),
      },
      {
        ...text('backfill', t`Backfill`, t`Bentonite, sand, nothing: as the permit asks.`),
        ready: ready([t`bentonite`, t`sand`, t`nothing`]),
      },
    ],
  };
}

export function secondHoleForm(base: Base, now: HoleState): EntryForm {
  const hole = now.row.hole;
  const which = now.fold.account.some((i) => i.fate === 'lost') ? t`the lost hole` : hole;
  return {
    ...base,
    title: t`Start replacement hole`,
    verb: t`Start hole`,
    table: 'holes',
    fields: [
      {
        ...text('hole', t`Label`, t`A label of its own; ${which} keeps its label.`),
        initial: `${hole}b`,
        needed: true,
      },
      number(
        'distance_to_replaced_m',
        t`Distance from ${which}`,
        'm',
        t`Far enough to miss the pipe: usually 1 to 5 m (common practice).`,
      ),
      {
        kind: 'choice',
        column: 'reference_basis',
        label: t`Reference`,
        help: t`Its elevation: levelled again, to be entered under Plan; or assumed the same as in ${which}.`,
        options: [
          { value: 'assumed', word: t`assumed the same` },
          { value: 'levelled', word: t`levelled again` },
        ],
        initial: 'assumed',
      },
      livingGround(),
    ],
  };
}

/** Not taken over from the hole that is replaced: there may be a pit by then. */
const livingGround = (): ChoiceField =>
  choice(
    'top_is_ground',
    t`Begins at the living ground`,
    ['yes', 'no'],
    t`Yes where nothing was dug or washed away, as on a marsh: the top is then of the year of coring.`,
    '',
  );
