/**
 * How the safety questions stand for one hole on one day. Answers are readings: a later answer never changes an earlier
 * one, so that each keeps who gave it and when. A no stands, on this day and every day after it, until the question is
 * answered otherwise; a yes holds for its own day, and on the next the question is open again with the older answer
 * beside it.
 */
import type { Campaign } from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import { momentOf, type Row } from '@stillstand/campaign/tables';
import { remembered } from '../remembered.ts';
import { hasEnded } from '../rig-readings.ts';
import { questionOf, SAFETY_QUESTIONS, type SafetyQuestion } from './questions.ts';

export type SafetyAnswer = NonNullable<Row<'checks'>['answer']>;

export interface GivenAnswer {
  answer: SafetyAnswer;
  /** Initials or role; null where nobody gave a name. */
  by: string | null;
  /** When it was given: ISO 8601 with offset, or a time of day in an older note; null where it is not known. */
  time: string | null;
  /** The day it is for, `2024-03-05`; null where it is not known. */
  day: string | null;
  /** Its reading; null for a signature in the note of an older day. */
  row_id: string | null;
}

export interface SafetyCheck extends SafetyQuestion {
  /** The answer that stands; null while the question is open. */
  given: GivenAnswer | null;
  /** The last answer of an earlier day, where the question is open again. */
  earlier: GivenAnswer | null;
  state: 'danger' | 'caution' | 'open' | 'answered';
}

interface Answer extends GivenAnswer {
  question: SafetyQuestion;
  hole: string | null;
  /** Readings of one series follow their `seq`. */
  series: string;
  seq: number;
}

/**
 * Every question asked of this hole on this day (`2024-03-05`), in the order they are asked, the crew's own at the end.
 * Without a hole, those asked once a day.
 */
export function safetyChecks(
  campaign: Pick<Campaign, 'rows' | 'skipped_rows'>,
  day: string,
  hole: string | null,
): SafetyCheck[] {
  const answers = answersOf(campaign).filter(
    (a) => (a.hole === null || a.hole === hole || a.question.of === 'day') && (a.day ?? '') <= day,
  );
  const own = answers.map((a) => a.question).filter((q) => !SAFETY_QUESTIONS.includes(q));
  const asked = new Map([...SAFETY_QUESTIONS, ...own].map((q) => [q.check, q]));
  return [...asked.values()]
    .filter((q) => hole !== null || q.of === 'day')
    .map((question) =>
      stateOf(
        question,
        answers.filter((a) => a.question.check === question.check),
        day,
      ),
    );
}

function stateOf(question: SafetyQuestion, answers: readonly Answer[], day: string): SafetyCheck {
  const nos = answers.filter(
    (a) => a.answer === 'no' && !answers.some((b) => b.answer !== 'no' && follows(b, a)),
  );
  const no = newest(nos);
  if (no !== null) return { ...question, given: givenOf(no), earlier: null, state: question.no };
  const today = newest(answers.filter((a) => a.day === day));
  if (today !== null) return { ...question, given: givenOf(today), earlier: null, state: 'answered' };
  const earlier = newest(answers);
  return { ...question, given: null, earlier: earlier === null ? null : givenOf(earlier), state: 'open' };
}

const givenOf = ({ answer, by, time, day, row_id }: Answer): GivenAnswer => ({
  answer,
  by,
  time,
  day,
  row_id,
});

/**
 * Whether `b` was given after `a`. Answers of one hole, and those of one day, have their `seq`; between them there are
 * only the clock and the date. Where nothing shows the order, neither follows: a no then stands.
 */
function follows(b: Answer, a: Answer): boolean {
  if (b.series === a.series) return b.seq > a.seq;
  const [at, before] = [momentOf(b.time ?? ''), momentOf(a.time ?? '')];
  if (at !== null && before !== null) return at > before;
  return b.day !== null && a.day !== null && b.day > a.day;
}

function newest(answers: readonly Answer[]): Answer | null {
  let found: Answer | null = null;
  for (const a of answers) if (found === null || !follows(found, a)) found = a;
  return found;
}

const answersOf = remembered(
  ({ rows, skipped_rows }: Pick<Campaign, 'rows' | 'skipped_rows'>) => [
    rows.checks,
    rows.field_days,
    skipped_rows,
  ],
  ({ rows, skipped_rows }): Answer[] => [
    ...rows.field_days.flatMap(({ date, note }) => signatures(note ?? '', date)),
    ...rows.checks.flatMap((row) => (row.answer === null ? [] : answered({ ...row, answer: row.answer }))),
    ...skipped_rows.flatMap(disputed),
  ],
);

type Given = Pick<
  Row<'checks'>,
  'row_id' | 'hole' | 'seq' | 'question' | 'check' | 'by' | 'time' | 'date'
