/**
 * Every stage of a campaign with much in it, on a laptop and on an upright tablet: nothing lies on anything else, nothing
 * runs off sideways, names that differ only at their end differ on the screen, and a stage opens without a wait.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Page } from 'playwright-core';
import { atRest, onDevice, openCampaign, served } from './browser.ts';
import { faults, helpless } from './look.ts';
import { muchCampaign } from './much.ts';

const SIZES = [
  [1440, 900],
  [820, 1180],
] as const;

/** A stage is there in so many ms: the quickest of a few openings, as other work may hold one up. */
const OPENS_MS = 300;
/** The report is drawn anew each time. */
const REPORT_MS = 2000;
const OPENINGS = 3;

let id = '';
const at = onDevice({}, async ({ page }) => {
  id = await openCampaign(page, muchCampaign(), 'curve');
  await page.locator('[data-computed="final"]').first().waitFor({ state: 'attached' });
  const away = page.getByRole('button', { name: 'Put the first steps away' });
  if ((await away.count()) > 0) await away.click();
});

const STAGES = [
  ['Plan', 'plan', '.tide-staff'],
  ['Drill', 'drill', '.drill'],
  ['Describe', 'describe', '.column-drawing'],
  ['the section', 'describe?view=section', '.section-drawing'],
  ['Date', 'date?row=determinations47', '.dates .chosen'],
  ['ages against depth', 'date?view=depth', '.against-depth .picture svg'],
  ['the import of ages', 'date?view=import', 'textarea'],
  ['Points', 'points?point=P-TS-VC-12-0360-B', '.one-point .slide'],
  ['Curve', 'curve', '.points-table tbody tr'],
  ['Report', 'report', '.report-page'],
] as const;

/** Brings the page to a stage of the campaign; milliseconds until it is there. */
async function open(page: Page, address: string, shown: string): Promise<number> {
  const took = await page.evaluate(
    ([hash, selector]) =>
      new Promise<number>((is) => {
        const start = performance.now();
        location.hash = hash!;
        const look = (): void => {
          if (document.querySelector(selector!)?.checkVisibility()) is(performance.now() - start);
          else requestAnimationFrame(look);
        };
        requestAnimationFrame(look);
      }),
    [`#/${id}/${address}`, shown],
  );
  await atRest(page);
  return took;
}

/** Brings the page to another stage, so that the next opening is one. */
const leave = (page: Page, address: string): Promise<number> =>
  address === 'plan' ? open(page, 'drill', '.drill') : open(page, 'plan', '.tide-staff');

for (const [name, address, shown] of STAGES) {
  test(`${name}: nothing on anything else, nothing beyond the edge, soon there`, async () => {
    const { page } = at;
    await page.goto(`${await served()}#/${id}/${address}`);
    await page.locator(shown).first().waitFor();
    for (const [width, height] of SIZES) {
      await page.setViewportSize({ width, height });
      const bound = address === 'report' ? REPORT_MS : OPENS_MS;
      let took = Number.POSITIVE_INFINITY;
      for (let i = 0; i < OPENINGS && took > bound; i++) {
        await leave(page, address);
        took = Math.min(took, await open(page, address, shown));
      }
      const told = await page.evaluate(faults, { first: 'main', tokens: {} as Record<string, string> });
      // Colours, and what is looked at first, are asked of the demo in look.browser.test.ts.
      const found = told.filter((words) => !/is no token|^paper is|^ink is|not in view/.test(words));
      found.push(...(await page.evaluate(helpless)), ...(await page.evaluate(small)));
      assert.deepEqual([...new Set(found)], [], `${name} at ${width}`);
      assert.ok(took <= bound, `${name} at ${width} opened in ${Math.round(took)} ms`);
    }
  });
}

/** Buttons and lists to choose from that are less than a finger high; numbers in a line of words and the ? of a field are as high as the line. */
function small(): string[] {
  return [...document.querySelectorAll<HTMLElement>('main button, main select, main summary')].flatMap(
    (target) => {
      const { height } = target.getBoundingClientRect();
      if (!target.checkVisibility() || height === 0 || height >= 47.5) return [];
      if (target.matches('.traced, .ask, .row-name')) return [];
      // The border of a field is a part of it.
      if (target.matches('.field select') && height >= 45.5) return [];
      return [`${height.toFixed(0)} px high: ${target.className} ${(target.textContent ?? '').slice(0, 30)}`];
    },
  );
}

