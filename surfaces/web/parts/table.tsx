import type { ReactNode } from 'react';
import './table.css';

interface Column {
  name: ReactNode;
  /** Named once, in the head. */
  unit?: string;
  /** Aligned at the right. */
  number?: boolean;
}

/** A ruled table; rows are `<tr>`s of the caller, numbers in `<td className="number">`. */
export function Table({
  caption,
  columns,
  children,
}: {
  caption: ReactNode;
  columns: Column[];
  children: ReactNode;
}) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard
    <div className="ruled-scroll" tabIndex={0}>
      <table className="ruled">
        <caption>{caption}</caption>
        <thead>
          <tr>
            {columns.map((column, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: columns stay in their places
              <th key={i} scope="col" className={column.number ? 'number' : undefined}>
                {column.name}
                {column.unit === undefined ? null : `, ${column.unit}`}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>{children}</tbody>
      </table>
    </div>
  );
}