> & {
  answer: SafetyAnswer;
};

function answered({ answer, by, time, date, row_id, seq, hole, ...asked }: Given): Answer {
  const question = questionOf(asked, hole === null ? 'day' : 'hole');
  const day = date ?? time?.slice(0, 10) ?? null;
  const series = hole === null ? `day ${day}` : `hole ${hole}`;
  return { answer, by, time, day, row_id, question, hole, series, seq };
}

/**
 * An answer whose amendments differ is used on the safe side until somebody decides: as a no, unless all of them agree
 * on another answer.
 */
function disputed({ table, why, agreed, row_id, hole, seq }: Campaign['skipped_rows'][number]): Answer[] {
  if (table !== 'checks' || why !== 'conflict') return [];
  const word = (field: string): string | null => {
    const value = agreed[field];
    return typeof value === 'string' ? value : null;
  };
  const [check, question] = [word('check'), word('question')];
  if (check === null && question === null) return [];
  const answer = (word('answer') as SafetyAnswer | null) ?? 'no';
  const said = { answer, by: word('by'), time: word('time'), date: word('date') };
  return [answered({ ...said, check, question: question ?? '', row_id, hole, seq: seq ?? -1 })];
}

/** Campaigns of before the table kept "signed: services located (DK 08:10), leave by known (DK 08:12)" in a day's note. */
const SEGMENT = /(?:^|;\s*)signed: ([^;]*)/;

function signatures(note: string, day: string): Answer[] {
  const text = SEGMENT.exec(note)?.[1] ?? '';
  return [...text.matchAll(/([^,()]+) \(([^()]*)\)/g)].map(([, line = '', signed = '']) => {
    const [, by = '', clock = null] = /^(.*?)\s*(\d\d:\d\d)?$/.exec(signed.trim()) ?? [];
    return {
      answer: 'yes',
      by: by === '' ? null : by,
      time: clock,
      day,
      row_id: null,
      question: questionOf({ check: null, question: line }, 'day'),
      hole: null,
      series: `day ${day}`,
      seq: -1,
    };
  });
}

interface StandingNo {
  check: SafetyCheck;
  given: GivenAnswer;
  /** The hole it is of; null for one of a day. */
  hole: string | null;
  /** Nothing goes on there any more: the hole, or every hole, has ended. */
  isOver: boolean;
}

/** Every no of a campaign that was never answered otherwise, whatever the day. */
function standingNos(campaign: Pick<Campaign, 'rows' | 'skipped_rows'>): StandingNo[] {
  const { holes, checks } = campaign.rows;
  if (!answersOf(campaign).some(({ answer }) => answer === 'no')) return [];
  const allEnded = holes.length > 0 && holes.every((h) => hasEnded(h.state));
  const of = new Map([...checks, ...campaign.skipped_rows].map((row) => [row.row_id, row.hole]));
  const found = new Map<string, StandingNo>();
  for (const row of [null, ...holes]) {
    for (const check of safetyChecks(campaign, '9999-12-31', row?.hole ?? null)) {
      const { given } = check;
      if (given?.answer !== 'no' || given.row_id === null || found.has(given.row_id)) continue;
      const hole = of.get(given.row_id) ?? null;
      found.set(given.row_id, {
        check,
        given,
        hole,
        isOver: hole === null ? allEnded : hasEnded(row?.state),
      });
    }
  }
  return [...found.values()];
}

/** "by DK, 2024-03-05 08:12": who gave an answer and when, as far as it is known. */
export function givenWords({ by, time, day }: GivenAnswer): string {
  const clock = /(?:^|T)(\d\d:\d\d)/.exec(time ?? '')?.[1] ?? '';
  const when = [day ?? '', clock].filter(Boolean).join(' ');
  return [by === null ? 'name not given' : `by ${by}`, when].filter(Boolean).join(', ');
}

/** Each standing no as a problem of the campaign: a danger while work goes on there, a note once it is over. */
export function safetyProblems(campaign: Pick<Campaign, 'rows' | 'skipped_rows' | 'lines'>): Problem[] {
  return standingNos(campaign).map(({ check, given, hole, isOver }) =>
    problem({
      severity: isOver ? 'note' : check.no === 'danger' ? 'danger' : 'warning',
      code: 'safety-no',
      table: 'checks',
      row_id: given.row_id,
      line: given.row_id === null ? null : (campaign.lines.get(given.row_id) ?? null),
      label: hole ?? given.day,
      column: 'answer',
      found: `no, ${givenWords(given)}, to ${check.question}`,
      expected: 'yes, or not needed',
      fix: isOver
        ? 'Work ended with this answer. Add a later answer if it was dealt with.'
        : `${check.hazard}. ${check.act}`,
    }),
  );
}
