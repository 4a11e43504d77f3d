/** What is still open at the end of a day and at a hand-over: what is over is no danger, and nothing that stands is left out. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import type { TableName } from '@stillstand/campaign/tables';
import { rowsOfDocument } from '../row-source.ts';
import { SAFETY_QUESTIONS } from '../safety/questions.ts';
import { holeState } from '../state.ts';
import { dayFacts } from './day-facts.ts';
import { handOverLines } from './hand-over.ts';

const DAY = '2024-06-11';
const at = (clock: string) => ({ hole: 'H1', time: `${DAY}T${clock}:00+02:00` });
type Cells = Record<string, string>;

const ADDED: Cells[] = ['A1', 'A2'].map((joint, i) => ({
  ...at('08:10'),
  seq: `${2 + i}`,
  action: 'add',
  item: 'joint',
  joint,
  length: '3 m',
  tight: 'yes',
}));

/** Two joints driven to 4.28 m, an obstruction met at 4 m on the way; then one run. */
function documentOf(run: Cells, more: Partial<Record<TableName, Cells[]>> = {}) {
  const tables: Partial<Record<TableName, Cells[]>> = {
    holes: [{ hole: 'H1', method: 'string', state: 'open' }],
    ground_levels: [{ ...at('08:00'), seq: '1', ground_below_reference: '0 m' }],
    string_items: ADDED,
    drives: [
      {
        ...at('08:20'),
        seq: '4',
        stick_up_start: '6 m',
        stick_up_end: '2 m',
        ended_by: 'obstruction',
        obstruction_response: 'lifted_and_retried',
      },
      // lifted by 0.32: 0.60 driven, of which 0.28 is new
      { ...at('08:30'), seq: '5', stick_up_start: '2.32 m', stick_up_end: '1.72 m' },
    ],
    soundings: [{ ...at('08:40'), seq: '6', to_sediment: '4.5 m' }],
    runs: [{ ...at('08:50'), seq: '7', run: 'R1', start_mark: '4.5 m', ...run }],
    ...more,
  };
  let document = newDocument('a campaign');
  for (const [table, rows] of Object.entries(tables) as [TableName, Cells[]][])
    document = withRows(document, table, rows);
  return document;
}

function factsOf(run: Cells, more: Partial<Record<TableName, Cells[]>> = {}) {
  const document = documentOf(run, more);
  return dayFacts(parseCampaign(document).campaign, rowsOfDocument(document), DAY);
}

const UNANSWERED = { level: 'caution', words: 'Site check of H1: 13 questions not answered' };

test('ground that is driven again after lifting counts once', () => {
  const { driven_m, holes } = factsOf({});
  // 4 m, then from 4.00 to 6 − 1.72
  assert.ok(Math.abs(driven_m - 4.28) < 1e-9, `${driven_m}`);
  assert.ok(Math.abs(holes[0]!.driven_m - holes[0]!.reached_m!) < 1e-9);
});

test('a sampler past the shoe is a danger while it hangs there, and a thing to inspect once it is lifted', () => {
  const of = (run: Cells) => factsOf(run).open;
  // string 6 m; tip at 6.05
  assert.deepEqual(of({ end_mark: '6.05 m' }), [
    { level: 'danger', words: 'H1: tip 0.05 m past the shoe. Lift it now' },
    UNANSWERED,
  ]);
  assert.deepEqual(of({ end_mark: '6.05 m', recovered: '1 m', outcome: 'full' }), [
    { level: 'caution', words: 'H1: Run R1 went 0.05 m past the shoe: inspect sampler and shoe' },
    UNANSWERED,
  ]);
  // near the shoe, and inside the margin: open while it hangs there, and no more
  assert.equal(of({ end_mark: '5.8 m' })[0]!.level, 'danger');
  for (const end_mark of ['5.5 m', '5.8 m'])
    assert.deepEqual(of({ end_mark, recovered: '0.9 m', outcome: 'full' }), [UNANSWERED]);
});

test('a run in hand is no news of the one before; how far past is never shown smaller; a warning is a caution', () => {
  const first = {
    ...at('08:50'),
    seq: '7',
    run: 'R1',
    start_mark: '4.5 m',
    recovered: '1 m',
    outcome: 'full',
  };
  const second = { ...at('09:20'), seq: '9', run: 'R2', start_mark: '4.5 m' };
  const open = (end_mark: string) => factsOf({}, { runs: [{ ...first, end_mark }, second] }).open;
  // the string is 6 m: 5.4 cm past, inside the margin, and R2 hangs well above both
  assert.deepEqual(open('6.054 m')[0], {
    level: 'caution',
    words: 'H1: Run R1 went 0.06 m past the shoe: inspect sampler and shoe',
  });
  assert.ok(!open('5.8 m').some((o) => o.level === 'danger' || /margin|close/.test(o.words)));
  // 6 − 1.2 = 4.8 m of sediment cannot be inside where 4.28 m were driven
  const much = factsOf({}, { soundings: [{ ...at('08:40'), seq: '6', to_sediment: '1.2 m' }] }).open;
  assert.ok(
    much.some((o) => o.level === 'caution' && /recovery|entered/.test(o.words)),
    JSON.stringify(much),
  );
});

