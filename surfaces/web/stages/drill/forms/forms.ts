/**
 * What is entered for each action: its fields in the order a hand reads them, what they are, what usually stands
 * there, and the cells they become. Past 250 lines because it is one list. Nothing but the few lengths without which
 * a reading says nothing is asked for; whatever is blank stays blank.
 */
import {
  END_STATES,
  type HoleState,
  inventoryOf,
  lastTyped,
  marksNote,
  type RowSource,
} from '@stillstand/campaign/holes';
import { schemas } from '@stillstand/campaign/tables';
import { drawing, LOAD, looseJoint } from '../next/next-action.ts';
import { tapes } from '../tape/cable.ts';
import { typedLength } from '../tape/lengths.ts';
import {
  type Base,
  choice,
  type EntryForm,
  type Field,
  type FormName,
  length,
  number,
  text,
  words,
} from './field.ts';
import { piecesForm } from './pieces.ts';
import { pushForm } from './push-form.ts';
import { gearForm, watersForm } from './said-forms.ts';

const columns = schemas;

/** The form of an action, filled with what usually stands there. */
export function formFor(name: FormName, now: HoleState, source: RowSource): EntryForm {
  const hole = now.row.hole;
  const base = { name, fixed: { hole }, caution: null };
  const typed = (m: number | null | undefined, unit = now.units.tape): string =>
    m == null ? '' : typedLength(m, unit);
  switch (name) {
    case 'ground':
      return {
        ...base,
        title: now.ground_m === null ? 'Measure ground level' : 'Remeasure ground level',
        verb: 'Record ground level',
        table: 'ground_levels',
        fields: [
          groundField(),
          {
            kind: 'text',
            column: 'cause',
            label: 'Cause of change',
            help: 'Tide, trampling, sand drawdown at the pipe; blank if it has not moved.',
            ready: words(['not moved', 'tide', 'trampling', 'sand drawdown at pipe']),
          },
        ],
      };
    case 'add':
      return addForm(base, now, source);
    case 'tighten':
    case 'loose':
      return tightForm(name, base, now);
    case 'drive':
      return {
        ...base,
        title: 'Drive the string',
        verb: 'Record the drive',
        caution: 'Hands off the pipe. Wear ear protection. Follow the vibrator manual.',
        table: 'drives',
        fields: driveFields(now, typed),
      };
    case 'stuck':
      return {
        ...base,
        title: 'Slowing, refusal, stuck',
        verb: 'Record the drive',
        caution: 'Stop the vibrator before the string becomes stuck.',
        table: 'drives',
        fields: driveFields(now, typed, 'slowing'),
      };
    case 'fill':
      return {
        ...base,
        title: 'Fill the string',
        verb: 'Record the water',
        caution: 'Low water inside lets sand boil in at the shoe.',
        table: 'water_added',
        fields: [
          length(
            'to_water_after',
            'Water level after',
            'Collar to the water inside after filling. Usually 0 to 0.3 m (common practice).',
            { needed: true },
          ),
          length(
            'to_water_before',
            'Water level before',
            'Collar to the water inside before filling, if it was read.',
          ),
          number('volume_l', 'Volume', 'L', 'What was poured in, if it was counted.'),
          choice(
            'kind',
            'Kind',
            columns.water_added.columns.kind.choices,
            'Sea water is heavier: the head counts it.',
            lastTyped(source, 'water_added', hole, 'kind'),
          ),
        ],
      };
    case 'sound':
      return {
        ...base,
        title: 'Take sounding',
        verb: 'Record sounding',
        table: 'soundings',
        fields: [
          length(
            'to_sediment',
            'To the sediment',
            'Collar to the sediment inside: 0 to the shoe. Repeat it; a weight that sinks in reads deep.',
            { needed: true },
          ),
          length('to_water_inside', 'To the water inside', 'Collar to the water inside.'),
          length('water_outside', 'Water outside', 'Water outside below the reference, positive down.', {
            signed: true,
          }),
          length('stick_up', 'Stick-up', 'Collar above the reference, if it was read again.', {
            signed: true,
          }),
          choice(
            'purpose',
            'When',
            columns.soundings.columns.purpose.choices,
            'Before or after a drive or run; resume after a stop.',
            soundingPurpose(now),
          ),
        ],
      };
    case 'water':
      return {
        ...base,
        title: 'Measure water levels',
        verb: 'Record water levels',
        fixed: { hole, purpose: 'other' },
        table: 'soundings',
        fields: [
          length('to_water_inside', 'To the water inside', 'Collar to the water inside.', { needed: true }),
          length('water_outside', 'Water outside', 'Water outside below the reference, positive down.', {
            needed: true,
            signed: true,
          }),
        ],
      };
    case 'mark': {
      const tape = tapes(now);
      return {
        ...base,
        title: 'Mark the cable',
        verb: 'Confirm marks and zero',
        fixed: tape.length === 0 ? { hole } : { hole, note: marksNote(tape) },
        table: 'soundings',
        caution: 'Zero check: with the tip level with the collar, the tape at the collar reads 0.',
        fields: [
          {
            kind: 'choice',
            column: 'confirmed',
            label: 'Confirmed',
            help: 'Only what was done: tape put on at every mark listed, zero checked at the collar.',
            needed: true,
            initial: tape.length === 0 ? 'zero' : 'both',
            options: [
              { value: 'both', word: 'marks and zero' },
              { value: 'marks', word: 'marks only' },
              { value: 'zero', word: 'zero only' },
            ],
          },
        ],
      };
    }
    case 'run':
      return {
        ...base,
        title: 'Run the sampler',
        verb: 'Record touch mark',
        caution: LOAD,
        table: 'runs',
        fields: [
          length(
            'start_mark',
            'Cable when it touched',
            'Cable reading at touchdown: tip below the collar. As sounded, or check the zero.',
            {
              needed: true,
              initial: typed(now.sediment.sounded_m, now.units.cable),
              assumed: now.sediment.sounded_m !== null,
            },
          ),
          { ...text('run', 'Run', 'Its label in this hole.'), initial: nextRun(source, hole), needed: true },
          choice(
            'sampler',
            'Sampler',
            now.campaign.rows.samplers.map((s) => s.sampler),
            'Which sampler.',
            lastTyped(source, 'runs', hole, 'sampler') || (now.campaign.rows.samplers[0]?.sampler ?? ''),
          ),
        ],
      };
    case 'cable':
      return {
        ...base,
        title: `Run ${now.run?.run ?? ''}`.trim(),
        verb: 'Record the cable',
        caution: LOAD,
        table: 'runs',
        fields: [
          length(
            'end_mark',
            'Cable at the collar',
            'Tip below the collar now: read the mark that passes the collar.',
            { needed: true },
          ),
        ],
      };
    case 'lay_out':
      return {
        ...base,
        title: 'Lay out the core',
        verb: 'Record the core',
        caution: null,
        table: 'runs',
        fields: [
          length(
            'recovered',
            'Came up',
            'All that came up, fall-in on top of it included. Up to about 1.2 m a run (common practice).',
            { needed: true },
          ),
          choice(
            'laid_out',
            'Laid out',
            ['later', 'in one piece', 'piece by piece'],
            'Record each piece now or later: select the run in the field log, or Lay out in pieces.',
            'later',
          ),
          length(
            'fall_in',
            'Fall-in on top',
            'Disturbed, loose sediment on top of it, excluded from depths.',
          ),
          choice(
            'outcome',
            'How it went',
            columns.runs.columns.outcome.choices,
            'Full, part, empty, lost while lifting.',
            '',
          ),
          choice(
            'loss_position',
            'Core lost at',
            columns.runs.columns.loss_position.choices,
            'Where the missing core was lost: base (torn lower end), top (washed), spread along it, or unknown.',
            'unknown',
          ),
          number('strokes', 'Strokes', '', 'How often it was lifted and dropped.', {
            whole: true,
            initial: strokesSoFar(now),
          }),
        ],
      };
    case 'pieces':
      return piecesForm(base, now, source);
    case 'push':
      return pushForm(base, source, now);
    case 'answer':
      return {
        ...base,
        title: 'Check',
        verb: 'Record the answer',
        table: 'checks',
        fields: [
          choice(
            'answer',
            'Answer',
            columns.checks.columns.answer.choices,
            'What was asked before the first joint, and what was found.',
            '',
          ),
        ],
      };
    case 'waters':
      return watersForm(base, now);
    case 'gear':
      return gearForm(base, now);
    case 'pull':
      return pullForm(base, now);
    case 'lost':
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
    case 'note':
      return {
        ...base,
        title: 'Write a note',
        verb: 'Record the note',
        fixed: { hole, purpose: 'other' },
        table: 'soundings',
        fields: [
          {
            ...text('note', 'Note', 'Anything worth saying, at this place in the order of the readings.'),
            needed: true,
          },
        ],
      };
    case 'crew':
      return {
        ...base,
        title: 'Crew change',
        verb: 'Go on',
        table: null,
        fields: [
          {
            ...text('by', 'Who reads now', 'A role or initials; goes with every reading from here.'),
            ready: readers(source),
            needed: true,
          },
        ],
      };
    case 'tide':
      return {
        ...base,
        title: 'Stop for the tide',
        verb: 'Leave the hole',
        caution: 'Leave in time. The string can stay; people cannot.',
        table: null,
        fields: [text('note', 'How it is left', 'Collar closed, string secured, what hangs in it.')],
      };
    case 'close':
      return closeForm(base, now);
    case 'second_hole':
      return {
        ...base,
        title: 'Start replacement hole',
        verb: 'Start hole',
        table: 'holes',
        fields: [
          {
            ...text('hole', 'Label', 'A label of its own; the lost hole keeps its label.'),
            initial: `${hole}b`,
            needed: true,
          },
          number(
            'distance_to_replaced_m',
            'Distance from the lost hole',
            'm',
            'Far enough to miss the pipe: usually 1 to 5 m (common practice).',
          ),
        ],
      };
  }
}

