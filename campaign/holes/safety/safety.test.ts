import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { randomStream } from '@stillstand/science/base';
import { questionOf, SAFETY_QUESTIONS } from './questions.ts';
import { givenWords, type SafetyCheck, safetyChecks, safetyProblems } from './safety.ts';

type Cells = Record<string, string>;

function campaignOf(checks: Cells[], days: Cells[] = [], holes: Cells[] = [{ hole: 'H1' }, { hole: 'H2' }]) {
  const withIds = (rows: Cells[], prefix: string) =>
    rows.map((r, i) => ({ row_id: `${prefix}${i}`, ...(prefix === 'h' ? { method: 'string' } : {}), ...r }));
  let document = withRows(newDocument('safety'), 'holes', withIds(holes, 'h'));
  if (days.length > 0) document = withRows(document, 'field_days', withIds(days, 'd'));
  if (checks.length > 0) document = withRows(document, 'checks', withIds(checks, 'c'));
  return parseCampaign(document).campaign;
}

const DAY = '2024-03-05';
const NEXT = '2024-03-06';
const OVERHEAD = 'Mast clear of overhead lines';
const ALONE = 'Nobody works alone';
const find = (checks: readonly SafetyCheck[], question: string): SafetyCheck =>
  checks.find((c) => c.question === question)!;
const at = (clock: string, day = DAY): string => `${day}T${clock}:00+08:00`;

test('a no names its hazard, what to do, who said so and when, until the question is answered otherwise', () => {
  const no = { hole: 'H1', date: DAY, item: OVERHEAD, answer: 'no', seq: '3', by: 'DK', time: at('08:12') };
  const standing = find(safetyChecks(campaignOf([no]), DAY, 'H1'), OVERHEAD);
  assert.equal(standing.state, 'danger');
  assert.match(standing.hazard, /Overhead line/);
  assert.match(standing.act, /Lower the mast/);
  assert.equal(givenWords(standing.given!), 'by DK, 2024-03-05 08:12');
  // another hole has its own answer; the next day the no still stands
  assert.equal(find(safetyChecks(campaignOf([no]), DAY, 'H2'), OVERHEAD).state, 'open');
  assert.equal(find(safetyChecks(campaignOf([no]), NEXT, 'H1'), OVERHEAD).state, 'danger');
  for (const answer of ['yes', 'not_needed']) {
    const then = { ...no, answer, seq: '4', by: 'JL', time: at('09:30') };
    const check = find(safetyChecks(campaignOf([no, then]), DAY, 'H1'), OVERHEAD);
    assert.equal(check.state, 'answered');
    assert.equal(givenWords(check.given!), 'by JL, 2024-03-05 09:30');
  }
});

test('a new day asks again, with the older answer and its age beside it', () => {
  const yes = { hole: 'H1', date: DAY, item: OVERHEAD, answer: 'yes', seq: '3', by: 'DK', time: at('08:12') };
  const check = find(safetyChecks(campaignOf([yes]), NEXT, 'H1'), OVERHEAD);
  assert.equal(check.state, 'open');
  assert.equal(check.given, null);
  assert.deepEqual([check.earlier?.answer, check.earlier?.day], ['yes', DAY]);
  // a check of the day likewise, and what is planned for a later day says nothing of this one
  const alone = { date: NEXT, item: ALONE, answer: 'yes', seq: '1' };
  assert.equal(find(safetyChecks(campaignOf([alone]), NEXT, null), ALONE).state, 'answered');
  assert.equal(find(safetyChecks(campaignOf([alone]), DAY, 'H1'), ALONE).state, 'open');
  assert.equal(find(safetyChecks(campaignOf([alone]), DAY, 'H1'), ALONE).earlier, null);
});

