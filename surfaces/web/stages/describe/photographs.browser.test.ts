/**
 * Photographs with a scale, by finger and by keyboard, on a tablet and on a phone. Pictures are drawn in the page, with bands
 * of colour at known lengths along a core that lies turned, a tape alongside; the strip must have each where it belongs.
 */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { readFiles, withRows } from '@stillstand/campaign/document';
import type { Page } from 'playwright-core';
import { violations } from '../../browser/axe.ts';
import { allSaved, atRest, onDevice, openCampaign, openDemo } from '../../browser/browser.ts';
import {
  COLOURS,
  CORE_WIDTH_M,
  corePicture,
  drawn,
  LENGTH_M,
  onPicture,
  PICTURE,
  SAMPLE_M,
  type Spot,
  TAPE_M,
  turnedBy6,
} from './fixtures/core-picture.ts';
import { change, laneOf } from './fixtures/lane-colours.ts';
import { markingHand } from './fixtures/marking-hand.ts';

let page: Page;
let campaign: string;
let hand: ReturnType<typeof markingHand>;
onDevice({ width: 820, height: 1180, touch: true }, async (at) => {
  page = at.page;
  hand = markingHand(page);
  campaign = await openDemo(page);
  await page.getByRole('button', { name: 'Put the first steps away' }).click();
});

/** Goes to the run, and gives its picture. */
async function addPicture(run: string, buffer: Buffer, name = 'core.jpg', mimeType = 'image/jpeg') {
  await page.goto(`${page.url().split('#')[0]}#/${campaign}/describe?hole=T3`);
  await page.locator('.column-drawing').waitFor();
  await page.getByLabel('One core', { exact: true }).selectOption(`run ${run}`);
  const nothing = page.getByRole('button', { name: 'Choose nothing' });
  if ((await nothing.count()) > 0) await nothing.click();
  await page.locator('input[type="file"]').last().setInputFiles({ name, mimeType, buffer });
}

const button = (name: string | RegExp) => page.getByRole('button', { name });
const entry = (name: string) => page.getByRole('dialog').getByLabel(name, { exact: true });
const keep = () => button('Keep scale');
const step = () => page.locator('.marking-step');
const undo = async (): Promise<void> => {
  await page.keyboard.press('Control+z');
};

async function openScale(): Promise<void> {
  await page.locator('.core-picture').waitFor();
  await button(/^(Set|Change) scale$/).click();
  await page.locator('.picture-pad').waitFor();
  await atRest(page);
}

test('two taps, two depths: the core stands straight along its run', async () => {
  await addPicture('R7', await corePicture(page));
  await openScale();
  assert.match((await step().textContent()) ?? '', /^Tap the first mark/);
  assert.ok(await keep().isDisabled());
  await hand.tap(await hand.onScreen(onPicture(0.1, TAPE_M)));
  await entry('Depth at mark 1').fill('10 cm');
  await hand.tap(await hand.onScreen(onPicture(0.9, TAPE_M)));
  await entry('Depth at mark 2').fill('0.90 m');
  await hand.nudge(1, onPicture(0.1, TAPE_M));
  await hand.nudge(2, onPicture(0.9, TAPE_M));
  // The bore of the demo's sampler.
  assert.equal(await entry('Width of the core').inputValue(), '0.05 m');
  await entry('Width of the core').fill(`${CORE_WIDTH_M} m`);
  await entry('Offset of the core').fill('10 cm');
  const facts = page.getByRole('dialog').locator('.placed');
  assert.equal(await facts.locator('dd').nth(0).textContent(), '1.0 px/mm');
  // Pointing 0.6 rad (34°) below the right, it is turned by 90° − 34°.
  assert.equal(await facts.locator('dd').nth(1).textContent(), '56° clockwise');
  await keep().click();
  await page.getByText('Scale kept. Undo takes it back.').waitFor();
  await allSaved(page);

  const { box, down } = await laneOf(page, 'R7');
  for (const across of [0.1, 0.5, 0.9]) {
    const seen = await down(across);
    assert.deepEqual([...new Set(seen.filter((c) => c !== 'between'))], ['red', 'blue', 'orange']);
    const px_per_m = box.height / LENGTH_M;
    assert.ok(Math.abs(change(seen, 'red', 'blue') - 0.1 * px_per_m) < 2, `${across}`);
    assert.ok(Math.abs(change(seen, 'blue', 'orange') - SAMPLE_M * px_per_m) < 2, `${across}`);
  }
});

