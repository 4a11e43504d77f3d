/**
 * What is entered for each action: its fields in the order a hand reads them, what they are, what usually stands
 * there, and the cells they become. Past 250 lines because it is one list. Nothing but the few lengths without which
 * a reading says nothing is asked for; whatever is blank stays blank.
 */
import { parseLength, schemas, type TableName } from '@stillstand/campaign/tables';
import { CRITICAL_GRADIENTS } from '@stillstand/science/rig';
import { soundedNow } from './cable.ts';
import { type HoleNow, rowsOf } from './hole-now.ts';
import { typedLength } from './lengths.ts';
import { drawing, looseJoint } from './next-action.ts';
import type { RowSource, TypedRow } from './store-door.ts';
import { insideKind } from './water-now.ts';

interface FieldBase {
  column: string;
  label: string;
  /** What it is, its unit, a typical range and where that comes from. */
  help: string;
  /** Without it the reading says nothing. */
  needed?: boolean;
  /** Stands there until something else is typed. */
  initial?: string;
  /** The initial is what the string should be, not what was read: marked as assumed. */
  assumed?: boolean;
}

interface LengthField extends FieldBase {
  kind: 'length';
  /** May be below zero: the keypad shows its sign. */
  signed?: boolean;
}
interface NumberField extends FieldBase {
  kind: 'number';
  unit: string;
  whole?: boolean;
}
export interface ChoiceField extends FieldBase {
  kind: 'choice';
  options: readonly { value: string; word: string }[];
}
export interface TextField extends FieldBase {
  kind: 'text';
  /** Ready words to press instead of typing; `also` fills other fields with them. */
  ready?: readonly { value: string; word: string; also?: Readonly<Record<string, string>> }[];
}
export type Field = LengthField | NumberField | ChoiceField | TextField;

export type FormName =
  | 'check'
  | 'add'
  | 'tighten'
  | 'loose'
  | 'drive'
  | 'fill'
  | 'sound'
  | 'water'
  | 'mark'
  | 'run'
  | 'cable'
  | 'lay_out'
  | 'pieces'
  | 'push'
  | 'answer'
  | 'waters'
  | 'gear'
  | 'pull'
  | 'lost'
  | 'ground'
  | 'note'
  | 'crew'
  | 'tide'
  | 'stuck'
  | 'close'
  | 'second_hole';

export interface EntryForm {
  name: FormName;
  title: string;
  /** On the main action: "Record the sounding". */
  verb: string;
  caution: string | null;
  table: TableName | null;
  /** Cells that go with it, unseen. */
  fixed: Readonly<Record<string, string>>;
  fields: readonly Field[];
}

const words = (values: readonly string[]): { value: string; word: string }[] =>
  values.map((value) => ({ value, word: plainWord(value) }));

/** A cell's word as people say it: "lost_lifting" to "lost lifting". */
export const plainWord = (value: string): string => value.replaceAll('_', ' ');

const columns = schemas;

