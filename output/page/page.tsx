/** What every page that we write has round its content: a policy that keeps it to what it holds itself, a title and a style. */
import type { ReactNode } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';

interface PageHead {
  title: string;
  style: string;
  /** What else it holds, as `data:` addresses. */
  holds?: readonly ('font' | 'img')[];
  /** For paper alone: its lengths are true ones, and no narrow screen changes how it is laid out. */
  isTrueSize?: boolean;
}

/** Nothing but what the page itself holds; no scripts at all. */
const policyOf = (holds: readonly string[]): string =>
  [
    "default-src 'none'",
    "style-src 'unsafe-inline'",
    ...holds.map((kind) => `${kind}-src data:`),
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');

/** The same content, the same bytes. */
export const pageHtml = (
  { title, style, holds = [], isTrueSize = false }: PageHead,
  content: ReactNode,
): string =>
  `<!doctype html>\n${renderToStaticMarkup(
    <html lang="en">
      <head>
        <meta charSet="utf-8" />
        <meta httpEquiv="Content-Security-Policy" content={policyOf(holds)} />
        {isTrueSize ? null : <meta name="viewport" content="width=device-width, initial-scale=1" />}
        <title>{title}</title>
        {/* biome-ignore lint/security/noDangerouslySetInnerHtml: a style element, whose end cannot be inside it */}
        <style dangerouslySetInnerHTML={{ __html: style.replaceAll('</', '<\\/') }} />
      </head>
      <body>{content}</body>
    </html>,
  )}\n`;
