/**
 * What makes a screen right and can be said without a picture to compare with: on every screen, at three widths, in both
 * themes. A stored picture would differ with every version of the browser and its fonts; the measures of the visual
 * direction do not (docs/decisions/0003-the-app.md).
 */
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { before, test } from 'node:test';
import type { Page } from 'playwright-core';
import { atRest, onDevice } from './browser.ts';
import { faults, helpless, unringed } from './look.ts';
import { dress, SCREENS, SCREENS_ZONE, THEMES, WIDTHS } from './screens.ts';

const at = onDevice({ zone: SCREENS_ZONE });
/** Colours of each theme, as the browser tells them. */
let tokens: Record<string, Record<string, string>>;

before(async () => {
  tokens = await themeTokens();
});

for (const screen of SCREENS) {
  test(`the screen ${screen.name}`, async () => {
    const { page } = at;
    await screen.open(page);
    const found: string[] = [];
    for (const size of WIDTHS) {
      for (const theme of THEMES) {
        await dress(page, screen, theme, size);
        const told = await page.evaluate(faults, {
          first: (size[0] < 560 ? screen.firstOnPhone : undefined) ?? screen.first,
          tokens: tokens[theme]!,
        });
        found.push(...told.map((words) => `${size[0]} px, ${theme}: ${words}`));
      }
      found.push(...(await measures(page, size[0])).map((words) => `${size[0]} px: ${words}`));
    }
    // Of the ring only its being there is asked; its colour is the ink, which was.
    await page.keyboard.press('Shift');
    await atRest(page);
    found.push(...(await page.evaluate(unringed)));
    found.push(...(await page.evaluate(helpless)));
    assert.deepEqual([...new Set(found)], []);
  });
}

interface Measure {
  of: string;
  side: 'width' | 'height' | 'left' | 'right' | 'bottom' | 'top';
  px: number;
  /** Pages whose words need more may be larger. */
  least?: true;
}

/** The grids of the visual direction; each where it is on the page. */
const MEASURES: Readonly<Record<number, readonly Measure[]>> = {
  360: [
    { of: 'main.page > svg, main.page > section', side: 'left', px: 12, least: true },
    { of: '.drill .key', side: 'height', px: 48, least: true },
    { of: '.action-bar', side: 'height', px: 72, least: true },
  ],
  820: [
    { of: '.head', side: 'height', px: 72, least: true },
    { of: '.tabs', side: 'height', px: 49 },
    { of: '.action-bar', side: 'height', px: 72, least: true },
    { of: '.drill .keypad button', side: 'height', px: 58 },
  ],
  1440: [
    { of: '.rail', side: 'width', px: 104 },
    { of: '.head', side: 'height', px: 64, least: true },
    { of: '.curve-page .side', side: 'width', px: 508 },
    { of: '.action-bar', side: 'height', px: 72, least: true },
  ],
};

async function measures(page: Page, width: number): Promise<string[]> {
  return page.evaluate(
    (asked) =>
      asked.flatMap(({ of, side, px, least }) =>
        [...document.querySelectorAll(of)].flatMap((element) => {
          if (!element.checkVisibility()) return [];
          const found = element.getBoundingClientRect()[side];
          const isRight = least === true ? found >= px - 0.5 : Math.abs(found - px) <= 0.5;
          return isRight
            ? []
            : [`${of} has ${side} ${found.toFixed(1)}, wanted ${least ? 'at least ' : ''}${px}`];
        }),
      ),
    MEASURES[width]!,
  );
}

async function themeTokens(): Promise<Record<string, Record<string, string>>> {
  const css = await readFile(join(import.meta.dirname, '..', 'look', 'tokens.css'), 'utf8');
  const block = (selector: string): Record<string, string> => {
    const body = new RegExp(`${selector.replace(/[[\]"]/g, '\\$&')}\\s*\\{([^}]*)\\}`).exec(css)?.[1];
    if (body === undefined) throw new Error(`tokens.css has no ${selector}`);
    return Object.fromEntries(
      [...body.matchAll(/--([\w-]+):\s*#([0-9a-f]{6})\b/gi)].map(([, name, hex]) => {
        const [r, g, b] = [0, 2, 4].map((i) => Number.parseInt(hex!.slice(i, i + 2), 16));
        return [name!, `rgb(${r}, ${g}, ${b})`];
      }),
    );
  };
  const day = block(':root');
  return { day, night: { ...day, ...block('[data-theme="night"]') } };
}