/** The form of an action, filled with what usually stands there. */
export function formFor(name: FormName, now: HoleNow, source: RowSource): EntryForm {
  const hole = now.row.hole;
  const base = { name, fixed: { hole }, caution: null };
  const typed = (m: number | null | undefined): string => (m == null ? '' : typedLength(m, now.unit));
  switch (name) {
    case 'check':
      return {
        ...base,
        title: 'Check the place',
        verb: 'Record the check',
        table: 'ground',
        caution: 'Locate what is buried and what hangs overhead first.',
        fields: [groundField()],
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
              initial: typed(soundedNow(now)),
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

type Base = Pick<EntryForm, 'name' | 'fixed' | 'caution'>;

const length = (
  column: string,
  label: string,
  help: string,
  more: Partial<Omit<LengthField, 'kind' | 'column' | 'label' | 'help'>> = {},
): LengthField => ({ kind: 'length', column, label, help, ...more });

const number = (
  column: string,
  label: string,
  unit: string,
  help: string,
  more: Partial<Pick<NumberField, 'whole' | 'initial' | 'needed'>> = {},
): NumberField => ({ kind: 'number', column, label, unit, help, ...more });

const text = (column: string, label: string, help: string): TextField => ({
  kind: 'text',
  column,
  label,
  help,
});

const choice = (
  column: string,
  label: string,
  values: readonly string[],
  help: string,
  initial: string,
): ChoiceField => ({
  kind: 'choice',
  column,
  label,
  help,
  options: words(values),
  ...(initial === '' ? {} : { initial }),
});

function groundField(initial = ''): LengthField {
  return length(
    'ground_below_reference',
    'Ground below the reference',
    'From the levelled reference down to the ground, positive down. Usually 0 to 0.5 m; the ground moves, the reference does not.',
    {
      needed: true,
      signed: true,
      ...(initial === '' ? {} : { initial }),
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

/** Pieces of the last run that are laid out already, and what is left of it. Lengths from the top of what came up. */
export function piecesSoFar(
  now: HoleNow,
  source: RowSource,
): { run: string; recovered_m: number; laid: { top_m: number; bottom_m: number; tray: string }[] } | null {
  const run = now.readings.findLast((r) => r.kind === 'run');
  if (run?.kind !== 'run' || run.recovered_m === null || run.recovered_m <= 0) return null;
  const laid = standing(rowsOf(source, 'pieces', now.row.hole))
    .filter(({ cells }) => cells['run'] === run.run)
    .flatMap(({ cells }) => {
      const [top, bottom] = [parseLength(cells['top'] ?? ''), parseLength(cells['bottom'] ?? '')];
      return top.ok && bottom.ok
        ? [{ top_m: top.metres, bottom_m: bottom.metres, tray: cells['tray'] ?? '' }]
        : [];
    });
  return { run: run.run, recovered_m: run.recovered_m, laid };
}

/** Rows that nothing amends and that take nothing back. */
export function standing(rows: readonly TypedRow[]): TypedRow[] {
  const amended = new Set(rows.flatMap((r) => (r.cells['amends'] ? [r.cells['amends']] : [])));
  return rows.filter((r) => !amended.has(r.row_id) && r.cells['amend_kind'] !== 'withdraw');
}

function piecesForm(base: Base, now: HoleNow, source: RowSource): EntryForm {
  const so = piecesSoFar(now, source);
  const run = now.readings.findLast((r) => r.kind === 'run');
  const fallIn = run?.kind === 'run' ? (run.fall_in_top_m ?? 0) : 0;
  const top = Math.max(fallIn, ...(so?.laid.map((p) => p.bottom_m) ?? []));
  const tray = so?.laid.at(-1)?.tray || lastCell(source, 'pieces', base.fixed['hole'] ?? '', 'tray');
  const next = /^(.*?)(\d+)$/.exec(tray);
  return {
    ...base,
    title: `Piece ${(so?.laid.length ?? 0) + 1} of ${so?.run ?? 'the run'}`,
    verb: 'Record the piece',
    table: 'pieces',
    fixed: { ...base.fixed, run: so?.run ?? '' },
    fields: [
      length(
        'bottom',
        'Lower end',
        'From the top of what came up, fall-in included, down to the lower end of this piece.',
        {
          needed: true,
          ...(so === null ? {} : { initial: typedLength(so.recovered_m, now.unit), assumed: true }),
        },
      ),
      length('top', 'Upper end', 'Lower than the piece above it where a gap was left: a gap is lost core.', {
        needed: true,
        initial: typedLength(top, now.unit),
        assumed: true,
      }),
      {
        ...text('tray', 'Tray', 'Where it lies, as it is written on the tray.'),
        initial: tray,
        ready: words([
          ...(tray === '' ? ['1'] : [tray]),
          ...(next === null ? [] : [`${next[1]}${Number(next[2]) + 1}`]),
        ]),
      },
      {
        ...text('condition', 'Condition', 'Intact, broken, washed: what it can still tell.'),
        initial: 'intact',
        ready: words(['intact', 'broken', 'washed', 'smeared', 'dried out']),
      },
    ],
  };
}

function pushForm(base: Base, source: RowSource, now: HoleNow): EntryForm {
  const rows = standing(rowsOf(source, 'pushes', now.row.hole));
  const last = rows.at(-1)?.cells ?? {};
  const labels = new Set(rows.map((r) => r.cells['push']));
  let n = rows.length + 1;
  while (labels.has(`P${n}`)) n++;
  const tube = now.row.method === 'tube';
  const inside = length(
    'inside_top',
    'Sediment inside',
    'From the top of the tube down to the sediment inside, before it is pulled.',
  );
  const outside = length(
    'outside_top',
    'Ground outside',
    'From the top of the tube down to the ground, before it is pulled: inside less outside is the shortening.',
  );
  return {
    ...base,
    title: `Push P${n}`,
    verb: 'Record the push',
    caution: tube ? 'Nobody under the load while it is pulled.' : null,
    table: 'pushes',
    fixed: { ...base.fixed, push: `P${n}` },
    fields: [
      length(
        'to',
        'Lower end',
        'Lower end of the push below the ground. Chambers are usually 0.5 or 1 m long.',
        {
          needed: true,
        },
      ),
      length('from', 'Upper end', 'Upper end of the push below the ground: where the last one ended.', {
        needed: true,
        initial: last['to'] ?? typedLength(0, now.unit),
        assumed: true,
      }),
      length('recovered', 'Came up', 'Length recovered; blank where the chamber is read in place.'),
      ...(tube ? [inside, outside] : []),
      text('note', 'Note', 'Soft, stone at the tip, water in the chamber.'),
    ],
  };
}

function watersForm(base: Base, now: HoleNow): EntryForm {
  const kinds = columns.water.columns.kind.choices;
  return {
    ...base,
    title: 'Water and plug',
    verb: 'Take it so',
    caution: 'Not sure: leave sea water outside and an organic plug, the worst case.',
    table: null,
    fields: [
      choice(
        'water_outside',
        'Water outside',
        kinds,
        'What stands round the string: the sea, or a fresh water table. For the whole campaign.',
        now.settings.water_outside,
      ),
      choice(
        'water_inside',
        'Water inside',
        kinds,
        'What the string was filled with. Fresh water weighs 2.5 % less than sea water.',
        insideKind(now) ?? '',
      ),
      choice(
        'plug_kind',
        'The plug is',
        Object.keys(CRITICAL_GRADIENTS),
        'What stands above the shoe: sand bears ten times the upward flow that peat or mud does. For the whole campaign.',
        now.settings.plug_kind,
      ),
    ],
  };
}

/** Fields of the gear are settings by their own names. */
function gearForm(base: Base, now: HoleNow): EntryForm {
  const { pulling, given } = now;
  const said = (name: string, value: number | null) =>
    given.has(name) && value !== null ? { initial: String(value) } : {};
  const load = (name: string, label: string, help: string, value: number | null) =>
    number(
      name,
      label,
      'kN',
      `${help} 1 t is 9.8 kN. A competent person checks it; the makers’ manuals and local codes come first.`,
      said(name, value),
    );
  return {
    ...base,
    title: 'What pulls the string',
    verb: 'Take it so',
    caution: 'Read the marks on the gear itself. None is passed, whatever the estimate.',
    table: null,
    fields: [
      number(
        'line_parts',
        'Parts of line',
        '',
        'Lines that carry the block: 1 where the winch line goes straight to the string.',
        {
          whole: true,
          initial: String(pulling.parts),
        },
      ),
      load('rated_line_kn', 'Marked on the line', 'The least of rope and winch.', pulling.rated_line_kn),
      load(
        'rated_hook_kn',
        'Marked on the hook',
        'The least of hook, shackle and clamp.',
        pulling.rated_hook_kn,
      ),
      load('rated_head_kn', 'Marked on the tripod', 'Tripod, derrick or anchor.', pulling.rated_head_kn),
      number(
        'hanging_kg',
        'Hanging with it',
        'kg',
        'Drive head, vibrator and block that hang on the hook with the string.',
        said('hanging_kg', pulling.hanging_kg),
      ),
      number('line_sheaves', 'Sheaves', '', 'That the line rolls over; blank for as many as parts.', {
        whole: true,
        ...said('line_sheaves', pulling.sheaves),
      }),
      choice(
        'line_bearing',
        'Their bearings',
        ['plain', 'roller'],
        'Plain ones take more of the pull.',
        pulling.bearing,
      ),
    ],
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

function lastCell(source: RowSource, table: TableName, hole: string, column: string): string {
  return (
    source.rows(table).findLast((r) => r.cells['hole'] === hole && (r.cells[column] ?? '') !== '')?.cells[
      column
    ] ?? ''
  );
}

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
