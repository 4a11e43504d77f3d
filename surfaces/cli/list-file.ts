/** A list as the file that is asked for: CSV, workbook or page. */
import { type List, listCsv, listHtml, listXlsx } from '@stillstand/output/lists';
import { type Command, type Words, WrongUse } from './command.ts';
import { writeNew } from './disk/write-new.ts';
import { typedDay } from './typed-day.ts';

const FORMATS = ['csv', 'xlsx', 'html'] as const;
type Format = (typeof FORMATS)[number];

export const LIST_OPTIONS: Command['options'] = {
  out: { type: 'string', value: 'FILE', about: 'where to write; never over a file' },
  format: {
    type: 'string',
    value: 'FORMAT',
    about: 'csv, xlsx or html (a page to print, with codes); without it by the ending of FILE',
  },
};

export function listFileOf(words: Words): { out: string; format: Format } {
  const out = words.text('out');
  if (out === undefined) throw new WrongUse('Expected --out FILE');
  const named = words.text('format');
  const found = named ?? /\.([^./\\]+)$/.exec(out)?.[1] ?? '';
  const format = FORMATS.find((one) => one === found.toLowerCase());
  if (format === undefined)
    throw new WrongUse(
      named === undefined
        ? `--out: found “${out}”, expected a file that ends in .csv, .xlsx or .html, or --format`
        : `--format: found “${named}”, expected csv, xlsx or html`,
    );
  return { out, format };
}

export async function writeList(list: List, { out, format }: { out: string; format: Format }): Promise<void> {
  const content =
    format === 'csv'
      ? listCsv(list)
      : format === 'xlsx'
        ? listXlsx(list)
        : listHtml(list, await (await import('@stillstand/output/paper')).fontCss());
  await writeNew(out, content);
}

/** The day the list is for: no clock is read, so that the same words write the same list. */
export function dayAsked(words: Words): string {
  const typed = words.text('date');
  if (typed === undefined) throw new WrongUse('Expected --date DATE, the day the list is for');
  return typedDay(typed, 'date');
}