test('over the whole hole it stands on in-situ depth: a place of known depth is where its depth is', async () => {
  await button('Choose nothing').click();
  await page.getByLabel('One core', { exact: true }).selectOption({ index: 0 });
  await button('Whole hole').click();
  // The depth of the sample, as computed, and two contacts that give the scale of the drawing.
  await page.getByRole('button', { name: /^Sample T3-05/ }).press('Enter');
  const depth_m = Number(
    (await page.locator('.describe-panel .placed .value').first().textContent())!.replace(/[^\d.]/g, ''),
  );
  const scale = await page.evaluate(() => {
    const [a, ...rest] = [...document.querySelectorAll('.column-drawing .handle')].map((handle) => {
      const line = handle.querySelector('.focus-line')!;
      const end = /V|L[\d.]+ [\d.]+M[\d.]+ ([\d.]+)H/.exec(line.getAttribute('d')!)!;
      const matrix = (line as SVGPathElement).getScreenCTM()!;
      const depth = /; ([\d.]+) m in the ground/.exec(handle.getAttribute('aria-valuetext')!)!;
      return { y: matrix.f + matrix.d * Number(end[1]), depth: Number(depth[1]) };
    });
    return { a: a!, b: rest.at(-1)! };
  });
  const px_per_m = (scale.b.y - scale.a.y) / (scale.b.depth - scale.a.depth);
  const { box, down } = await laneOf(page, 'R7');
  const again = await page.evaluate(() => window.scrollY);
  assert.equal(again, 0, 'the drawing was measured where it is');
  const seen = await down(0.5);
  const expected = scale.a.y + (depth_m - scale.a.depth) * px_per_m - box.y;
  const found = change(seen, 'blue', 'orange');
  assert.ok(Math.abs(found - expected) < 1.5, `${found} px from the top, expected ${expected}`);
  // The core was shortened: in the ground it is longer than it was on the table.
  assert.ok(box.height - px_per_m * LENGTH_M > 2);
});

test('one undo takes the scale back; without it the picture stands uncut', async () => {
  await page.getByRole('button', { name: 'Photograph of run R7' }).press('Enter');
  await button('Change scale').waitFor();
  await undo();
  await button('Set scale').waitFor();
  assert.ok((await (await laneOf(page, 'R7')).down(0.5)).includes('table'));
  await page.keyboard.press('Control+Shift+z');
  await button('Change scale').waitFor();
  await button('Remove scale').click();
  await button('Set scale').waitFor();
  await undo();
  await button('Change scale').waitFor();
});

test('a dragged mark is seen in a loupe; a dragged side widens the core; Cancel keeps nothing', async () => {
  await openScale();
  const before = await hand.markAt(2);
  const from = await hand.onScreen(before);
  await hand.dragMark(from, { x: from.x + 30, y: from.y + 12 });
  const after = await hand.markAt(2);
  const k = (await page.locator('.picture-pad image').first().boundingBox())!.width / PICTURE.width;
  assert.ok(Math.abs(after.x - before.x - 30 / k) <= 1.5 && Math.abs(after.y - before.y - 12 / k) <= 1.5);
  await hand.nudge(2, before);
  const width_m = async (): Promise<number> =>
    Number.parseFloat(await entry('Width of the core').inputValue());
  const right = page.getByRole('slider', { name: 'Right side of the core' });
  const grip = (await right.locator('.grip').boundingBox())!;
  await page.mouse.move(grip.x + grip.width / 2, grip.y + grip.height / 2);
  await page.mouse.down();
  // To the right with the top up: up and to the right, 20 px in all.
  await page.mouse.move(
    grip.x + grip.width / 2 + 20 * Math.sin(PICTURE.turn),
    grip.y + grip.height / 2 - 20 * Math.cos(PICTURE.turn),
    { steps: 4 },
  );
  await page.mouse.up();
  const wider_m = 20 / k / PICTURE.px_per_m;
  assert.ok(Math.abs((await width_m()) - CORE_WIDTH_M - wider_m) < 0.003, `${await width_m()}`);
  const left_m = Number.parseFloat(await entry('Offset of the core').inputValue()) - (await width_m()) / 2;
  assert.ok(Math.abs(left_m - (0.1 - CORE_WIDTH_M / 2)) < 0.0011, `${left_m}`);
  await button('Cancel').click();
  await openScale();
  assert.deepEqual(await hand.markAt(2), before);
  assert.equal(await width_m(), CORE_WIDTH_M);
  assert.equal(await entry('Offset of the core').inputValue(), '10 cm');
});

