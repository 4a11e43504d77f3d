/** Places in a real browser: a list of planned holes pasted, bad lines kept, good ones one step of undo. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Page } from 'playwright-core';
import { violations } from '../../../browser/axe.ts';
import { onDevice, openDemo, openOtherTables, served } from '../../../browser/browser.ts';

let page: Page;
onDevice({}, async (at) => {
  page = at.page;
  const campaign = await openDemo(page);
  await page.goto(`${await served()}#/${campaign}/plan`);
});

test('pasted holes: bad lines stay, good ones are written with their new site, one Undo takes all', async () => {
  await page.getByRole('button', { name: 'Paste planned holes' }).click();
  const dialog = page.getByRole('dialog');
  const list = dialog.getByLabel('List of holes', { exact: true });
  await list.fill(
    [
      'L1  46° 24.66′ S 121° 18.78′ W  target 12 m',
      'L2  46° 61.00′ S 121° 18.78′ W',
      'L3\t-121.3131\t-46.4112\t9 m\tFar bar',
    ].join('\n'),
  );
  await dialog.getByText(/^Site Far bar is new: it is added under Sites/).waitFor();
  await dialog.getByText(/below 60/).waitFor();
  await dialog.getByText('1 line cannot be used yet and stays in the text.').waitFor();
  assert.deepEqual(await violations(page), []);
  await dialog.getByRole('button', { name: 'Add 2 holes' }).click();
  await dialog.getByText('2 holes added. The lines left need a correction.').waitFor();
  assert.equal(await list.inputValue(), 'L2  46° 61.00′ S 121° 18.78′ W');
  // Escape discards nothing that was typed; the cross does.
  await page.keyboard.press('Escape');
  await dialog.getByText(/^Not added yet/).waitFor();
  await dialog.getByRole('button', { name: 'Close' }).click();
  await page.getByRole('button', { name: 'Hole L1, planned' }).waitFor();
  await page.getByRole('button', { name: 'Hole L3, planned' }).waitFor();
  await openOtherTables(page);
  await page.getByRole('button', { name: 'Far bar', exact: true }).waitFor();
  await page.getByRole('button', { name: 'Undo' }).click();
  await page.getByRole('button', { name: 'Hole L3, planned' }).waitFor({ state: 'detached' });
  await page.getByRole('button', { name: 'Hole L1, planned' }).waitFor({ state: 'detached' });
  await page.getByRole('button', { name: 'Far bar', exact: true }).waitFor({ state: 'detached' });
});

test('a national grid is chosen once; easting and northing are read in it, kept as written, and exchanged is named', async () => {
  const choice = page.getByLabel('National grid', { exact: true });
  await choice.fill('EPSG:4326');
  await page.getByText(/EPSG:4326 is not in the list/).waitFor();
  await choice.fill('EPSG:32710');
  await page.getByText('WGS 84 / UTM zone 10S.').waitFor();
  await choice.press('Enter');
  await page.getByRole('button', { name: 'Plan a hole', exact: true }).click();
  const dialog = page.getByRole('dialog');
  await dialog.getByLabel('Hole (needed)', { exact: true }).fill('G1');
  const position = dialog.getByLabel('Position', { exact: true });
  await position.fill('E 4859000 N 629650');
  await dialog.getByText(/It lies outside the area of use.*may be exchanged/).waitFor();
  await dialog.getByRole('button', { name: /^Read as WGS 84 \/ UTM zone 10S, northing first/ }).click();
  await position.fill('629650 4859000');
  await dialog.getByText(/^Read as WGS 84 \/ UTM zone 10S: 46° 24\.608′ S, 121° 18\.787′ W; /).waitFor();
  await dialog.getByRole('button', { name: 'Write it down' }).click();
  await page.getByRole('button', { name: 'Hole G1, planned' }).press('Enter');
  assert.equal(await position.inputValue(), '629650 4859000');
  await dialog.getByRole('button', { name: 'Close' }).click();
});

test('a coast is drawn with its grounds, what is none is said, and it is there again after a reload', async () => {
  const input = page.locator('input[type=file][aria-label^="A coast"]');
  const give = (name: string, text: string) =>
    input.setInputFiles({ name, mimeType: 'application/geo+json', buffer: Buffer.from(text) });
  await give('broken.geojson', '{"type":"Point","coordinates":[0,0]}');
  await page.getByText(/Found “nothing that can be drawn”; expected GeoJSON with lines or areas/).waitFor();
  const [lon, lat] = [-121.314, -46.4112];
  const ring = [
    [lon, lat],
    [lon + 0.002, lat],
    [lon + 0.002, lat + 0.001],
    [lon, lat],
  ];
  const marsh = {
    type: 'Feature',
    properties: { name: 'Neck marsh' },
    geometry: { type: 'Polygon', coordinates: [ring] },
  };
  await give('marsh.geojson', JSON.stringify(marsh));
  await page.locator('svg.map').getByText('Neck marsh').waitFor();
  await page.reload();
  await page.locator('svg.map').getByText('Neck marsh').waitFor();
});
