/** Labels in a real browser: on paper of their size, and their codes read off the page by a library that did not make them. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { Resvg } from '@resvg/resvg-js';
import { readLabelCode } from '@stillstand/campaign/tables';
import jsQR from 'jsqr';
import { violations } from '../../../browser/axe.ts';
import { atRest, onDevice, openDemo, served } from '../../../browser/browser.ts';

const CAMPAIGN = 'd3000000-0000-4000-8000-000000000001';
/** Its types describe another way of packing than Node's. */
const readCode = jsQR as unknown as typeof jsQR.default;

let at: string;
const device = onDevice({}, async ({ page }) => {
  at = `${await served()}#/${await openDemo(page)}`;
});

/** What a camera reads in a picture. */
function readIn(png: Buffer): string | null {
  const [width, height] = [png.readUInt32BE(16), png.readUInt32BE(20)];
  const href = `data:image/png;base64,${png.toString('base64')}`;
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}"><image width="${width}" height="${height}" href="${href}"/></svg>`;
  const drawn = new Resvg(svg).render();
  return readCode(new Uint8ClampedArray(drawn.pixels), drawn.width, drawn.height)?.data ?? null;
}

test('labels of a hole from Describe: printed at their size, each code read off the page', async () => {
  const { page } = device;
  await page.goto(`${at}/describe?hole=T2`);
  await page.getByRole('button', { name: 'Print labels' }).click();
  await page.getByRole('heading', { name: 'Labels' }).waitFor();
  await page.getByText('10 labels, 1 page.').waitFor();
  const codes = page.locator('.labels-paper article svg');
  assert.equal(await codes.count(), 10);
  for (const i of [0, 4, 9]) {
    const read = readIn(await codes.nth(i).screenshot());
    const name = (await page.locator('.labels-paper article b').nth(i).textContent())?.trim();
    assert.deepEqual(readLabelCode(CAMPAIGN, read ?? ''), {
      ok: true,
      thing: { kind: 'sample', sample: name },
    });
  }
  // No word runs out of its label.
  const out = await page.locator('.labels-paper article').evaluateAll(
    (labels) =>
      labels.filter((label) => {
        const { right, bottom } = label.getBoundingClientRect();
        return [...label.querySelectorAll('b, p')].some((words) => {
          const range = document.createRange();
          range.selectNodeContents(words);
          const box = range.getBoundingClientRect();
          return box.right > right || box.bottom > bottom;
        });
      }).length,
  );
  assert.equal(out, 0);
  const a4 = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
  // 210 × 297 mm are 595.3 × 841.9 points.
  assert.match(a4, /\/MediaBox \[0 0 59[45]\.\d+ 84[12]\.\d+\]/);
  assert.equal(a4.match(/\/Type \/Page\b(?!s)/g)?.length, 1);
});

test('another sheet is kept on the device; a roll that is typed, places used already, and nothing to print', async () => {
  const { page } = device;
  await page.goto(`${at}/describe?view=labels&hole=T1`);
  await page.getByLabel('Labels of', { exact: true }).selectOption('cores');
  await page.getByLabel('Labels used already', { exact: true }).fill('20');
  await page.getByText(/^\d+ labels, 2 pages\./).waitFor();
  await page.getByLabel('Labels used already', { exact: true }).fill('24');
  await page.getByText('Found “24”; expected 0 to 23.').waitFor();
  await page.getByLabel('Sheet', { exact: true }).selectOption('other');
  await page.getByText('Say how large a label is.').waitFor();
  await page.getByLabel('Width × height', { exact: true }).fill('10 x 10');
  await page.getByText(/expected two lengths, 25 × 15 to 300 × 300 mm/).waitFor();
  await page.getByLabel('Width × height', { exact: true }).fill('62 × 29');
  await page.locator('.labels-paper article').first().waitFor();
  const roll = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
  // 62 × 29 mm are 175.7 × 82.2 points.
  assert.match(roll, /\/MediaBox \[0 0 17[56](?:\.\d+)? 82(?:\.\d+)?\]/);
  assert.equal(
    roll.match(/\/Type \/Page\b(?!s)/g)?.length,
    await page.locator('.labels-paper article').count(),
  );
  await page.reload();
  assert.equal(await page.getByLabel('Width × height', { exact: true }).inputValue(), '62 × 29');
  await page.getByLabel('Hole', { exact: true }).selectOption('T1');
  for (const [width, height] of [
    [1440, 900],
    [390, 844],
  ] as const) {
    await page.setViewportSize({ width, height });
    await atRest(page);
    assert.deepEqual(await violations(page), []);
  }
  await page.getByRole('button', { name: 'Leave the labels' }).click();
  await page.getByRole('heading', { name: 'T1', exact: true }).waitFor();
});
