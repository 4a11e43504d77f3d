/** The level book of Plan, as a hand goes through it. */
import type { Locator, Page } from 'playwright-core';

/** A recorded station of the level book. */
export const station = (page: Page, point: string): Locator =>
  page.locator(`.level-book tr:is([data-state="written"], [data-state="replaced"]) input[value="${point}"]`);

/** Records one sight in the level book; resolves once its line is shown so. `next` is called before each act of the hand. */
export async function writeSight(page: Page, point: string, next = (): void => undefined): Promise<void> {
  const book = page.locator('.level-book');
  const loops = book.getByRole('combobox', { name: 'Loop' });
  next();
  await loops.selectOption({ index: 0 });
  const line = await book.getByLabel(/^station of line/).count();
  next();
  await book.getByLabel(`station of line ${line}`, { exact: true }).fill(point);
  next();
  await book.getByLabel(`backsight of line ${line}`, { exact: true }).fill('1.234');
  next();
  await book.getByRole('button', { name: /^Record (?:level loop|changes)$/ }).click();
  next();
  await station(page, point).first().waitFor({ state: 'attached' });
}
