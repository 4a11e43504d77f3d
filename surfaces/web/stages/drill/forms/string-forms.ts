/** The string: what is added to it, its threads, how it is driven, and how it comes out or is lost. */
import { type HoleState, inventoryOf, type RowSource } from '@stillstand/campaign/holes';
import { schemas } from '@stillstand/campaign/tables';
import { drawing, looseJoint } from '../next/string-now.ts';
import { typedIfKnown } from '../tape/lengths.ts';
import { type Base, choice, type EntryForm, type Field, length, number, text } from './field.ts';

export function addForm(base: Base, now: HoleState, source: RowSource): EntryForm {
  const first = now.string.length === 0;
  const known = knownItems(source, now);
  const item = first ? 'shoe' : 'joint';
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
        ...text('joint', 'Label', 'What is painted on it. Pipe measured before can be picked.'),
        needed: true,
        ready: known.map((k) => ({
          value: k.label,
          word: `${k.label}  ${k.typed}`.trim(),
          also: { length: k.typed, item: k.item },
        })),
      },
      length(
        'length',
        'Length',
        'End to end, threads included. A shoe without one counts as part of its joint. Usually 0.3 to 6.1 m.',
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

/** Pipe measured before in this campaign that is at hand: not in any string, not lost, left or missing. Last used first. */
function knownItems(source: RowSource, now: HoleState): { label: string; typed: string; item: string }[] {
  const typed = new Map(source.rows('string_items').map((r) => [r.row_id, r.cells['length'] ?? '']));
  const head = now.string.length === 0;
  return inventoryOf(source)
    .filter((i) => i.isAtHand && (i.item === 'shoe') === head)
    .sort((a, b) => Number(b.time_ms > a.time_ms) - Number(b.time_ms < a.time_ms))
    .map((i) => ({
      label: i.label,
      item: i.item,
      // cut, it is no longer as long as it was typed
      typed: i.whereabouts === 'shortened' ? '' : (typed.get(i.row_id) ?? ''),
    }));
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

export function driveForm(base: Base, now: HoleState): EntryForm {
  return {
    ...base,
    title: 'Drive the string',
    verb: 'Record the drive',
    caution: 'Hands off the pipe. Wear ear protection. Follow the vibrator manual.',
    table: 'drives',
    fields: driveFields(now),
  };
}

export function stuckForm(base: Base, now: HoleState): EntryForm {
  return {
    ...base,
    title: 'Slowing, refusal, stuck',
    verb: 'Record the drive',
    caution: 'Stop the vibrator before the string becomes stuck.',
    table: 'drives',
    fields: driveFields(now, 'slowing'),
  };
}

function driveFields(now: HoleState, ended = 'length'): Field[] {
  const stickUp = now.last?.stick_up_m ?? null;
  return [
    length('stick_up_start', 'Stick-up before', 'Collar above the reference before the drive.', {
      needed: true,
      signed: true,
      initial: typedIfKnown(stickUp, now.units.tape),
      assumed: stickUp !== null,
    }),
    length('stick_up_end', 'Stick-up after', 'Collar above the reference after the drive.', {
      needed: true,
      signed: true,
    }),
    number(
      'duration_s',
      'Time',
      's',
      'How long the vibrator ran; its rate distinguishes slowing from refusal.',
    ),
    choice('ended_by', 'Ended by', schemas.drives.columns.ended_by.choices, 'Why it stopped.', ended),
    number('frequency_hz', 'Vibrator speed', 'Hz', 'As the gauge shows it.'),
  ];
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
      number(
        'line_load_kn',
        'Line load',
        'kN',
        'As the load cell shows it, if there is one. 1 t is 9.8 kN, 100 kg is 1 kN.',
      ),
      length('length', 'Length cut off', 'Only where it was cut.'),
    ],
  };
}

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
