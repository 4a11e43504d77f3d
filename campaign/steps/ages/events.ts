/** Radiocarbon ages of different things of one event, as one age named by the event. */
import type { Campaign } from '@stillstand/campaign/document';
import { traceId } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import { type NotCalibrated, type SameEvent, sameEvent } from '@stillstand/science/dating';
import { complaints } from '../complaint.ts';
import type { Runner } from '../runner/runner.ts';
import { type Known, step } from '../runner/step.ts';
import { tellEvent } from '../words/dates.ts';
import type { Dated, Dates } from './dates.ts';
import { densityOf, distributionOf } from './distribution.ts';

const eventDate = step('event', ({ dates }: { dates: readonly Dated[] }): SameEvent | NotCalibrated =>
  sameEvent(dates.flatMap(({ age }) => (age?.kind === 'radiocarbon' ? [age] : []))),
);

export function withEvents(run: Runner, campaign: Campaign, dates: Dates): Dates {
  const { problems, complain } = complaints<Row<'determinations'>>(
    campaign,
    'determinations',
    (r) => r.lab_code,
  );
  const events = new Map<string, Known<Dated>>();
  const inEvents = campaign.rows.determinations.filter(({ event_group }) => event_group !== null);
  for (const [event, rows] of Map.groupBy(inEvents, (row) => row.event_group!)) {
    const parts = rows
      .map((row) => dates.of.get(row.lab_code))
      .filter((date) => date?.value.age?.kind === 'radiocarbon') as Known<Dated>[];
    const say = (code: string, found: string, expected: string, fix: string): void =>
      complain(rows[0]!, code, 'event_group', `${event}: ${found}`, expected, fix, 'warning');
    if (parts.length < 2) {
      say(
        'event-too-short',
        `${parts.length} usable ${parts.length === 1 ? 'date' : 'dates'}`,
        'two or more accepted radiocarbon ages, of before the bomb years',
        'Add the others: until then the event has no age of its own.',
      );
      continue;
    }
    const known = run.do(eventDate, traceId.event(event), { dates: parts }, (v) => tellEvent(event, v));
    const answer = known.value;
    if (answer.kind !== 'dated') {
      say('event-not-dated', answer.reason, 'ages that one year can meet', 'They are not of one event.');
      continue;
    }
    if (answer.p < 0.05)
      say(
        'event-disagrees',
        `chi-square ${answer.chi_square.toFixed(1)} with ${answer.degrees} degrees of freedom, p ${answer.p.toFixed(3)}`,
        'ages of one year within their errors, those of the curve and ΔR included (p of at least 0.05)',
        'They are combined as asked. Old wood and reworked shells are too old: look at the samples, and remove from the group what is not of the event.',
      );
    const value: Dated = {
      age: densityOf(answer.age),
      result: {
        ...parts[0]!.value.result,
        ...distributionOf(answer.age),
        lab_code: event,
      },
    };
    events.set(event, run.part(traceId.date(event), value, tellEvent(event, answer), [known]));
  }
  return { ...dates, events, problems: [...dates.problems, ...problems] };
}
