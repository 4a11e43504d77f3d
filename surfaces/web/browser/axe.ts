/** What axe finds wrong with a page as it stands: WCAG 2.2 A and AA and its own best practice. */
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

interface AxeResult {
  violations: { id: string; help: string; nodes: { html: string; failureSummary?: string }[] }[];
}

let axe: Promise<string> | null = null;

export async function violations(page: Page): Promise<string[]> {
  axe ??= readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
  // Evaluated by the debugger, so that the page's own policy stays as it is.
  await page.evaluate(await axe);
  const { violations } = await page.evaluate(() =>
    (globalThis as unknown as { axe: { run(options: object): Promise<AxeResult> } }).axe.run({
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
      // Experimental in axe: it takes the sediment marks inside a drawing for words, and “cm” for no part of “centimetres”.
      rules: { 'label-content-name-mismatch': { enabled: false } },
    }),
  );
  return violations.flatMap(({ id, help, nodes }) =>
    nodes.map((node) => `${id} (${help}): ${node.html.slice(0, 160)} ${node.failureSummary ?? ''}`),
  );
}
