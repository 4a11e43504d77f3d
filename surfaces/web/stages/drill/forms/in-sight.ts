/** What is in hand comes into sight above whatever lies over the end of the page. */

/** What was opened: its fields, its keys and what is said above them, as far down the page as must be. */
export function showOpened(): void {
  globalThis.scrollTo({ top: 0 });
  const leaf = document.querySelector<HTMLElement>('.drill .below > .entry');
  if (leaf === null) return;
  // beside its keys it is seen whole; on a phone the keys take what is under the field in hand
  const { top, bottom, right } = leaf.getBoundingClientRect();
  const pad = leaf.parentElement?.querySelector('.pad')?.getBoundingClientRect();
  const over = bottom - footOf(leaf);
  if (pad !== undefined && pad.left >= right && over > 0) {
    globalThis.scrollBy({ top: Math.min(over, Math.max(0, top)) });
  }
  bringInSight(leaf);
}

/**
 * The field in hand with what is said below it, and its keys, above the action that lies over the end of the page; the
 * field above keys that lie over it. What of both does not fit is the end of the keys' leaf.
 */
export function bringInSight(leaf: HTMLElement): void {
  const field = leaf.querySelector('[data-focused="true"]');
  if (field === null) return;
  field.scrollIntoView({ block: 'nearest' });
  const box = field.getBoundingClientRect();
  const pad = leaf.parentElement?.querySelector('.pad :is(.keypad, .choices)')?.getBoundingClientRect();
  const foot = footOf(leaf);
  const isUnder = pad !== undefined && pad.left < box.right && pad.right > box.left && pad.bottom > box.top;
  const over = Math.max(box.bottom - foot, isUnder ? box.bottom - pad.top : (pad?.bottom ?? 0) - foot);
  if (over > 0) globalThis.scrollBy({ top: Math.min(over + 4, Math.max(0, box.top)) });
}

/** Where the page is covered, px from the top of the screen: by the action, and by the tools where they lie on it. */
function footOf(leaf: HTMLElement): number {
  const act = document.querySelector('.drill .act')?.getBoundingClientRect().top ?? innerHeight;
  const tools = document.querySelector('.drill .drill-tools');
  if (tools === null || getComputedStyle(tools).position !== 'sticky') return act;
  const { top, height } = tools.getBoundingClientRect();
  return height > 0 && top > leaf.getBoundingClientRect().top ? Math.min(act, top) : act;
}