function groundField(): Field {
  return length(
    'ground_below_reference',
    'Ground below the reference',
    'From the levelled reference down to the ground, positive down. Usually 0 to 0.5 m; the ground moves, the reference does not.',
    {
      needed: true,
      signed: true,
    },
  );
}

function driveFields(now: HoleState, typed: (m: number | null) => string, ended = 'length'): Field[] {
  const stickUp = now.last?.stick_up_m ?? null;
  return [
    length('stick_up_start', 'Stick-up before', 'Collar above the reference before the drive.', {
      needed: true,
      signed: true,
      initial: typed(stickUp),
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
    choice('ended_by', 'Ended by', columns.drives.columns.ended_by.choices, 'Why it stopped.', ended),
    number('frequency_hz', 'Vibrator speed', 'Hz', 'As the gauge shows it.'),
  ];
}

function addForm(base: Base, now: HoleState, source: RowSource): EntryForm {
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
        columns.string_items.columns.item.choices,
        'Joint, shoe, coupling or drive head.',
        item,
      ),
    ],
  };
}

function tightForm(name: 'tighten' | 'loose', base: Base, now: HoleState): EntryForm {
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

function pullForm(base: Base, now: HoleState): EntryForm {
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
      number('line_load_kn', 'Line load', 'kN', 'As the load cell shows it, if there is one.'),
      length('length', 'Length cut off', 'Only where it was cut.'),
    ],
  };
}

