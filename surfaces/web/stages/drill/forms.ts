/**
 * What is entered for each action: its fields in the order a hand reads them, what they are, what usually stands
 * there, and the cells they become. Past 250 lines because it is one list. Nothing but the few lengths without which
 * a reading says nothing is asked for; whatever is blank stays blank.
 */
import { schemas } from '@stillstand/campaign/tables';
import { soundedNow } from './cable.ts';
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
import type { HoleNow } from './hole-now.ts';
import { typedLength } from './lengths.ts';
import { drawing, looseJoint } from './next-action.ts';
import { piecesForm } from './pieces.ts';
import { pushForm } from './push-form.ts';
import { gearForm, watersForm } from './said-forms.ts';
import { lastCell } from './standing.ts';
import type { RowSource } from './store-door.ts';

const columns = schemas;

/** The form of an action, filled with what usually stands there. */
export function formFor(name: FormName, now: HoleNow, source: RowSource): EntryForm {
  const hole = now.row.hole;
  const base = { name, fixed: { hole }, caution: null };
  const typed = (m: number | null | undefined, unit = now.units.tape): string =>
    m == null ? '' : typedLength(m, unit);
  switch (name) {
    case 'check':
      return {
        ...base,
        title: 'Check the place',
        verb: 'Record the check',
        // opened again it only asks what was left open: the ground is read once
        table: now.ground_m === null ? 'ground' : null,
        caution: 'Locate what is buried and what hangs overhead first.',
        fields: now.ground_m === null ? [groundField()] : [],
      };
    case 'ground':
      return {
        ...base,
        title: 'Level the ground',
        verb: 'Record the ground',
        table: 'ground',
        fields: [
          groundField(),
          {
            kind: 'text',
            column: 'cause',
            label: 'What moved it',
            help: 'Tide, boots, sand drawn down round the pipe; blank if it has not moved.',
            ready: words(['not moved', 'tide over it', 'boots', 'drawn down round the pipe']),
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
        caution: 'Nobody holds the pipe. Ears covered. The vibrator by its own manual.',
        table: 'drives',
        fields: driveFields(now, typed),
      };
    case 'stuck':
      return {
        ...base,
        title: 'Slowing, refusal, stuck',
        verb: 'Record the drive',
        caution: 'Stop the vibrator before the string is held for good.',
        table: 'drives',
        fields: driveFields(now, typed, 'slowing'),
      };
    case 'fill':
      return {
        ...base,
        title: 'Fill the string',
        verb: 'Record the water',
        caution: 'Sand boils in through the shoe when the water inside stands low.',
        table: 'water',
        fields: [
          length(
            'to_water_after',
            'Water now',
            'Collar to the water inside after filling. Usually 0 to 0.3 m (common practice).',
            { needed: true },
          ),
          length(
            'to_water_before',
            'Water before',
            'Collar to the water inside before filling, if it was read.',
          ),
          number('volume_l', 'Volume', 'L', 'What was poured in, if it was counted.'),
          choice(
            'kind',
            'Kind',
            columns.water.columns.kind.choices,
            'Sea water is heavier: the head counts it.',
            lastCell(source, 'water', hole, 'kind'),
          ),
        ],
      };
    case 'sound':
      return {
        ...base,
        title: 'Sound the sediment',
        verb: 'Record the sounding',
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
        title: 'Check the water',
        verb: 'Record the water levels',
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
    case 'mark':
      return {
        ...base,
        title: 'Mark the cable',
        verb: 'Zero checked',
        fixed: { hole, purpose: 'zero_check' },
        table: 'soundings',
        caution: 'Zero check: with the tip at the collar the first mark reads 0.',
        fields: [],
      };
    case 'run':
      return {
        ...base,
        title: 'Run the sampler',
        verb: 'It has touched',
        caution: 'Hands clear of the cable. Nobody under the load.',
        table: 'runs',
        fields: [
          length(
            'start_mark',
            'Cable when it touched',
            'Tip below the collar when it first touched; as sounded, or zero check.',
            {
              needed: true,
              initial: typed(soundedNow(now), now.units.cable),
              assumed: soundedNow(now) !== null,
            },
          ),
          { ...text('run', 'Run', 'Its label in this hole.'), initial: nextRun(source, hole), needed: true },
          choice(
            'sampler',
            'Sampler',
            now.campaign.rows.samplers.map((s) => s.sampler),
            'Which sampler.',
            lastCell(source, 'runs', hole, 'sampler') || (now.campaign.rows.samplers[0]?.sampler ?? ''),
          ),
        ],
      };
    case 'cable':
      return {
        ...base,
        title: `Run ${now.run?.run ?? ''}`.trim(),
        verb: 'Record the cable',
        caution: 'Hands clear of the cable. Nobody under the load.',
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
            'Where each length of it lies. Later is as good: a press on the book’s run, or on Lay out in pieces.',
            'later',
          ),
          length(
            'fall_in_top',
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
            'loss_at',
            'Missing at',
            columns.runs.columns.loss_at.choices,
            'Where what was taken but did not come up is missing: the lower end looks torn, or the top washed.',
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
        caution: 'Nobody near the hole while the line is loaded. What is down there will not run away.',
        table: 'joints',
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
        caution: 'Leave in time. The string can stand; people cannot.',
        table: null,
        fields: [text('note', 'How it is left', 'Collar closed, string secured, what hangs in it.')],
      };
    case 'close':
      return closeForm(base, now);
    case 'second_hole':
      return {
        ...base,
        title: 'Start a second hole',
        verb: 'Start it',
        table: 'holes',
        fields: [
          {
            ...text('hole', 'Its label', 'Its own label; the lost hole keeps its own.'),
            initial: `${hole}b`,
            needed: true,
          },
          number(
            'offset_m',
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

function driveFields(now: HoleNow, typed: (m: number | null) => string, ended = 'length'): Field[] {
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
    number('duration_s', 'Time', 's', 'How long the vibrator ran; its rate tells slowing from refusal.'),
    choice('ended_by', 'Ended by', columns.drives.columns.ended_by.choices, 'Why it stopped.', ended),
    number('speed_hz', 'Vibrator speed', 'Hz', 'As the gauge shows it.'),
  ];
}

function addForm(base: Base, now: HoleNow, source: RowSource): EntryForm {
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
    caution: 'Measure it before it goes up. Two people on the thread, hands off the rim.',
    table: 'joints',
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
        columns.joints.columns.item.choices,
        'Joint, shoe, coupling or drive head.',
        item,
      ),
    ],
  };
}

function tightForm(name: 'tighten' | 'loose', base: Base, now: HoleNow): EntryForm {
  const loose = looseJoint(now);
  return {
    ...base,
    title:
      name === 'loose' ? 'Joint loose' : `Confirm ${loose === null ? 'the joint' : itemWord(loose)} tight`,
    verb: name === 'loose' ? 'Record it loose' : 'It is tight',
    caution: 'A string that parts below ground cannot be got back.',
    table: 'joints',
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

function pullForm(base: Base, now: HoleNow): EntryForm {
  const top = now.string.at(-1);
  return {
    ...base,
    title:
      top === undefined
        ? 'Nothing to pull'
        : drawing(now)
          ? `Pull ${itemWord(top)}`
          : `Pull the string: ${itemWord(top)} first`,
    verb: 'It is out',
    caution: 'Nobody under the load or in line with the cable. No mark on the gear is passed.',
    table: 'joints',
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

function closeForm(base: Base, now: HoleNow): EntryForm {
  const left = now.fold.account.filter((i) => i.fate === 'left' || i.fate === 'lost');
  const lost = now.fold.account.some((i) => i.fate === 'lost');
  const blocked =
    now.fold.drives.at(-1)?.ended_by === 'refusal' || now.fold.drives.at(-1)?.ended_by === 'obstruction';
  return {
    ...base,
    title: 'Close the hole',
    verb: 'Close the hole',
    table: 'holes',
    fields: [
      choice(
        'state',
        'How it ended',
        ['finished', 'refused', 'lost', 'abandoned'],
        'Its state in the record.',
        lost ? 'lost' : blocked ? 'refused' : 'finished',
      ),
      {
        ...text('end_reason', 'Why', 'Target reached, refusal, obstruction, tide.'),
        ready: words(['target reached', 'refusal', 'obstruction']),
      },
      {
        ...text('left_in_ground', 'Left in the ground', 'Named for the permit.'),
        initial: left.map(itemWord).join(', '),
      },
      {
        ...text('sealed_with', 'Sealed with', 'Bentonite, sand, nothing: as the permit asks.'),
        ready: words(['bentonite', 'sand', 'nothing']),
      },
    ],
  };
}

const itemWord = (i: { item: string; label: string | null }): string =>
  `${i.item.replace('_', ' ')} ${i.label ?? ''}`.trim();

/** Whether the sounding comes before or after what. */
function soundingPurpose(now: HoleNow): string {
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

const strokesSoFar = (now: HoleNow): string => {
  const run = now.readings.findLast((r) => r.kind === 'run');
  return run?.kind === 'run' && run.strokes !== null ? String(run.strokes) : '';
};

/** Pipe measured before in this campaign that is not in this hole and was not lost anywhere, the last used first. */
function knownItems(source: RowSource, now: HoleNow): { label: string; typed: string; item: string }[] {
  const known = new Map<string, { label: string; typed: string; item: string }>();
  const gone = new Set<string>();
  const withdrawn = new Set(
    source.rows('joints').flatMap((r) => (r.cells['amends'] ? [r.cells['amends']] : [])),
  );
  for (const { row_id, cells } of source.rows('joints')) {
    const label = cells['joint']?.trim() ?? '';
    if (label === '' || withdrawn.has(row_id) || cells['amend_kind'] === 'withdraw') continue;
    const item = cells['item'] ?? 'joint';
    const key = `${item} ${label}`;
    if (cells['action'] === 'lost' || cells['action'] === 'left') gone.add(key);
    if (cells['action'] !== 'add') continue;
    gone.delete(key);
    known.delete(key);
    known.set(key, { label, typed: cells['length'] ?? '', item });
  }
  const inside = new Set(now.string.map((i) => `${i.item} ${i.label}`));
  const head = now.string.length === 0;
  return [...known.entries()]
    .filter(([key, k]) => !gone.has(key) && !inside.has(key) && (k.item === 'shoe') === head)
    .map(([, k]) => k)
    .reverse();
}

function readers(source: RowSource): { value: string; word: string }[] {
  const seen = new Set<string>();
  for (const table of ['soundings', 'drives', 'runs', 'joints'] as const) {
    for (const { cells } of source.rows(table)) if (cells['by']) seen.add(cells['by']);
  }
  return words([...seen].slice(0, 8));
}
