/** What a proposal says on a terminal: the mapping, the counts, what is asked and what is wrong. */
import type { MappedColumn, Mapping, Proposal, TheirSheet } from '@stillstand/campaign/import';
import type { Problem } from '@stillstand/campaign/problems';
import { print, sayProblems } from './say.ts';

/** So many lines of a kind are listed without being asked for. */
const SHOWN = 12;

export function sayProposal(
  sheet: TheirSheet,
  mapping: Mapping,
  proposal: Proposal,
  everyLine: boolean,
): void {
  const { lines, rows, found, decisions, problems } = proposal;
  print(`${sheet.name} as ${mapping.as}: headings in line ${mapping.headings.join(' and ')}.`, '');
  for (const column of mapping.columns)
    if (column.heading !== '') print(`  ${columnInWords(column, mapping)}`);
  for (const [to, word] of Object.entries(mapping.fixed)) print(`  every row: ${to} = ${word}`);
  print('');
  const count = (outcome: string): number => lines.filter((line) => line.outcome === outcome).length;
  print(
    `${lines.length} lines: ${count('used')} used, ${count('set_aside')} set aside, ${count('problem')} with something wrong.`,
  );
  for (const [table, own] of Map.groupBy(rows, (row) => row.table)) {
    const made = own.filter((row) => row.made).length;
    const labels = own.filter((row) => row.made).map(({ cells }) => Object.values(cells)[0]!);
    print(
      `  ${own.length} to add to ${table}${made === 0 ? '' : `, ${made} of them because others name them: ${some(labels)}`}`,
    );
  }
  if (found.length > 0) {
    const byDepth = found.filter(({ how }) => how === 'depth');
    print(
      `  ${found.length} of samples that are there${byDepth.length === 0 ? '' : `, ${byDepth.length} found by core and depth: ${some(byDepth.map(({ sample }) => sample))}`}`,
    );
  }
  const aside = lines.filter(({ outcome }) => outcome !== 'used');
  for (const { line, outcome, why } of everyLine ? lines : aside.slice(0, SHOWN)) {
    print(
      `  line ${line}: ${outcome === 'used' ? '' : outcome === 'problem' ? 'not added, ' : 'set aside, '}${why}`,
    );
  }
  if (!everyLine && aside.length > SHOWN) print(`  and ${aside.length - SHOWN} more; --lines lists all`);
  if (decisions.length > 0) print('', 'To decide, in the mapping or with --set:');
  for (const { where, question, taken, choices } of decisions) {
    const of = choices.length === 0 ? '' : ` (${choices.join(', ')})`;
    print(
      `  ${where}: ${question}${of} ${taken === null ? 'Not taken until it is said.' : `Taken: ${taken}.`}`,
    );
  }
  print('');
  sayProblems(firstOfEach(problems));
}

/** So many of one kind are said one by one; the others are counted. */
const OF_A_KIND = 4;

function firstOfEach(problems: Proposal['problems']): Problem[] {
  const kinds = Map.groupBy(problems, ({ code, column }) => `${column}: ${code}`);
  return [...kinds.values()].flatMap((of) => {
    const more = of.length - OF_A_KIND;
    const found = `${more} more, the last in line ${of.at(-1)!.line}`;
    return more <= 0 ? of : [...of.slice(0, OF_A_KIND), { ...of[0]!, line: null, label: null, found }];
  });
}

function columnInWords(
  { column, heading, to, unit, sigma, property }: MappedColumn,
  { keep_rest }: Mapping,
): string {
  if (to === null) return `${column} ${heading}: ${keep_rest ? 'into the note' : 'not used'}`;
  const parts = [
    property === undefined ? to! : `${to} of ${property}`,
    ...(unit === null ? [] : [`in ${unit}`]),
    ...(sigma === undefined ? [] : [`${sigma} sigma`]),
  ];
  return `${column} ${heading}: ${parts.join(', ')}`;
}

const some = (labels: readonly string[]): string => {
  const different = [...new Set(labels)];
  return different.length <= SHOWN
    ? different.join(', ')
    : `${different.slice(0, SHOWN).join(', ')} and ${different.length - SHOWN} more`;
};