test('two fingers zoom and move the picture, one finger moves it; marks stay on their places', async () => {
  const pad = (await page.locator('.picture-pad').boundingBox())!;
  const low = { x: pad.x + pad.width / 2, y: pad.y + pad.height - 60 };
  const by = (x: number, y = 0): Spot => ({ x: low.x + x, y: low.y + y });
  const wide = async (): Promise<number> =>
    (await page.locator('.picture-pad image').first().boundingBox())!.width;
  const before = [await hand.markAt(1), await hand.markAt(2)];
  const [was, one] = [await wide(), await hand.onScreen(before[0]!)];
  await hand.fingers([[by(-40)], [by(-40), by(40)], [by(-60), by(60)], [by(-80), by(80)]]);
  assert.ok(Math.abs((await wide()) / was - 2) < 0.02, `${(await wide()) / was}`);
  const mark = (await page.locator('#picture-mark-1 .focus-ring').boundingBox())!;
  const there = await hand.onScreen(before[0]!);
  assert.ok(
    Math.abs(mark.x + mark.width / 2 - there.x) < 1 && Math.abs(mark.y + mark.height / 2 - there.y) < 1,
  );
  assert.ok(Math.hypot(there.x - one.x, there.y - one.y) > 20);
  await hand.fingers([[by(0)], [by(-30, -10)], [by(-50, -40)]]);
  const moved = await hand.onScreen(before[0]!);
  assert.ok(Math.abs(moved.x - there.x + 50) < 1 && Math.abs(moved.y - there.y + 40) < 1);
  assert.deepEqual([await hand.markAt(1), await hand.markAt(2)], before);
  await button('Show all').click();
  assert.equal(await wide(), was);
});

test('a mark that is dragged to the edge of an enlarged picture stays under the finger', async () => {
  await page.locator('#picture-mark-2').focus();
  for (let i = 0; i < 4; i++) await button('Zoom in').click();
  const pad = (await page.locator('.picture-pad').boundingBox())!;
  const k = (await page.locator('.picture-pad image').first().boundingBox())!.width / PICTURE.width;
  const before = await hand.markAt(2);
  const from = await hand.onScreen(before);
  assert.ok(Math.abs(from.x - pad.x - pad.width / 2) < 1, 'what is enlarged is the chosen mark');
  await hand.dragMark(from, { x: pad.x + 10, y: from.y });
  assert.ok(Math.abs((await hand.markAt(2)).x - before.x - (pad.x + 10 - from.x) / k) < 1.5);
  await hand.nudge(2, before);
  await button('Show all').click();
});

test('what is wrong is said where it is, and stays as it was typed', async () => {
  const says = async (words: RegExp, isKept: boolean): Promise<void> => {
    await page.getByRole('dialog').getByText(words).first().waitFor();
    assert.equal(await keep().isDisabled(), !isKept);
  };
  await entry('Depth at mark 2').fill('0.1 m');
  await says(/Mark 1 has the same depth/, false);
  await entry('Depth at mark 2').fill('nearly a metre');
  await says(/Found “nearly a metre”; expected a length/, false);
  assert.equal(await entry('Depth at mark 2').inputValue(), 'nearly a metre');
  await entry('Depth at mark 2').fill('1.20 m');
  await says(/Mark 2, at 1.20 m, is below the end of run R7/, true);
  await entry('Depth at mark 2').fill('0.90 m');
  const at = await hand.markAt(1);
  await hand.nudge(1, await hand.markAt(2));
  await says(/Both marks are at one place/, false);
  await hand.nudge(1, at);
  assert.deepEqual(await violations(page), []);
  await button('Cancel').click();
});

