/** The string: what is added to it, its threads, how it is driven, and how it comes out or is lost. */
import { exceededBy, type HoleState, type RowSource } from '@stillstand/campaign/holes';
import { schemas } from '@stillstand/campaign/tables';
import { loadWords, ratingWords } from '@stillstand/science/rig';
import { drawing, looseJoint } from '../next/string-now.ts';
import { type Base, choice, type EntryForm, length, number, text } from './field.ts';
import { itemDoubt, nextOfSeries, offersOf } from './next-item.ts';

export function addForm(base: Base, now: HoleState, source: RowSource): EntryForm {
  const first = now.string.length === 0;
  const offers = offersOf(source, now);
  const item = first ? 'shoe' : 'joint';
  const offered = offers.find((o) => o.item === item);
  const label = offered?.label ?? nextOfSeries(source, now, item);
  return {
    ...base,
    title: first
      ? 'Add the shoe'
      : now.string.some((i) => i.item === 'joint')
        ? 'Add a joint'
        : 'Add the first joint',
    verb: first ? 'Record what was added' : 'Record the joint',
    caution: 'Measure before lifting. Two people make up the thread; keep fingers off the rim.',
    table: 'string_items',
    fixed: { ...base.fixed, action: 'add' },
    fields: [
      {
        ...text(
          'joint',
          'Label',
          'What is painted on it. Offered: pipe at hand in the order of the stock, else the next label of the series.',
        ),
        needed: true,
        ready: offers.map((o) => ({
          value: o.label,
          word: `${o.label}  ${o.typed}`.trim(),
          also: { length: o.typed, item: o.item },
        })),
        ...(label === null ? {} : { initial: label, assumed: true }),
        doubt: (typed, values) => itemDoubt(source, typed, values['item'] ?? item),
      },
      length(
        'length',
        'Length',
        'End to end, threads included. A shoe without one counts as part of its joint. Usually 0.3 to 6.1 m.',
        offered === undefined || offered.typed === '' ? {} : { initial: offered.typed, assumed: true },
      ),
      choice(
        'item',
        'What it is',
        schemas.string_items.columns.item.choices,
        'Joint, shoe, coupling or drive head.',
        item,
      ),
    ],
  };
}

export function tightForm(name: 'tighten' | 'loose', base: Base, now: HoleState): EntryForm {
  const loose = looseJoint(now);
  return {
    ...base,
    title:
      name === 'loose' ? 'Joint loose' : `Confirm ${loose === null ? 'the joint' : itemWord(loose)} tight`,
    verb: name === 'loose' ? 'Record as loose' : 'Confirm tight',
    caution: 'A string that parts below ground cannot be recovered.',
    table: 'string_items',
    fixed: { ...base.fixed, ...(loose === null ? {} : { row_id: loose.row_id }) },
    fields:
      name === 'loose'
        ? [
            {
              kind: 'choice',
              column: 'row_id',
              label: 'Which one',
              help: 'The joint whose lower thread is loose.',
              needed: true,
              options: [...now.string].reverse().map((i) => ({ value: i.row_id, word: itemWord(i) })),
              ...(now.string.length === 0 ? {} : { initial: now.string.at(-1)!.row_id }),
            },
          ]
        : [],
  };
}

export function pullForm(base: Base, now: HoleState): EntryForm {
  const top = now.string.at(-1);
  return {
    ...base,
    title:
      top === undefined
        ? 'Nothing to pull'
        : drawing(now)
          ? `Pull ${itemWord(top)}`
          : `Pull the string: ${itemWord(top)} first`,
    verb: 'Record as pulled',
    caution: 'Stand clear of the load and of the line. Do not exceed any load rating marked on the gear.',
    table: 'string_items',
    fixed: {
      ...base.fixed,
      item: top?.item ?? 'joint',
      ...(top?.label == null ? {} : { joint: top.label }),
    },
    fields: [
      choice(
        'action',
        'What became of it',
        ['pull', 'cut', 'left', 'lost'],
        'Pulled whole, cut off, left on purpose, lost.',
        'pull',
      ),
      conditionField,
      number(
        'line_load_kn',
        'Line load',
        'kN',
        'As the load cell shows it, if there is one. 1 t is 9.8 kN, 100 kg is 1 kN.',
        { doubt: (typed) => loadDoubt(now, Number(typed)) },
      ),
      length('length', 'Length cut off', 'Only where it was cut.'),
    ],
  };
}

/** "12 kN exceeds the rope’s 2.9 kN": of the part that bears the least of it. */
function loadDoubt(now: HoleState, line_kn: number): string | null {
  const over = exceededBy(now, line_kn);
  if (over === null) return null;
  const mark = ratingWords(over.rated_kn);
  const words =
    over.load_kn === line_kn
      ? `exceeds the ${over.part}’s ${mark}`
      : `on the line is ${loadWords(over.load_kn)} kN on the ${over.part}, above its ${mark}`;
  return `${line_kn} kN ${words}. Reduce pull now.`;
}

/** Asked of what comes out; without an answer nobody has looked. */
export const conditionField = choice(
  'condition',
  'Condition',
  schemas.string_items.columns.condition.choices,
  'Thread, rim and wall as found. A damaged item is not offered again until it is said to be sound.',
  '',
);

export function lostForm(base: Base, now: HoleState): EntryForm {
  const hole = now.row.hole;
  return {
    ...base,
    title: 'String lost',
    verb: 'Record what is lost',
    caution: 'Stand clear of the hole while the line is loaded. There is no hurry.',
    table: 'string_items',
    fixed: { hole, action: 'lost' },
    fields: [
      {
        kind: 'choice',
        column: 'top_lost',
        label: 'Parted above',
        help: 'The topmost item that stayed down; everything below it is lost with it.',
        needed: true,
        options: [...now.string].reverse().map((i) => ({ value: i.row_id, word: itemWord(i) })),
      },
      text('note', 'What happened', 'In your own words; it goes into the record of the hole.'),
    ],
  };
}

export const itemWord = (i: { item: string; label: string | null }): string =>
  `${i.item.replace('_', ' ')} ${i.label ?? ''}`.trim();
