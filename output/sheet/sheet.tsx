/** The frame of a sheet that loads nothing and prints on A4, and the parts that every sheet has. */
import { pageHtml } from '@stillstand/output/page';
import type { ReactNode } from 'react';
import { STYLE } from './style.ts';

/** An HTML document; `isFull` is set smaller. The same content, the same bytes. */
export const sheetHtml = (title: string, isFull: boolean, content: ReactNode): string =>
  pageHtml(
    { title, style: STYLE },
    <main>
      <div className={isFull ? 'full' : undefined}>{content}</div>
    </main>,
  );

export const campaignNamed = (name: string): string => (name === '' ? 'Campaign without a name' : name);

/** What the sheet is, of which campaign, and its number among others, to be written in. */
export const SheetHead = ({ title, campaign }: { title: string; campaign: string }) => (
  <header>
    <h1>{title}</h1>
    <p>
      {campaignNamed(campaign)}
      <br />
      sheet ___ of ___
    </p>
  </header>
);

/** What was said, or a line to write it on. */
export const Said = ({ name, words }: { name: string; words: string }) => (
  <p>
    <b>{name}</b> {words === '' ? '______________________' : words}
  </p>
);

/** Lines to sign on, a row for each person. */
export const Signed = ({ rows }: { rows: number }) => (
  <>
    <h2>Signed</h2>
    <table className="sign">
      <thead>
        <tr>
          <th scope="col">name</th>
          <th scope="col">role</th>
          <th scope="col">date and signature</th>
        </tr>
      </thead>
      <tbody>
        {Array.from({ length: rows }, (_, row) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: empty lines, all alike
          <tr key={row}>
            <td />
            <td />
            <td />
          </tr>
        ))}
      </tbody>
    </table>
  </>
);