test('where nothing says which answer came later, the no stands', () => {
  // one seq from two devices, in either order of their lines
  const no = { hole: 'H1', date: DAY, item: OVERHEAD, answer: 'no', seq: '3' };
  for (const rows of [
    [no, { ...no, answer: 'yes' }],
    [{ ...no, answer: 'yes' }, no],
  ]) {
    assert.equal(find(safetyChecks(campaignOf(rows), DAY, 'H1'), OVERHEAD).state, 'danger');
  }
  // a day's no without a hole, as older campaigns have it, stands for every hole until the hole itself is answered later
  const old = { date: DAY, item: 'overhead lines cleared', answer: 'no', seq: '1', time: at('08:00') };
  const own = { hole: 'H1', date: DAY, item: OVERHEAD, answer: 'yes', seq: '1', time: at('08:30') };
  assert.equal(find(safetyChecks(campaignOf([old]), DAY, 'H2'), OVERHEAD).state, 'danger');
  assert.equal(find(safetyChecks(campaignOf([old, own]), DAY, 'H1'), OVERHEAD).state, 'answered');
  assert.equal(find(safetyChecks(campaignOf([old, own]), DAY, 'H2'), OVERHEAD).state, 'danger');
  assert.equal(
    find(safetyChecks(campaignOf([{ ...old, time: '' }, own]), DAY, 'H1'), OVERHEAD).state,
    'danger',
  );
});

test('older wordings, signatures in a day’s note, amendments and a crew’s own questions', () => {
  for (const q of SAFETY_QUESTIONS)
    for (const words of [q.question, ...q.was])
      assert.equal(questionOf({ check: null, question: words.toUpperCase() }, q.of), q, words);
  // The name holds where the words are of another version or language; a name that is none of ours says nothing.
  const overhead = SAFETY_QUESTIONS.find((q) => q.check === 'overhead')!;
  assert.equal(questionOf({ check: 'overhead', question: 'Mast frei von Leitungen' }, 'hole'), overhead);
  assert.equal(questionOf({ check: 'crane', question: OVERHEAD }, 'hole'), overhead);
  assert.equal(questionOf({ check: 'crane', question: 'Crane seen' }, 'hole').question, 'Crane seen');
  const days = [
    { date: DAY, note: 'gale later; signed: services located (DK 08:10), leave by known (hand 08:12)' },
  ];
  const signed = safetyChecks(campaignOf([], days), DAY, 'H1');
  assert.deepEqual(
    signed
      .filter((c) => c.state === 'answered')
      .map((c) => [c.check, c.given?.by, c.given?.time, c.given?.row_id]),
    [
      ['services', 'DK', '08:10', null],
      ['leave_by', 'hand', '08:12', null],
    ],
  );
  // a reading says otherwise than the note
  const no = { date: DAY, item: 'leave by known to all', answer: 'no', seq: '1', by: 'DK' };
  assert.equal(
    find(safetyChecks(campaignOf([no], days), DAY, 'H1'), 'Leave-by time known to all').state,
    'danger',
  );
  // withdrawn, a no was never given; amended, the amendment stands
  const withdrawn = { amends: 'c0', amend_kind: 'withdraw', seq: '1', date: DAY, item: '' };
  assert.equal(
    find(safetyChecks(campaignOf([no, withdrawn]), DAY, 'H1'), 'Leave-by time known to all').state,
    'open',
  );
  const amended = { ...no, amends: 'c0', amend_kind: 'replace', answer: 'yes' };
  assert.equal(
    find(safetyChecks(campaignOf([no, amended]), DAY, 'H1'), 'Leave-by time known to all').state,
    'answered',
  );
  // amendments that differ: a no among them may be the true one
  const by = (kind: string, answer: string): Cells => ({ ...no, amends: 'c0', amend_kind: kind, answer });
  for (const [first, rivals, state] of [
    ['yes', [by('replace', 'no'), by('replace', 'not_needed')], 'danger'],
    ['yes', [by('replace', 'no'), by('withdraw', '')], 'danger'],
    ['no', [by('replace', 'yes'), { ...by('replace', 'yes'), by: 'RM' }], 'answered'],
  ] as const) {
    const disputed = campaignOf([
      { ...no, item: OVERHEAD, answer: first },
      ...rivals.map((r) => ({ ...r, item: OVERHEAD })),
    ]);
    assert.equal(find(safetyChecks(disputed, DAY, 'H1'), OVERHEAD).state, state);
    assert.equal(safetyProblems(disputed).length, state === 'danger' ? 1 : 0);
  }
  const own = { hole: 'H1', date: DAY, item: 'Tide gauge seen', answer: 'no', seq: '1' };
  const check = safetyChecks(campaignOf([own]), DAY, 'H1').at(-1)!;
  assert.deepEqual(
    [check.question, check.state, check.hazard],
    ['Tide gauge seen', 'danger', 'Tide gauge seen: no'],
  );
});

