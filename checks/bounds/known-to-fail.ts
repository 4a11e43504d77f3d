/**
 * A bound that is not met yet, recorded and not moved (docs/bounds.md). The check computes and prints what it always
 * did; this says aloud that the bound is missed, holds the figure to the pages that state it, and turns red when the
 * bound is met after all.
 */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import type { TestContext } from 'node:test';

type Bound = { at_least: number } | { above: number } | { at_most: number };

export interface KnownFailure {
  /** Name in the table of docs/bounds.md: what was measured, with sets and seed. */
  what: string;
  bound: Bound;
  measured: number;
  /** The figure as the pages print it; its decimals are those `measured` is rounded to. */
  stated: string;
  /** Day on which the failure was recorded, ISO 8601. */
  since: string;
  /** Methods page that tells the user, from the root of the project. */
  page: string;
}

const LIST = 'docs/bounds.md';
const read = (path: string): string => readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8');

/** Three decimals where it has more. */
const rounded = (x: number): string => String(Number(x.toFixed(3)));

function inWords(bound: Bound): string {
  if ('at_least' in bound) return `at least ${rounded(bound.at_least)}`;
  if ('above' in bound) return `above ${rounded(bound.above)}`;
  return `at most ${rounded(bound.at_most)}`;
}

function isMet(bound: Bound, measured: number): boolean {
  if ('at_least' in bound) return measured >= bound.at_least;
  if ('above' in bound) return measured > bound.above;
  return measured <= bound.at_most;
}

/** The row of docs/bounds.md. */
export const rowOf = ({ what, bound, stated, since, page }: KnownFailure): string =>
  `| ${what} | ${inWords(bound)} | ${stated} | ${since} | ${page.replace(/^docs\//, '')} |`;

/**
 * A subtest named *known to fail*. It passes while the bound is missed by the figure stated.
 * @throws AssertionError where the bound is met, where another figure is measured, or where a page does not say so.
 */
export async function knownToFail(t: TestContext, failure: KnownFailure): Promise<void> {
  const { what, bound, stated } = failure;
  await t.test(`known to fail: ${what}: ${stated}, promised ${inWords(bound)}`, (sub) => {
    sub.diagnostic(`KNOWN TO FAIL since ${failure.since}: measured ${failure.measured}; ${failure.page}`);
    demandFailure(failure, read);
  });
}

/** The same without the test around it; `page` reads a page. */
export function demandFailure(failure: KnownFailure, page: (path: string) => string): void {
  const { what, bound, measured, stated } = failure;
  assert(
    !isMet(bound, measured),
    `cured: restore the bound. ${what}: ${measured}, promised ${inWords(bound)}. Assert the bound, and delete its ` +
      `row in ${LIST} and its figure in ${failure.page}.`,
  );
  const decimals = stated.split('.')[1]?.length ?? 0;
  assert.equal(
    measured.toFixed(decimals),
    stated,
    `${what}: fails otherwise than stated. Find out why; then write the figure here, in ${LIST} and in ${failure.page}.`,
  );
  const row = rowOf(failure);
  assert(page(LIST).includes(row), `${LIST} lacks the row ${row}`);
  const says = page(failure.page);
  assert(
    says.includes('nown to fail') && says.includes(stated),
    `${failure.page} does not say that ${what} is known to fail, with ${stated}`,
  );
}
