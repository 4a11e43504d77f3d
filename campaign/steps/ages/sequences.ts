/**
 * Dates whose distances in years are known, rings or varves, computed together: each member of a sequence gets the age that all of them
 * leave it. A member that cannot be used, and a sequence that cannot be matched, is named; its dates stay as they are alone.
 */
import type { Campaign } from '@stillstand/campaign/document';
import { traceId } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import { sharedErrorOf } from '@stillstand/science/clocks';
import { matchSequence, type NotCalibrated, type Sequence } from '@stillstand/science/dating';
import { complaints } from '../complaint.ts';
import type { Runner } from '../runner/runner.ts';
import { step } from '../runner/step.ts';
import { tellInSequence, tellSequence } from '../words/sequences.ts';
import type { Dated, Dates } from './dates.ts';
import { densityOf, distributionOf } from './distribution.ts';
import { doubts, usableMembers } from './sequence-problems.ts';

type Member = Row<'sequences'>;

const matching = step(
  'sequence',
  ({ rows, dates }: { rows: readonly Member[]; dates: readonly Dated[] }): Sequence | NotCalibrated =>
    matchSequence(
      rows.flatMap((row, i) => {
        const { age } = dates[i]!;
        if (age?.kind !== 'radiocarbon') return [];
        const { curve, c14_age, error_yr, offset_yr, offset_sd_yr, delta_r_group } = age;
        return [
          {
            id: row.determination,
            c14_age,
            error_yr,
            offset_yr,
            offset_sd_yr,
            curve,
            offset_group: delta_r_group,
            after_first_yr: row.offset_yr,
            after_first_sd_yr: row.offset_error_yr ?? 0,
            block_yr: row.block_yr ?? 1,
          },
        ];
      }),
    ),
);

export function withSequences(run: Runner, campaign: Campaign, dates: Dates): Dates {
  const { problems, complain } = complaints<Member>(campaign, 'sequences', (r) => r.sequence);
  const of = new Map(dates.of);
  const repeats = new Set<string>();
  const usable = usableMembers(campaign, dates, complain);
  for (const [sequence, rows] of Map.groupBy(campaign.rows.sequences, (row) => row.sequence)) {
    const members = rows.filter((row) => usable.has(row));
    if (members.length < 2) {
      complain(
        rows[0]!,
        'sequence-too-short',
        'determination',
        `${sequence}: ${members.length} of ${rows.length} members usable`,
        'at least two dates in use',
        'Add the others, or delete it: its dates stay as they are alone.',
        'warning',
      );
      continue;
    }
    if (sharedOffsets(members, dates).size > 1) {
      complain(
        rows[0]!,
        'sequence-two-offsets',
        'determination',
        [...sharedOffsets(members, dates)].join(', '),
        'one group of ΔR for all members of a sequence',
        'Correct it in the determinations: its dates stay as they are alone.',
      );
      continue;
    }
    const alone = members.map(({ determination }) => dates.of.get(determination)!);
    const known = run.do(
      matching,
      traceId.sequence(sequence),
      {
        rows: members.map((row) => run.row('sequences', row, `${row.determination} in ${sequence}`)),
        dates: alone,
      },
      (v) => tellSequence(sequence, v),
    );
    const answer = known.value;
    if (answer.kind !== 'matched') {
      complain(
        rows[0]!,
        'sequence-not-matched',
        'determination',
        answer.reason,
        'dates and gaps that one year can meet, on the curve',
        'Correct dates and gaps: its dates stay as they are alone.',
      );
      continue;
    }
    for (const [i, { determination }] of members.entries()) {
      const { age } = answer.members[i]!;
      const value: Dated = {
        age: densityOf(age),
        result: {
          ...alone[i]!.value.result,
          ...distributionOf(age),
          sequence,
        },
      };
      of.set(
        determination,
        run.part(traceId.date(determination), value, tellInSequence(determination, sequence, value.result), [
          known,
        ]),
      );
    }
    doubts(members, dates, answer, complain);
    const once = onceEach(members, campaign);
    for (const { determination } of members) if (!once.has(determination)) repeats.add(determination);
    if (once.size > 1) {
      complain(
        rows[0]!,
        'sequence-in-several-samples',
        'determination',
        `${sequence}: ${[...once].join(', ')}`,
        'one sample, for what follows to know what its dates share',
        'Points and ages against depth take the age of each sample as if it were known on its own: what the members share (the year of the first, ΔR) is not carried on.',
        'note',
      );
    }
  }
  // A date that stays alone keeps its name in the trace.
  for (const row of campaign.rows.sequences) {
    const date = of.get(row.determination);
    if (date === undefined || date !== dates.of.get(row.determination)) continue;
    of.set(
      row.determination,
      run.part(
        traceId.date(row.determination),
        date.value,
        tellInSequence(row.determination, null, date.value.result),
        [date],
      ),
    );
  }
  return { ...dates, of, repeats, problems: [...dates.problems, ...problems] };
}

function sharedOffsets(members: readonly Member[], dates: Dates): Set<string> {
  return new Set(
    members.flatMap(({ determination }) => {
      const age = dates.of.get(determination)?.value.age;
      const shared = age?.kind === 'radiocarbon' ? sharedErrorOf(age) : null;
      return shared === null ? [] : [shared.group];
    }),
  );
}

/** One member of each sample stands for it, the youngest: the ring nearest to its death, the varve nearest to its top. */
function onceEach(members: readonly Member[], campaign: Campaign): Set<string> {
  const samples = new Map(campaign.rows.determinations.map((row) => [row.lab_code, row.sample]));
  const bySample = Map.groupBy(members, ({ determination }) => samples.get(determination));
  return new Set(
    [...bySample.values()].map(
      (of) =>
        of.reduce((youngest, row) => (row.offset_yr > youngest.offset_yr ? row : youngest)).determination,
    ),
  );
}
