// Writes docs/report-tables.md from the description of the results:  node --import tsx scripts/report-tables-page.ts
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { NO_TABLE, TABLES } from '@stillstand/output/report';

const PAGE = join(import.meta.dirname, '..', 'docs', 'report-tables.md');

const INTRODUCTION = `# The tables of the report, column by column

Made from the description of the results by \`scripts/report-tables-page.ts\`; do not edit. Each table lists one entry of the [results](results.md); how numbers and text are written in it is described in [methods/report.md](methods/report.md).

Units and the sigma level are in the headings: \`_1sigma\`, \`_2sigma\`, \`_lower_95\`. \`PART\` is the name of a part of a point's error: one column for each part that any point has.
`;

/** The page as it should be. */
export function reportTablesPage(): string {
  const sections = TABLES.map(({ file, entry, about, columns, leftOut }) =>
    [
      `## ${file}`,
      '',
      `Lists \`${entry}\`: ${about}.`,
      '',
      '| column | what |',
      '|---|---|',
      ...columns(null).map((column) => `| \`${column.heading}\` | ${column.about} |`),
      '',
      ...reasons(leftOut),
    ].join('\n'),
  );
  const none = ['## Without a table', '', ...reasons(NO_TABLE)].join('\n');
  return [INTRODUCTION, ...sections, none].join('\n');
}

const reasons = (leftOut: Readonly<Record<string, string | undefined>>): string[] =>
  Object.keys(leftOut).length === 0
    ? []
    : [
        '| left out | why |',
        '|---|---|',
        ...Object.entries(leftOut).map(([name, why]) => `| \`${name}\` | ${why} |`),
        '',
      ];

if (process.argv[1] === import.meta.filename) writeFileSync(PAGE, reportTablesPage());

/** The page as it is. */
export const writtenReportTablesPage = (): string => readFileSync(PAGE, 'utf8');