test('a standing no is a danger of the campaign while work goes on, and a note once its hole has ended', () => {
  const no = { hole: 'H1', date: DAY, item: OVERHEAD, answer: 'no', seq: '3', by: 'DK', time: at('08:12') };
  const alone = { date: DAY, item: ALONE, answer: 'no', seq: '1' };
  const level = { hole: 'H2', date: DAY, item: 'Reference levelled', answer: 'no', seq: '1' };
  const words = (state: string) =>
    safetyProblems(
      campaignOf(
        [no, alone, level],
        [],
        [
          { hole: 'H1', state },
          { hole: 'H2', state: 'planned' },
        ],
      ),
    ).map((p) => `${p.severity} ${p.label}: ${p.found}`);
  assert.deepEqual(words('open'), [
    'danger 2024-03-05: no, name not given, 2024-03-05, to Nobody works alone',
    'danger H1: no, by DK, 2024-03-05 08:12, to Mast clear of overhead lines',
    'warning H2: no, name not given, 2024-03-05, to Reference levelled',
  ]);
  assert.match(words('finished')[1]!, /^note H1/);
  assert.match(words('finished')[0]!, /^danger/);
});

test('random answers to two holes over three days agree with a plain walk through them: seed 97', () => {
  const stream = randomStream(97);
  const pick = <T>(of: readonly T[]): T => of[Math.floor(stream.uniform() * of.length)]!;
  const days = [DAY, NEXT, '2024-03-07'];
  for (let campaign = 0; campaign < 300; campaign++) {
    const rows: Cells[] = [];
    // the twin: what was last said of each question, hole by hole
    const said = new Map<string, { answer: string; day: string }>();
    const seq = new Map<string, number>();
    const next = (series: string): string => {
      seq.set(series, (seq.get(series) ?? 0) + 1);
      return String(seq.get(series));
    };
    let minute = 0;
    for (const day of days) {
      for (let i = Math.floor(stream.uniform() * 14); i > 0; i--) {
        const q = pick(SAFETY_QUESTIONS);
        const hole = q.of === 'hole' ? pick(['H1', 'H2']) : null;
        const answer = pick(['yes', 'no', 'not_needed']);
        minute++;
        const time = `${day}T08:${String(minute % 60).padStart(2, '0')}:${String(minute % 50).padStart(2, '0')}+08:00`;
        rows.push({
          ...(hole === null ? {} : { hole }),
          date: day,
          item: q.question,
          answer,
          seq: next(hole ?? day),
          by: pick(['DK', 'JL']),
          time:
            hole === null
              ? `${day}T${String(8 + Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}:00+08:00`
              : time,
        });
        said.set(`${q.check} ${hole ?? ''}`, { answer, day });
      }
      const parsed = campaignOf(rows);
      for (const hole of ['H1', 'H2']) {
        for (const check of safetyChecks(parsed, day, hole)) {
          const last = said.get(`${check.check} ${check.of === 'hole' ? hole : ''}`);
          const expected = last?.answer === 'no' ? check.no : last?.day === day ? 'answered' : 'open';
          assert.equal(check.state, expected, `campaign ${campaign}, ${day}, ${hole}, ${check.question}`);
        }
      }
    }
  }
});