test('all that came out is listed as out, damaged too; questions that were answered are not open', () => {
  const pulled = (seq: string, joint: string, more: Cells) => ({
    ...at('10:00'),
    seq,
    action: 'pull',
    item: 'joint',
    joint,
    ...more,
  });
  const { pipe, open } = factsOf(
    { recovered: '0 m', outcome: 'empty' },
    {
      string_items: [
        ...ADDED,
        pulled('8', 'A2', { condition: 'damaged' }),
        pulled('9', 'A1', { condition: 'sound' }),
      ],
      checks: [
        {
          ...at('07:50'),
          seq: '0.5',
          date: DAY,
          check: 'services',
          question: 'Buried services located',
          answer: 'yes',
        },
      ],
    },
  );
  assert.deepEqual(pipe.came_out, ['H1: joint A1', 'H1: joint A2, damaged']);
  assert.deepEqual(pipe.not_back, ['H1: joint A2, damaged']);
  assert.equal(open.at(-1)!.words, 'Site check of H1: 12 questions not answered');
});

function handedOver(run: Cells, more: Partial<Record<TableName, Cells[]>> = {}): string[] {
  const document = documentOf(run, more);
  return handOverLines(holeState(parseCampaign(document).campaign, 'H1')!, rowsOfDocument(document));
}

const answers = (answer: (check: string) => string): Cells[] =>
  SAFETY_QUESTIONS.map(({ check, question, of }, i) => ({
    ...(of === 'hole' ? { hole: 'H1' } : {}),
    time: `${DAY}T07:50:00+02:00`,
    seq: `0.${10 + i}`,
    date: DAY,
    check,
    question,
    answer: answer(check),
  }));

test('a hand-over says everything that matters first, the gravest first', () => {
  const lines = handedOver(
    { end_mark: '6.05 m', recovered: '1 m', outcome: 'full' },
    {
      drives: [
        { ...at('08:30'), seq: '4', stick_up_start: '6 m', stick_up_end: '1.72 m', ended_by: 'obstruction' },
      ],
      checks: answers((check) => (check === 'overhead' || check === 'reference' ? 'no' : 'yes')).filter(
        ({ check }) => check !== 'services',
      ),
      events: [
        { ...at('09:10'), seq: '8', kind: 'breakdown', text: 'winch' },
        { ...at('09:20'), seq: '9', kind: 'injury', text: 'finger' },
        // of the day before, more than 24 h ago
        { hole: 'H1', time: '2024-06-09T09:20:00+02:00', seq: '0.05', kind: 'breakdown', text: 'pump' },
      ],
      instrument_checks: [
        { seq: '1', date: DAY, instrument: 'T1', kind: 'tape', known: '10 m', observed: '9.988 m' },
        { seq: '2', date: DAY, instrument: 'T2', kind: 'tape', known: '10 m', observed: '9.988 m' },
        { seq: '3', date: DAY, instrument: 'T2', kind: 'tape', known: '10 m', observed: '10 m' },
      ],
    },
  );
  assert.match(lines[0]!, /^Dangers: Overhead line within reach of the mast\. Lower the mast/);
  assert.doesNotMatch(lines[0]!, /past the shoe|Lift it now/);
  assert.deepEqual(lines.slice(1, 8), [
    'Injury 09:20: finger',
    'Answered no: Reference not levelled. Level it before you leave: without it no depth of this hole has an elevation.',
    'Run R1 went 0.05 m past the shoe: inspect sampler and shoe',
    'Last drive met an obstruction at 4.28 m below the ground: what was done is not said',
    'Breakdown 09:10: winch',
    'tape T1 reads 1.2 cm short in 10 m; beyond its reading error',
    'Site check: 1 question not answered',
  ]);
});

test('a shift over midnight: what broke or who was hurt less than a day ago is handed on, of this hole or of none', () => {
  const event = (time: string, more: Cells) => ({ time: `${time}:00+02:00`, kind: 'injury', ...more });
  const lines = handedOver(
    { recovered: '1 m', outcome: 'full', end_mark: '5.5 m' },
    {
      checks: answers(() => 'yes'),
      events: [
        // the last reading is of 08:50: 20 h before it, and 25 h
        event('2024-06-10T12:50', { seq: '0.1', hole: 'H1', text: 'hand' }),
        event('2024-06-10T07:50', { seq: '0.05', hole: 'H1', text: 'foot' }),
        event('2024-06-11T08:45', { seq: '8', date: DAY, text: 'eye' }),
      ],
    },
  );
  assert.deepEqual(lines.filter((line) => line.startsWith('Injury')).sort(), [
    'Injury 08:45: eye',
    'Injury 12:50: hand',
  ]);
});

test('no danger is recorded only where nothing is, and a sampler past the shoe is one while it hangs there', () => {
  const yes = { checks: answers(() => 'yes') };
  assert.equal(
    handedOver({ recovered: '1 m', outcome: 'full', end_mark: '5.5 m' }, yes)[0],
    'Dangers: none recorded',
  );
  assert.equal(handedOver({ end_mark: '6.05 m' }, yes)[0], 'Dangers: tip 0.05 m past the shoe. Lift it now');
  const moved = handedOver(
    {},
    {
      ...yes,
      drives: [
        {
          ...at('08:30'),
          seq: '4',
          stick_up_start: '6 m',
          stick_up_end: '2 m',
          ended_by: 'refusal',
          obstruction_response: 'moved',
        },
      ],
    },
  );
  assert.equal(moved[0], 'Last drive met refusal at 4.00 m below the ground: hole moved');
});
