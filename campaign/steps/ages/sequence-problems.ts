/** What is wrong or doubtful in a sequence of dates: members that cannot be used, and those that do not fit. */
import type { Campaign } from '@stillstand/campaign/document';
import type { Row } from '@stillstand/campaign/tables';
import { DISAGREES, type Sequence } from '@stillstand/science/dating';
import type { Complain } from '../complaint.ts';
import type { Dates } from './dates.ts';

type Member = Row<'sequences'>;

/** Members whose date is a radiocarbon age of its layer in use; the others are named. */
export function usableMembers(campaign: Campaign, dates: Dates, complain: Complain<Member>): Set<Member> {
  const usable = new Set<Member>();
  const taken = new Map<string, string>();
  for (const row of campaign.rows.sequences) {
    const leave = (code: string, column: string, found: string, expected: string, fix: string): void =>
      complain(row, code, column, found, expected, `${fix} It is left out of the sequence.`, 'warning');
    const date = dates.of.get(row.determination)?.value;
    const block = row.block_yr ?? 1;
    if (date?.age?.kind !== 'radiocarbon') {
      leave(
        'sequence-member-unusable',
        'determination',
        `${row.determination}${date?.age === null ? ', rejected' : ''}`,
        'an accepted radiocarbon age of its layer, before the bomb years',
        'Correct the determination.',
      );
    } else if (taken.has(row.determination)) {
      leave(
        'sequence-member-twice',
        'determination',
        `${row.determination}, already in ${taken.get(row.determination)}`,
        'each date once',
        'Delete one of the rows.',
      );
    } else if (!Number.isInteger(block)) {
      leave('sequence-block-not-whole', 'block_yr', String(block), 'whole rings or varves', 'Count them.');
    } else {
      taken.set(row.determination, row.sequence);
      usable.add(row);
    }
    if (row.offset_yr < 0)
      complain(
        row,
        'sequence-gap-negative',
        'offset_yr',
        String(row.offset_yr),
        'years from the first member on, younger positive',
        'It is used as older than the first. If the count goes towards the older, turn every sign of the sequence round.',
        'warning',
      );
  }
  return usable;
}

/** What does not fit within the sequence. */
export function doubts(
  members: readonly Member[],
  dates: Dates,
  answer: Sequence,
  complain: Complain<Member>,
): void {
  const odd = answer.members.map(({ agreement }) => agreement < DISAGREES / members.length);
  for (const [i, row] of members.entries()) {
    const { expected_c14_age, agreement } = answer.members[i]!;
    const measured = dates.of.get(row.determination)!.value.result;
    if (odd[i])
      complain(
        row,
        'sequence-member-disagrees',
        'determination',
        `${row.determination}: ${Math.round(measured.value)} ± ${Math.round(measured.error)}; by the others ${Math.round(expected_c14_age)}`,
        `an age the others allow (here with probability ${agreement.toPrecision(1)})`,
        'Check its place in the count and its laboratory code; reject the determination with its reason if it is wrong. It is used.',
        'warning',
      );
  }
  if (answer.p < 0.05)
    complain(
      members[0]!,
      'sequence-disagrees',
      'offset_yr',
      `chi-square ${answer.chi_square.toFixed(1)} with ${answer.degrees} degrees of freedom, p ${answer.p.toFixed(3)}`,
      'members that agree with one year (p of at least 0.05)',
      'Check the counts between the members, the blocks, the curve and the members that are named.',
      'warning',
    );
}