test('Date: no form and no bar over the age, the head of the table and the chosen row in sight', async () => {
  const { page } = at;
  for (const [width, height] of SIZES) {
    await page.setViewportSize({ width, height });
    await leave(page, 'date');
    await open(page, 'date?row=determinations47', '.dates .chosen');
    const covered = await page.evaluate(() => {
      const box = (of: string): DOMRect => document.querySelector(of)!.getBoundingClientRect();
      const form = box('.form-place');
      const told: string[] = [];
      const parts = [
        '.age-answer .median',
        '.age-answer dl',
        '.large-age',
        '.dates',
        '.dates thead th',
        '.dates .chosen',
      ];
      for (const of of parts) {
        const { left, right, top, bottom } = box(of);
        if (left < form.right - 1 && right > form.left + 1 && top < form.bottom - 1 && bottom > form.top + 1)
          told.push(`${of} lies under the form`);
        if (of === '.dates') continue;
        if (top < -1 || bottom > innerHeight + 1) told.push(`${of} is out of sight`);
        const over = document.elementFromPoint((left + right) / 2, (top + bottom) / 2);
        if (over === null || over.closest(`${of}, .age-place, .dates`) === null)
          told.push(`${of} is covered`);
      }
      return told;
    });
    assert.deepEqual(covered, [], `${width}`);
  }
});

/** Names as they are seen: each written whole, in as many lines as it takes. */
const seen = (page: Page, of: string): Promise<string[]> =>
  page
    .locator(of)
    .evaluateAll((all) =>
      all
        .filter((each) => each.checkVisibility() && each.scrollWidth <= each.clientWidth + 1)
        .map((each) => each.textContent),
    );

test('samples, holes and points are told apart wherever they are listed', async () => {
  const { page } = at;
  const apart = async (of: string, count: number): Promise<void> => {
    const names = await seen(page, of);
    assert.equal(new Set(names).size, count, `${of}: ${names.slice(0, 4).join(', ')}`);
  };
  await page.setViewportSize({ width: 820, height: 1180 });
  await open(page, 'date', '.dates .chosen');
  await apart('.dates tbody th button', 220);
  await open(page, 'points', '.one-point');
  await page.getByRole('button', { name: /1 of 200/ }).click();
  await apart('dialog .label', 300);
  await page.setViewportSize({ width: 1440, height: 900 });
  await page.keyboard.press('Escape');
  await apart('.all .label', 300);
  await open(page, 'curve', '.points-table tbody tr');
  await apart('.points-table th button', 74);
  await page.getByRole('button', { name: 'Show 126 points of other sites' }).click();
  await apart('.points-table th button', 200);
});

test('the section goes sideways under its staff, and its bases are large enough for a finger', async () => {
  const { page } = at;
  await page.setViewportSize({ width: 820, height: 1180 });
  await open(page, 'describe?view=section', '.section-drawing');
  const section = page.getByRole('region', { name: 'Section, drawn' });
  const before = (await page.locator('.section-staff').boundingBox())!.x;
  await section.evaluate((box) => {
    box.scrollLeft = 600;
  });
  assert.equal(await section.evaluate((box) => box.scrollLeft), 600);
  assert.equal((await page.locator('.section-staff').boundingBox())!.x, before);
  const names = await page.locator('.section-drawing text').allTextContents();
  assert.equal(new Set(names.filter((words) => /^TS-VC-12-\d\d$/.test(words))).size, 24);
  for (const pad of await page.locator('.section-drawing .pick-pad').all()) {
    const box = (await pad.boundingBox())!;
    assert.ok(box.width >= 47.5 && box.height >= 47.5, `${box.width} by ${box.height}`);
  }
});

test('a point is found by a part of what is said of it; its site heads its list', async () => {
  const { page } = at;
  await page.setViewportSize({ width: 1440, height: 900 });
  await open(page, 'points?point=P-TS-VC-12-0360-B', '.one-point');
  const list = page.getByRole('navigation', { name: 'All points' });
  assert.equal(await list.locator('.of-site h3').count(), 3);
  const current = (await list.locator('[aria-current]').boundingBox())!;
  const lists = (await list.locator('.lists').boundingBox())!;
  assert.ok(current.y >= lists.y && current.y + current.height <= lists.y + lists.height + 1);
  const find = list.getByLabel('Find a point', { exact: true });
  await find.fill('0301 b');
  assert.deepEqual(await list.locator('.label').allTextContents(), ['P-TS-VC-12-0301-B']);
  await find.fill('invented entry-07');
  assert.equal(await list.locator('.label').count(), 2);
  await find.fill('nowhere');
  await list.getByText('No point has “nowhere”').waitFor();
});
