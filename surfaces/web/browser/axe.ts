/** What axe finds wrong with a page as it stands. */
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

interface AxeResult {
  violations: { id: string; help: string; nodes: { html: string; failureSummary?: string }[] }[];
}

let axe: Promise<string> | null = null;

interface WithAxe {
  axe?: { run(options: object): Promise<AxeResult> };
}

/** WCAG 2.2 A and AA and axe's own best practice; or of them only what depends on colours. */
const RULES = {
  all: {
    runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
    // Experimental in axe: it takes the sediment marks inside a drawing for words, and “cm” for no part of “centimetres”.
    rules: { 'label-content-name-mismatch': { enabled: false } },
  },
  colours: { runOnly: ['color-contrast', 'link-in-text-block'] },
};

export async function violations(page: Page, rules: keyof typeof RULES = 'all'): Promise<string[]> {
  axe ??= readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
  // Evaluated by the debugger, so that the page's own policy stays as it is; once in a page, it takes a second.
  if (await page.evaluate(() => (globalThis as WithAxe).axe === undefined)) await page.evaluate(await axe);
  const { violations } = await page.evaluate(
    // What passes is not described node by node: of a report that took ten seconds.
    (options) => (globalThis as unknown as Required<WithAxe>).axe.run(options),
    { ...RULES[rules], resultTypes: ['violations'] },
  );
  return violations.flatMap(({ id, help, nodes }) =>
    nodes.map((node) => `${id} (${help}): ${node.html.slice(0, 160)} ${node.failureSummary ?? ''}`),
  );
}