test('a tape with its zero at the bottom, and core that runs off the picture', async () => {
  await addPicture('R6', await corePicture(page));
  await openScale();
  // The tape counts from the core's lower end: 0.70 m of core came up, and its top is at the picture's 0.30 m.
  await hand.tap(await hand.onScreen(onPicture(0.3, 0)));
  await entry('Depth at mark 1').fill('0.70 m');
  await hand.tap(await hand.onScreen(onPicture(0.8, 0)));
  await entry('Depth at mark 2').fill('0.20 m');
  await hand.nudge(1, onPicture(0.3, 0));
  await hand.nudge(2, onPicture(0.8, 0));
  await entry('Width of the core').fill('3 cm');
  // Upward on the picture is down the core.
  const turned = page.getByRole('dialog').locator('.placed dd').nth(1);
  assert.equal(await turned.textContent(), '124° anticlockwise');
  await keep().click();
  await page.getByText('Scale kept').waitFor();
  const { box, down } = await laneOf(page, 'R6');
  const seen = await down(0.5);
  // Orange first: 0 m is at the picture's 1.00 m, off the core by 3 cm; blue begins at 1.00 − 0.695 m.
  assert.ok(Math.abs(change(seen, 'orange', 'blue') - ((1 - SAMPLE_M) / 0.7) * box.height) < 2.5);
  // The picture's 0.30 m is now 1.10 m, so that the core's top would be at its 1.40 m, where it is no more.
  await openScale();
  await entry('Depth at mark 1').fill('1.10 m');
  await entry('Depth at mark 2').fill('0.60 m');
  const beyond = page.getByRole('dialog').getByText(/of the core runs off the picture: 0.00 m to /);
  const [, to] = /picture: 0.00 m to ([\d.]+) m. It stays blank./.exec((await beyond.textContent())!)!;
  // The right edge is at 260 + 1000 · p · cos 0.6 + 15 · sin 0.6 = 1200: p = 1.129 m, which is 1.40 − 1.129 m of core.
  assert.ok(Math.abs(Number(to) - 0.271) < 0.002, to);
  await keep().click();
  await page.getByText('Scale kept').waitFor();
  const { box: again, down: downAgain } = await laneOf(page, 'R6');
  const blank = (await downAgain(0.5)).slice(2);
  const edge = blank.lastIndexOf('paper') + 3;
  // In the middle of the core the edge is at p = 940 / (1000 · cos 0.6) = 1.139 m.
  assert.ok(Math.abs(edge - (0.261 / 0.7) * again.height) < 3, `${edge} of ${again.height}`);
  assert.equal(blank[0], 'paper');
});

test('keyboard alone, on a phone', async () => {
  await page.setViewportSize({ width: 390, height: 844 });
  await addPicture('R5', await corePicture(page));
  await page.locator('.core-picture').waitFor();
  await button('Set scale').focus();
  await page.keyboard.press('Enter');
  await page.locator('.picture-pad').waitFor();
  await atRest(page);
  for (const number of [1, 2] as const) {
    const place = button(`Place mark ${number} in the middle`);
    for (let i = 0; i < 20 && !(await place.evaluate((e) => e === document.activeElement)); i++) {
      await page.keyboard.press('Tab');
    }
    await page.keyboard.press('Enter');
    await page.locator(`#picture-mark-${number}:focus`).waitFor();
    for (let i = 0; i < 15; i++) await page.keyboard.press(`Shift+Arrow${number === 1 ? 'Up' : 'Down'}`);
  }
  const field = entry('Depth at mark 1');
  for (let i = 0; i < 20 && !(await field.evaluate((e) => e === document.activeElement)); i++) {
    await page.keyboard.press('Tab');
  }
  await page.keyboard.type('0 m');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Tab');
  await page.keyboard.type('30 cm');
  // 300 px for 0.30 m, straight down.
  assert.equal(await page.getByRole('dialog').locator('.placed dd').nth(0).textContent(), '1.0 px/mm');
  assert.equal(await page.getByRole('dialog').locator('.placed dd').nth(1).textContent(), '0°');
  const side = page.getByRole('slider', { name: 'Left side of the core' });
  await side.focus();
  const before = Number(await side.getAttribute('aria-valuenow'));
  await page.keyboard.press('Shift+ArrowLeft');
  assert.equal(Number(await side.getAttribute('aria-valuenow')), before - 10);
  assert.deepEqual(await violations(page), []);
  for (const each of await page.getByRole('dialog').getByRole('button').all()) {
    const box = await each.boundingBox();
    const isHelp = (await each.getAttribute('aria-label'))?.startsWith('What is');
    if (box !== null && !isHelp) assert.ok(box.height >= 47.5 && box.width >= 44, await each.innerHTML());
  }
  assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth));
  await keep().focus();
  await page.keyboard.press('Enter');
  await button('Change scale').waitFor();
  await page.setViewportSize({ width: 820, height: 1180 });
});

