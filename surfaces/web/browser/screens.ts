/** Every screen that is looked at, by people (`pictures.ts`) and by machine (`look.browser.test.ts`). */
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { atRest, computed, openDemo, openedSeparately, served } from './browser.ts';
import { DRILLING_AT, drillingZip } from './drilling.ts';

export const WIDTHS = [
  [360, 740],
  [820, 1180],
  [1440, 900],
] as const;
export const THEMES = ['day', 'night'] as const;

export interface Screen {
  name: string;
  /** Brings the page there from anywhere. */
  open(page: Page): Promise<void>;
  /** Brings it about again, where it does not outlast a change of width. */
  again?(page: Page): Promise<void>;
  /** Where the eye must go first: it is in view without scrolling. On a phone another part may come first. */
  first: string;
  firstOnPhone?: string;
}

/** The clock of the campaign's coast. */
export const SCREENS_ZONE = 'Etc/GMT+8';

let demo = '';
let drilling = '';

async function stage(page: Page, address: string, shown: string): Promise<void> {
  if (demo === '') demo = await openDemo(page);
  await page.goto(`${await served()}#/${demo}/${address}`);
  await page.locator(shown).first().waitFor();
  await computed(page);
}

export const SCREENS: readonly Screen[] = [
  {
    name: 'first-run',
    open: async (page) => {
      await page.goto(await served());
      await page.locator('.first-run').waitFor();
    },
    first: '.first-run .button',
  },
  {
    name: 'first-steps',
    open: (page) => stage(page, 'plan', '.first-steps'),
    first: '.first-steps .button',
  },
  {
    name: 'describe-hole',
    open: async (page) => {
      await stage(page, 'describe?hole=T3', '.column-drawing');
      const away = page.getByRole('button', { name: 'Put the first steps away' });
      if ((await away.count()) > 0) await away.click();
    },
    first: '.column-drawing',
  },
  {
    name: 'describe-unit',
    open: async (page) => {
      await stage(page, 'describe?hole=T3', '.column-drawing');
      await page.getByRole('button', { name: /^Unit 6,/ }).press('Enter');
      await page.locator('.describe-panel input').first().waitFor();
    },
    first: '.describe-panel h2',
    firstOnPhone: '.column-drawing',
  },
  {
    name: 'describe-section',
    open: (page) => stage(page, 'describe?view=section', '.section-drawing'),
    first: '.section-drawing',
  },
  {
    name: 'describe-through-time',
    open: (page) => stage(page, 'describe?view=through-time', '.no-ages'),
    first: '.no-ages',
  },
  { name: 'date', open: (page) => stage(page, 'date', '.page table'), first: 'main svg' },
  {
    name: 'date-depth',
    open: (page) => stage(page, 'date?view=depth&hole=T2', '.against-depth .picture svg'),
    first: '.against-depth figure',
  },
  {
    name: 'date-import',
    open: async (page) => {
      await stage(page, 'date?view=import', 'textarea');
      await page
        .locator('textarea')
        .fill('Lab no,Sample,Age BP,Error\nX-1,T3-09,7100,35\nX-2,T3-10,7200,a lot\n');
      await page.getByRole('button', { name: 'Read what was pasted' }).click();
      await page.locator('.import-asked li').first().waitFor();
    },
    first: '.import-asked',
  },
  {
    name: 'points',
    open: (page) => stage(page, 'points?point=P-T2-08', '.answer .quantity'),
    first: '.answer',
  },
  { name: 'plan', open: (page) => stage(page, 'plan', 'main svg'), first: 'main svg' },
  {
    name: 'curve',
    // The whole curve: a look at it is no picture to be shown.
    open: async (page) => {
      await stage(page, 'curve', '.side .answer .number');
      await page.locator('[data-computed="final"]').first().waitFor({ state: 'attached' });
    },
    first: '.side .answer .number',
    firstOnPhone: '.picture svg',
  },
  {
    name: 'trace',
    open: (page) => stage(page, 'curve?point=P-T2-08', '.side .answer .number'),
    again: async (page) => {
      // Beside the drawing where there is room, else as a sheet that the last width left open.
      const cross = page.getByRole('dialog').getByRole('button', { name: 'Close' });
      if (await cross.isVisible()) await cross.click();
      const first = page.locator('.trace li').first();
      if (!(await first.isVisible())) await page.locator('main .answer .traced').first().click();
      await first.waitFor();
    },
    first: '.trace li',
  },
  {
    name: 'report',
    open: (page) => stage(page, 'report', '.report-page'),
    first: '.action-bar',
  },
  {
    // After what reads the demo: its picture stays in the campaign.
    name: 'describe-scale',
    open: async (page) => {
      await stage(page, 'describe?hole=T1', '.column-drawing');
      const icon = join(import.meta.dirname, '..', '..', '..', 'out', 'web', 'icon-192.png');
      await page.locator('input[type="file"]').last().setInputFiles(icon);
      await page.getByRole('button', { name: 'Set scale' }).click();
      await page.locator('.picture-pad').waitFor();
      for (const [number, depth] of [
        [1, '0 m'],
        [2, '0.50 m'],
      ] as const) {
        await page.getByRole('button', { name: `Place mark ${number} in the middle` }).click();
        await page.locator(`#picture-mark-${number}:focus`).waitFor();
        await page.keyboard.press('Shift+ArrowUp');
        await page.getByLabel(`Depth at mark ${number}`, { exact: true }).fill(depth);
        for (let i = 0; i < 4 && number === 1; i++) {
          await page.locator('#picture-mark-1').press('Shift+ArrowUp');
        }
      }
      await page.locator('.marking .placed').waitFor();
    },
    first: '.picture-pad',
  },
  {
    name: 'history',
    open: async (page) => {
      await stage(page, 'plan', 'main svg');
      const contacts = page.getByLabel('Contacts', { exact: true });
      await contacts.fill('harbour office, channel 16');
      await contacts.press('Enter');
      await page.goto(`${await served()}#/${demo}/history`);
      await page.locator('.act-line').first().click();
      await page.locator('.cell-changes').first().waitFor();
    },
    first: '.history .act-line',
  },
  {
    name: 'history-compare',
    open: async (page) => {
      await stage(page, 'points?point=P-T2-08', '.answer .quantity');
      const lower = page.getByLabel('Lower', { exact: true });
      await lower.fill('MTL');
      await lower.press('Enter');
      await page.goto(`${await served()}#/${demo}/history?compare=start`);
      await page.locator('.compare .act-rows').waitFor();
    },
    first: '.compare caption',
  },
  {
    name: 'earlier',
    open: async (page) => {
      await stage(page, 'plan', 'main svg');
      await page.goto(`${await served()}#/${demo}@start/points?point=P-T2-08`);
      await page.locator('.earlier').waitFor();
      await computed(page);
    },
    first: '.earlier .button',
  },
  {
    name: 'home',
    open: async (page) => {
      await page.goto(`${await served()}#/`);
      await page.locator('.campaigns li').first().waitFor();
    },
    first: '.campaigns a',
  },
  {
    name: 'drill',
    open: async (page) => {
      if (drilling === '') {
        await page.goto(`${await served()}#/`);
        await page.getByRole('button', { name: 'Open a file' }).waitFor();
        await page.locator('input[type=file]').setInputFiles({
          name: 'drilling.zip',
          mimeType: 'application/zip',
          buffer: Buffer.from(await drillingZip()),
        });
        await openedSeparately(page);
        drilling = /#\/([0-9a-f]{12})/.exec(page.url())![1]!;
        await page.goto(`${await served()}#/${drilling}/drill?hole=T3`);
        for (const [tip, time] of [
          ['12.10', '16:00'],
          ['12.55', '16:03'],
          ['12.97', '16:06'],
        ] as const) {
          await page.clock.setFixedTime(new Date(`2023-02-11T${time}:00-08:00`));
          const mark = page.locator('.entry .field-row, .entry input').first();
          await mark.waitFor();
          await mark.click();
          await page.keyboard.type(tip);
          await page.keyboard.press('Enter');
        }
      }
      await page.clock.setFixedTime(DRILLING_AT);
      await page.goto(`${await served()}#/${drilling}/drill?hole=T3`);
      // The clock on the page goes by minutes.
      await page.reload();
      await page.locator('.risk[data-level="caution"]').waitFor();
    },
    first: '.act .action-bar',
  },
];

/** Puts a theme and a width on a screen that is open. */
export async function dress(
  page: Page,
  screen: Screen,
  theme: string,
  [width, height]: readonly [number, number],
): Promise<void> {
  await page.setViewportSize({ width, height });
  await page.evaluate((name) => {
    if (document.documentElement.dataset['theme'] === name) return;
    const to = name === 'night' ? 'Night' : 'Day';
    const button = [...document.querySelectorAll('button')].find((b) =>
      new RegExp(`^${to}( theme)?$`).test(b.ariaLabel ?? b.textContent ?? ''),
    );
    if (button === undefined) throw new Error(`no button puts on the ${name} theme`);
    button.click();
  }, theme);
  await screen.again?.(page);
  // Drawings follow the width a frame later.
  await atRest(page);
}
