/**
 * What `look.browser.test.ts` asks of a page. Each function is evaluated in the page and must stand alone: it may use
 * nothing from outside itself, and names no function inside (the compiler would mark it with a helper of its own).
 */

interface Asked {
  /** Where the eye must go first. */
  first: string;
  /** Colours by token, as the browser tells them. */
  tokens: Readonly<Record<string, string>>;
}

/** Everything that is wrong with the page as it stands, in words. */
export function faults({ first, tokens }: Asked): string[] {
  const LEAST_PX = 13;
  const told: string[] = [];
  const root = document.documentElement;
  if (root.scrollWidth > innerWidth) told.push(`the page is ${root.scrollWidth} px wide`);

  // Paper, ink, and no colour of our own making.
  const style = getComputedStyle(root);
  if (style.backgroundColor !== tokens['paper']) told.push(`paper is ${style.backgroundColor}`);
  if (style.color !== tokens['ink']) told.push(`ink is ${style.color}`);
  const colours = new Set(Object.values(tokens));

  const eye = [...document.querySelectorAll(first)].find((element) => element.checkVisibility());
  if (eye === undefined) told.push(`nothing to look at first: ${first}`);
  else {
    const box = eye.getBoundingClientRect();
    const isLarge = box.height > innerHeight / 2;
    if (box.top < 0 || box.top > innerHeight - 40 || (!isLarge && box.bottom > innerHeight + 1))
      told.push(`${first} is not in view: ${Math.round(box.top)} to ${Math.round(box.bottom)}`);
  }

  // What is being typed is seen, with nothing over its line.
  for (const row of document.querySelectorAll('.entry [data-focused="true"]')) {
    const box = row.getBoundingClientRect();
    for (const y of [box.top + 0.2 * box.height, box.top + 0.8 * box.height]) {
      const over = document.elementFromPoint(box.left + box.width / 2, y);
      if (over === null || !(row.contains(over) || over.contains(row)))
        told.push(`the field in hand is covered at ${Math.round(y)}`);
    }
  }

  // Over a page that a dialog covers only the dialog is looked at.
  const open = [...document.querySelectorAll('dialog[open]')].at(-1);
  const walker = document.createTreeWalker(open ?? document.body, NodeFilter.SHOW_TEXT);
  const lines: { words: string; box: DOMRect; layer: Element | null; of: Element }[] = [];
  const range = document.createRange();
  for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
    const words = (node.textContent ?? '').trim();
    const of = node.parentElement;
    if (
      words === '' ||
      of === null ||
      of.closest('script, style, title, desc, option, datalist, .unseen') !== null
    )
      continue;
    if (!of.checkVisibility({ opacityProperty: true, visibilityProperty: true })) continue;
    range.selectNodeContents(node);
    const boxes = [...range.getClientRects()].filter((box) => box.width > 1 && box.height > 1);
    if (boxes.length === 0) continue;
    const said = `“${words.slice(0, 40)}” (${of.tagName.toLowerCase()}.${of.getAttribute('class') ?? ''})`;
    const of_ = getComputedStyle(of);

    const scale = of instanceof SVGGraphicsElement ? Math.abs(of.getScreenCTM()?.a ?? 1) : 1;
    const turned =
      of instanceof SVGGraphicsElement
        ? Math.hypot(of.getScreenCTM()?.a ?? 1, of.getScreenCTM()?.b ?? 0)
        : scale;
    const px = Number.parseFloat(of_.fontSize) * turned;
    if (px < LEAST_PX - 0.05) told.push(`${px.toFixed(1)} px: ${said}`);
    const colour = of instanceof SVGElement ? of_.fill : of_.color;
    if (/^rgb/.test(colour) && !colours.has(colour)) told.push(`${colour} is no token: ${said}`);

    // Clipped: by an ancestor that does not scroll, or beyond the page.
    let layer: Element | null = null;
    let isHidden = false;
    for (let up: Element | null = of; up !== null; up = up.parentElement) {
      const how = getComputedStyle(up);
      if (layer === null && /fixed|sticky|absolute/.test(how.position)) layer = up;
      if (/auto|scroll/.test(`${how.overflowX} ${how.overflowY}`)) {
        const view = up.getBoundingClientRect();
        isHidden ||= boxes.every(
          (b) =>
            b.bottom < view.top + 1 ||
            b.top > view.bottom - 1 ||
            b.right < view.left + 1 ||
            b.left > view.right - 1,
        );
        // What scrolls may stand beyond its edge.
        break;
      }
      if (/hidden|clip/.test(`${how.overflowX} ${how.overflowY}`) && !(up instanceof SVGElement)) {
        const view = up.getBoundingClientRect();
        if (view.width < 2 || view.height < 2) {
          isHidden = true;
          break;
        }
        const cut = boxes.find(
          (b) =>
            b.right > view.right + 1.5 || b.left < view.left - 1.5 || (b.top + b.bottom) / 2 > view.bottom,
        );
        if (cut !== undefined) told.push(`clipped: ${said}`);
      }
      if (up instanceof SVGSVGElement && how.overflow !== 'visible') {
        const view = up.getBoundingClientRect();
        // A drawing may show a part of itself only; no word may stand across its edge.
        isHidden ||= boxes.every(
          (b) =>
            b.right < view.left + 1 ||
            b.left > view.right - 1 ||
            b.bottom < view.top + 1 ||
            b.top > view.bottom - 1,
        );
        if (isHidden) break;
        if (boxes.some((b) => b.right > view.right + 2 || b.left < view.left - 2))
          told.push(`clipped by its drawing: ${said}`);
      }
    }
    if (isHidden) continue;
    for (const box of boxes) lines.push({ words: said, box, layer, of });
  }

  // Words on words: what is inked of a line is about the middle 60 % of its box.
  const inked = lines.map(({ box, ...rest }) => ({
    ...rest,
    left: box.left + 1,
    right: box.right - 1,
    top: box.top + 0.22 * box.height,
    bottom: box.bottom - 0.22 * box.height,
  }));
  inked.sort((a, b) => a.top - b.top);
  for (const [i, a] of inked.entries()) {
    for (let j = i + 1; j < inked.length; j++) {
      const b = inked[j]!;
      if (b.top >= a.bottom - 1) break;
      if (a.of === b.of || a.layer !== b.layer) continue;
      const across = Math.min(a.right, b.right) - Math.max(a.left, b.left);
      const down = Math.min(a.bottom, b.bottom) - b.top;
      if (across > 2 && down > 2) told.push(`${a.words} on ${b.words}`);
    }
  }
  return told;
}