function closeForm(base: Base, now: HoleState): EntryForm {
  const left = now.fold.account.filter((i) => i.fate === 'left' || i.fate === 'lost');
  const lost = now.fold.account.some((i) => i.fate === 'lost');
  const blocked =
    now.fold.drives.at(-1)?.ended_by === 'refusal' || now.fold.drives.at(-1)?.ended_by === 'obstruction';
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
        lost ? 'lost' : blocked ? 'refused' : 'finished',
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

const itemWord = (i: { item: string; label: string | null }): string =>
  `${i.item.replace('_', ' ')} ${i.label ?? ''}`.trim();

/** Whether the sounding comes before or after what. */
function soundingPurpose(now: HoleState): string {
  const at = now.readings.findLastIndex((r) => r.kind === 'drive' || r.kind === 'run' || r.kind === 'joint');
  const last = now.readings[at];
  if (last === undefined) return 'other';
  const sounded = now.readings
    .slice(at + 1)
    .some((r) => r.kind === 'sounding' && r.to_sediment_m !== null && r.purpose !== 'zero_check');
  if (last.kind === 'joint') return 'before_drive';
  if (sounded) return 'before_run';
  return last.kind === 'drive' ? 'after_drive' : 'after_run';
}

function nextRun(source: RowSource, hole: string): string {
  let highest = 0;
  for (const { cells } of source.rows('runs')) {
    if (cells['hole'] !== hole) continue;
    const n = Number(/(\d+)\s*$/.exec(cells['run'] ?? '')?.[1] ?? 0);
    if (n > highest) highest = n;
  }
  return `R${highest + 1}`;
}

const strokesSoFar = (now: HoleState): string => {
  const run = now.readings.findLast((r) => r.kind === 'run');
  return run?.kind === 'run' && run.strokes !== null ? String(run.strokes) : '';
};

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

function readers(source: RowSource): { value: string; word: string }[] {
  const seen = new Set<string>();
  for (const table of ['soundings', 'drives', 'runs', 'string_items'] as const) {
    for (const { cells } of source.rows(table)) if (cells['by']) seen.add(cells['by']);
  }
  return words([...seen].slice(0, 8));
}
