/** The end of a hole, and the hole that replaces a lost one. */
import { END_STATES, type HoleState, stoppedDrive } from '@stillstand/campaign/holes';
import { type Base, choice, type EntryForm, number, text, words } from './field.ts';
import { itemWord } from './string-forms.ts';

export function closeForm(base: Base, now: HoleState): EntryForm {
  const left = now.fold.account.filter((i) => i.fate === 'left' || i.fate === 'lost');
  const lost = now.fold.account.some((i) => i.fate === 'lost');
  return {
    ...base,
    title: 'End hole',
    verb: 'End hole',
    table: 'holes',
    fields: [
      choice(
        'state',
        'End state',
        [...END_STATES],
        'Its state in the record.',
        lost ? 'lost' : stoppedDrive(now) !== null ? 'refused' : 'finished',
      ),
      {
        ...text('end_reason', 'Reason', 'Target reached, refusal, obstruction, tide.'),
        ready: words(['target reached', 'refusal', 'obstruction']),
      },
      {
        ...text('left_in_ground', 'Left in the ground', 'Named for the permit.'),
        initial: left.map(itemWord).join(', '),
      },
      {
        ...text('backfill', 'Backfill', 'Bentonite, sand, nothing: as the permit asks.'),
        ready: words(['bentonite', 'sand', 'nothing']),
      },
    ],
  };
}

export function secondHoleForm(base: Base, now: HoleState): EntryForm {
  const hole = now.row.hole;
  const which = now.fold.account.some((i) => i.fate === 'lost') ? 'the lost hole' : hole;
  return {
    ...base,
    title: 'Start replacement hole',
    verb: 'Start hole',
    table: 'holes',
    fields: [
      {
        ...text('hole', 'Label', `A label of its own; ${which} keeps its label.`),
        initial: `${hole}b`,
        needed: true,
      },
      number(
        'distance_to_replaced_m',
        `Distance from ${which}`,
        'm',
        'Far enough to miss the pipe: usually 1 to 5 m (common practice).',
      ),
      {
        kind: 'choice',
        column: 'reference_basis',
        label: 'Reference',
        help: `Its elevation: levelled again, to be entered under Plan; or assumed the same as in ${which}.`,
        options: [
          { value: 'assumed', word: 'assumed the same' },
          { value: 'levelled', word: 'levelled again' },
        ],
        initial: 'assumed',
      },
    ],
  };
}
