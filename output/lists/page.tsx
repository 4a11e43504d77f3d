/** A list as a page to print: its code before each thing that has one. The same list gives the same bytes. */
import { Code, codeBits } from '@stillstand/output/labels';
import { pageHtml } from '@stillstand/output/page';
import type { List, ListColumn, ListRow } from './list.ts';
import { STYLE } from './style.ts';

/** Side of a code: of one of 33 dots, which most samples have, a dot is 0.4 mm, which a hand-held camera reads. */
const CODE_MM = 13;

/** An HTML document that loads nothing. `fontCss`: typefaces of the figures as a style. */
export const listHtml = (list: List, fontCss = ''): string =>
  pageHtml({ title: list.title, style: fontCss + STYLE, holds: ['font'] }, <Page list={list} />);

const Page = ({ list }: { list: List }) => (
  <main>
    <h1>{list.title}</h1>
    <div className="head">
      {list.head.map(([name, words]) => (
        <p key={name}>
          <b>{name}</b> {words === '' ? '____________________' : words}
        </p>
      ))}
    </div>
    {list.notes.map((note) => (
      <p className="note" key={note}>
        {note}
      </p>
    ))}
    <Rows list={list} />
  </main>
);

/** Columns that share a cell on the page. */
interface Cell {
  heading: string;
  columns: readonly { at: number; column: ListColumn }[];
}

function cellsOf(columns: readonly ListColumn[]): Cell[] {
  const named = columns.map((column, at) => ({ at, column, heading: column.within ?? column.heading }));
  return [...Map.groupBy(named, ({ heading }) => heading)].map(([heading, of]) => ({ heading, columns: of }));
}

function Rows({ list: { columns, rows } }: { list: List }) {
  const cells = cellsOf(columns);
  const hasCodes = rows.some(({ code }) => code !== null);
  return (
    <table>
      <thead>
        <tr>
          {hasCodes ? <th scope="col">code</th> : null}
          {cells.map((cell) => (
            <th scope="col" key={cell.heading} className={isNumber(cell) ? 'n' : undefined}>
              {cell.heading}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a page is drawn once
          <tr key={i}>
            {hasCodes ? (
              <td className="code">
                {row.code === null ? null : (
                  <Code bits={codeBits(row.code)} side_mm={CODE_MM} words={row.code} />
                )}
              </td>
            ) : null}
            {cells.map((cell) => (
              <CellOf key={cell.heading} cell={cell} row={row} />
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** A date is not broken at its hyphens. */
const DAY = /^\d{4}-\d\d-\d\d$/;

const isNumber = ({ columns }: Cell): boolean => columns.every(({ column }) => column.isNumber);

function CellOf({ cell, row }: { cell: Cell; row: ListRow }) {
  return (
    <td className={isNumber(cell) ? 'n' : undefined}>
      {cell.columns.map(({ at, column }) => {
        const words = row.cells[at]!.replace(/^-(?=\d)/, '−');
        if (column.isToFillIn)
          return (
            <p key={at} className="fill">
              {cell.columns.length > 1 ? column.heading : ''}
            </p>
          );
        if (words === '') return null;
        return (
          <p key={at} className={DAY.test(words) ? 'day' : undefined}>
            {column.heading.includes('±') ? `±${words}` : words}
          </p>
        );
      })}
    </td>
  );
}