test('a large picture that its camera noted as turned is marked upright, in its full resolution', async () => {
  // 18 megapixels on their side; EXIF orientation 6: the left of the file is the top of the picture.
  const [width, height] = [6000, 3000];
  const half = (x: number) => [
    { x, y: 0 },
    { x: x + width / 2, y: 0 },
    { x: x + width / 2, y: height },
    { x, y: height },
  ];
  const plain = await drawn(page, { width, height }, [
    { corners: half(0), colour: COLOURS.red },
    { corners: half(width / 2), colour: COLOURS.blue },
  ]);
  await addPicture('R8', turnedBy6(plain));
  await openScale();
  const size = { width: height, height: width };
  const box = (await page.locator('.picture-pad image').first().boundingBox())!;
  assert.ok(Math.abs(box.height / box.width - 2) < 0.01, 'it stands upright');
  await hand.tap(await hand.onScreen({ x: 1500, y: 0 }, { ...PICTURE, ...size }));
  await hand.tap(await hand.onScreen({ x: 1500, y: 5900 }, { ...PICTURE, ...size }));
  await hand.nudge(1, { x: 1500, y: 500 });
  await hand.nudge(2, { x: 1500, y: 5500 });
  await entry('Depth at mark 1').fill('0 m');
  await entry('Depth at mark 2').fill('1 m');
  await keep().click();
  await page.getByText('Scale kept').waitFor();
  const { box: lane, down } = await laneOf(page, 'R8');
  const seen = await down(0.5);
  // Half way down the picture: (3000 − 500) / 5000 = 0.50 m of the 1.04 m that came up.
  assert.ok(Math.abs(change(seen, 'red', 'blue') - (0.5 / 1.04) * lane.height) < 2.5, `${seen}`);
});

test('a picture that nobody could see is not taken, and it is said what to do', async () => {
  const bytes = Buffer.from('not a picture');
  await addPicture('R9', bytes, 'core.HEIC', '');
  await page.getByText(/^Found a HEIC picture.*Convert it, or set the camera to JPEG/).waitFor();
  await addPicture('R9', bytes, 'core.jpg', 'image/jpeg');
  await page.getByText(/^Found image\/jpeg that this device cannot show/).waitFor();
  await addPicture('R9', bytes, 'core.txt', 'text/plain');
  await page.getByText(/^Found text\/plain; expected a picture/).waitFor();
});

test('without the file the marks are kept, and it is said that it is missing; so is one that cannot be shown', async () => {
  const folder = join(import.meta.dirname, '..', '..', '..', '..', 'demo', 'campaign');
  const { document } = readFiles(
    new Map(readdirSync(folder).map((name) => [name, new Uint8Array(readFileSync(join(folder, name)))])),
  );
  const row = {
    row_id: 'photo1',
    hole: 'T3',
    depth_basis: 'run',
    run: 'R7',
    file: 'photos/none.jpg',
    mark_1: '0 m',
    mark_1_x_px: '100',
    mark_1_y_px: '100',
    mark_2: '1 m',
    mark_2_x_px: '100',
    mark_2_y_px: '2100',
    strip_width: '5 cm',
  };
  const bad = { row_id: 'photo2', hole: 'T3', depth_basis: 'run', run: 'R8', file: 'photos/bad.heic' };
  const files = new Map([...document.files, [bad.file, new TextEncoder().encode('ftypheic')]]);
  const whole = { ...withRows(document, 'photos', [row, bad]), files };
  const id = await openCampaign(page, whole, 'describe?row=photo1');
  await page.getByText('This device does not have the picture photos/none.jpg.').waitFor();
  await page.getByText('2.0 px/mm').waitFor();
  await page.getByText('The marks are kept.').waitFor();
  assert.ok(await button('Change scale').isDisabled());
  await page.goto(`${page.url().split('#')[0]}#/${id}/describe?row=photo2`);
  await page.reload();
  await page.getByText('This device cannot show the picture photos/bad.heic. Convert it to JPEG').waitFor();
});