/** Entries that do not say what they want. A box to tick says it in its name; in Drill the field in hand is explained. */
export function helpless(): string[] {
  const open = [...document.querySelectorAll('dialog[open]')].at(-1) ?? document;
  return [...open.querySelectorAll<HTMLInputElement>('input, select, textarea')].flatMap((entry) => {
    if (!entry.checkVisibility() || entry.matches('[type=file], [type=checkbox], [type=radio], [type=range]'))
      return [];
    const ids = (entry.getAttribute('aria-describedby') ?? '').split(/\s+/);
    const words = ids.map((id) => document.getElementById(id)?.textContent ?? '').join(' ');
    const inHand = entry.closest('.entry')?.querySelector('p.help')?.textContent ?? '';
    const help = `${words} ${entry.title} ${inHand}`.trim();
    return help.length > 12 ? [] : [`no help: ${entry.outerHTML.slice(0, 120)}`];
  });
}

/** Whatever can be reached by Tab and shows no ring when it is. */
export function unringed(): string[] {
  const reached = [
    ...document.querySelectorAll<HTMLElement | SVGElement>(
      'a[href], button, input, select, textarea, summary, [tabindex="0"]',
    ),
  ].filter((element) => element.checkVisibility() && !element.matches(':disabled, [type=file]'));
  const before = document.activeElement;
  const told = reached.flatMap((element) => {
    // In Drill the field in hand is the shaded row of the book, with its caret: so the visual direction draws it.
    if (element.closest('[data-focused="true"]') !== null) return [];
    // Some give the ring to what they stand in; in a drawing it is a stroke, of the mark or of a part of it.
    const near = [element, ...element.querySelectorAll('*'), element.parentElement, element.closest('label')];
    const strokes = near.map((one) => {
      const { strokeWidth = '', strokeOpacity = '' } = one === null ? {} : getComputedStyle(one);
      return `${strokeWidth} ${strokeOpacity}`;
    });
    element.focus({ preventScroll: true });
    if (document.activeElement !== element || !element.matches(':focus-visible')) return [];
    const isRinged = near.some((one, i) => {
      if (one === null) return false;
      const { outlineStyle, outlineWidth, stroke, strokeWidth, strokeOpacity } = getComputedStyle(one);
      return (
        (outlineStyle !== 'none' && Number.parseFloat(outlineWidth) >= 3) ||
        (stroke !== 'none' &&
          `${strokeWidth} ${strokeOpacity}` !== strokes[i] &&
          Number.parseFloat(strokeWidth) * Number(strokeOpacity) >= 3)
      );
    });
    return isRinged ? [] : [`no ring: ${element.outerHTML.slice(0, 120)}`];
  });
  if (before instanceof HTMLElement) before.focus({ preventScroll: true });
  return told;
}
