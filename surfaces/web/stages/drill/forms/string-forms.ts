/** The string: what is added to it, its threads, how it is driven, and how it comes out or is lost. */

import { exceededBy, type HoleState, type RowSource } from '@stillstand/campaign/holes';
import { schemas } from '@stillstand/campaign/tables';
import { loadWords, ratingWords } from '@stillstand/science/rig';
import { t } from '../../../language/index.ts';
import { drawing, looseJoint, nameOf } from '../next/string-now.ts';
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
      ? t`Add the shoe`
      : now.string.some((i) => i.item === 'joint')
        ? t`Add a joint`
        : t`Add the first joint`,
    verb: first ? t`Record what was added` : t`Record the joint`,
    caution: t`Measure before lifting. Two people make up the thread; keep fingers off the rim.`,
    table: 'string_items',
    fixed: { ...base.fixed, action: 'add' },
    fields: [
      {
        ...text(
          'joint',
          t`Label`,
          t`What is painted on it. Offered: pipe at hand in the order of the stock, else the next label of the series.`,
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
        t`Length`,
        t`End to end, threads included. A shoe without one counts as part of its joint. Usually 0.3 to 6.1 m.`,
        offered === undefined || offered.typed === '' ? {} : { initial: offered.typed, assumed: true },
      ),
      choice(
        'item',
        t`What it is`,
        schemas.string_items.columns.item.choices,
        t`Joint, shoe, coupling or drive head.`,
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
      name === 'loose' ? t`Joint loose` : t`Confirm ${loose === null ? t`the joint` : nameOf(loose)} tight`,
    verb: name === 'loose' ? t`Record as loose` : t`Confirm tight`,
    caution: t`A string that parts below ground cannot be recovered.`,
    table: 'string_items',
    fixed: { ...base.fixed, ...(loose === null ? {} : { row_id: loose.row_id }) },
    fields:
      name === 'loose'
        ? [
            {
              kind: 'choice',
              column: 'row_id',
              label: t`Which one`,
              help: t`The joint whose lower thread is loose.`,
              needed: true,
              options: [...now.string].reverse().map((i) => ({ value: i.row_id, word: nameOf(i) })),
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
        ? t`Nothing to pull`
        : drawing(now)
          ? t`Pull ${nameOf(top)}`
          : t`Pull the string: ${nameOf(top)} first`,
    verb: t`Record as pulled`,
    caution: t`Stand clear of the load and of the line. Do not exceed any load rating marked on the gear.`,
    table: 'string_items',
    fixed: {
      ...base.fixed,
      item: top?.item ?? 'joint',
      ...(top?.label == null ? {} : { joint: top.label }),
    },
    fields: [
      choice(
        'action',
        t`What became of it`,
        ['pull', 'cut', 'left', 'lost'],
        t`Pulled whole, cut off, left on purpose, lost.`,
        'pull',
      ),
      conditionField,
      number(
        'line_load_kn',
        t`Line load`,
        'kN',
        t`As the load cell shows it, if there is one. 1 t is 9.8 kN, 100 kg is 1 kN.`,
        { doubt: (typed) => loadDoubt(now, Number(typed)) },
      ),
      length('length', t`Length cut off`, t`Only where it was cut.`),
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
      ? t`exceeds the ${over.part}’s ${mark}`
      : t`on the line is ${loadWords(over.load_kn)} kN on the ${over.part}, above its ${mark}`;
  return t`${line_kn} kN ${words}. Reduce pull now.`;
}

/** Asked of what comes out; without an answer nobody has looked. */
export const conditionField = choice(
  'condition',
  t`Condition`,
  schemas.string_items.columns.condition.choices,
  t`Thread, rim and wall as found. A damaged item is not offered again until it is said to be sound.`,
  '',
);

export function lostForm(base: Base, now: HoleState): EntryForm {
  const hole = now.row.hole;
  return {
    ...base,
    title: t`String lost`,
    verb: t`Record what is lost`,
    caution: t`Stand clear of the hole while the line is loaded. There is no hurry.`,
    table: 'string_items',
    fixed: { hole, action: 'lost' },
    fields: [
      {
        kind: 'choice',
        column: 'top_lost',
        label: t`Parted above`,
        help: t`The topmost item that stayed down; everything below it is lost with it.`,
        needed: true,
        options: [...now.string].reverse().map((i) => ({ value: i.row_id, word: nameOf(i) })),
      },
      text('note', t`What happened`, t`In your own words; it goes into the record of the hole.`),
    ],
  };
}
