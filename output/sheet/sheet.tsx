/** The frame of a sheet that loads nothing and prints on A4, and the parts that every sheet has. */
import type { ReactNode } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { STYLE } from './style.ts';

/** Nothing but what the page itself holds; no scripts at all. */
const POLICY = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";

/** An HTML document; `isFull` is set smaller. The same content, the same bytes. */
export const sheetHtml = (title: string, isFull: boolean, content: ReactNode): string =>
  `<!doctype html>\n${renderToStaticMarkup(
    <html lang="en">
      <head>
        <meta charSet="utf-8" />
        <meta httpEquiv="Content-Security-Policy" content={POLICY} />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <title>{title}</title>
        {/* biome-ignore lint/security/noDangerouslySetInnerHtml: a style element; its end cannot stand inside it */}
        <style dangerouslySetInnerHTML={{ __html: STYLE }} />
      </head>
      <body>
        <main>
          <div className={isFull ? 'full' : undefined}>{content}</div>
        </main>
      </body>
    </html>,
  )}\n`;

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
