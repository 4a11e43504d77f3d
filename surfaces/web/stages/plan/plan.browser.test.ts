/** Plan in a real browser: the tide of a day, the hour to leave by taken over into Drill, map, sites, checklist. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { readFiles } from '@stillstand/campaign/document';
import { randomStream } from '@stillstand/science/base';
import { predict } from '@stillstand/science/tide';
import type { Locator, Page } from 'playwright-core';
import {
  allSaved,
  onDevice,
  openCampaign,
  openDemo,
  openOtherTables,
  served,
} from '../../browser/browser.ts';

let page: Page;
let home: string;
// The clock of the campaign's coast.
onDevice({ zone: 'Etc/GMT+8' }, async (at) => {
  page = at.page;
  // Today is a day after the demo's, with low water in the early evening: its last dry hours end before midnight.
  await page.clock.install({ time: new Date('2023-02-21T10:00:00-08:00') });
  home = `${await served()}#/${await openDemo(page)}`;
  await page.getByRole('button', { name: 'Put the first steps away' }).click();
});
const words = async (of: Locator): Promise<string> => (await of.textContent()) ?? '';
const picture = (): Locator => page.locator('.tide-picture svg');
const field = (name: string): Locator => page.locator('.tide-day').getByLabel(name, { exact: true });

async function plan(day: string): Promise<void> {
  await page.goto(`${home}/plan`);
  await page.getByLabel('Which day').selectOption({ label: day });
  await picture().waitFor();
}

test('a day’s tide in words: waters by the campaign’s clock, when the boat floats, and until when it may be left', async () => {
  await plan('2023-02-06');
  const said = (await picture().getAttribute('aria-label')) ?? '';
  // The pole was read from low water at 06:00 to low water at 18:30; high at a quarter past twelve.
  assert.match(said, /low water 06:[01]\d, −1\.\d\d m/);
  assert.match(said, /high water 12:1\d, \+1\.\d\d m/);
  assert.match(said, /low water 18:[123]\d, −1\.\d\d m/);
  assert.match(said, /afloat 08:2\d to 16:0\d/);
  assert.equal(await words(page.locator('.leave b')), '15:40');
  assert.match(await words(page.locator('.tide-side')), /Predicted from 8 constituents of Neck pole/);
  assert.match(await words(page.locator('.tide-caution')), /official tide tables, the harbour authority/i);
});

test('on foot over a low place: read the dry spans, take one over, find it in the day and in Drill', async () => {
  await page.goto(`${home}/plan`);
  await page.getByRole('button', { name: 'Start today' }).click();
  await page.getByText('No leave-by time').waitFor();
  // The access of the last day is marked as assumed, not as this day's.
  await page.getByText('Access assumed, as on 2023-02-14').waitFor();
  await field('Access').selectOption('foot');
  // The water a boat needs is no lowest point, and neither is the lowest ground: it is asked for, and one is offered
  // with where it comes from.
  await page.getByText('Access not set').waitFor();
  assert.equal(await field('Lowest point on route').inputValue(), '');
  assert.equal(await page.locator('.spans').count(), 0);
  await page.getByText(/Proposed: \+1\.6\d m, the ground of hole M1, lowest of 6 levelled/).waitFor();
  await page.getByRole('button', { name: /^Use \+1\.6\d m/ }).click();
  await page.getByText('Access not set').waitFor({ state: 'detached' });
  assert.match(await field('Lowest point on route').inputValue(), /^1\.6\d$/);
  await field('Lowest point on route').fill('0.50');
  await field('Lowest point on route').press('Enter');
  await field('Travel time').fill('45');
  await field('Travel time').press('Enter');
  const spans = page.locator('.spans li');
  await page.locator('.spans', { hasText: 'dry' }).waitFor();
  const take = page.getByRole('button', { name: /^Leave by \d\d:\d\d/ });
  const line = await words(spans.filter({ has: take }).last());
  const [, until] = /to (\d\d:\d\d)/.exec(line)!;
  const [, leave] = /Leave by (\d\d:\d\d)/.exec(line)!;
  const minutes = (clock: string): number => Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3));
  const early = (minutes(until!) - minutes(leave!) + 1440) % 1440;
  assert.ok(early >= 45 && early <= 46, line);
  assert.match(line, /closes \d+ min earlier with the margin/);
  await take.last().focus();
  await page.keyboard.press('Enter');
  await page.locator('.leave b', { hasText: leave! }).waitFor();
  assert.match(await words(page.locator('.spans')), / set/);
  await allSaved(page);
  await page.reload();
  await page.locator('.leave b', { hasText: leave! }).waitFor();
  assert.equal(await field('Lowest point on route').inputValue(), '0.50');
  // An hour at which the way is shut is told apart.
  assert.equal(await field('Leave by').inputValue(), leave);
  // Drill shows it whatever the time of day, in its own words.
  await page.goto(`${home}/drill`);
  await page.locator('.leave-by', { hasText: leave! }).waitFor();
  await page.goto(`${home}/plan`);
  const spansNow = await words(page.locator('.spans'));
  assert.ok(spansNow.includes('dry'));
  const shut = /to (\d\d:\d\d)/.exec(spansNow)![1]!;
  await field('Leave by').fill(shut.replace(':', ''));
  await field('Leave by').press('Enter');
  await page.getByText('Access closed at this time').waitFor();
  assert.equal(await field('Leave by').inputValue(), shut);
  // What is no hour takes none away.
  await field('Leave by').fill('dusk');
  await field('Leave by').press('Enter');
  await page.getByText(`Found “dusk”; expected a time of day, such as 18:30. ${shut} stands.`).waitFor();
  assert.equal(await words(page.locator('.leave b')), shut);
  await page.getByRole('button', { name: 'Undo' }).click();
  await page.locator('.leave b', { hasText: leave! }).waitFor();
});

test('without constants it says what is needed; an agency’s list is pasted and the tide is drawn', async () => {
  await page.goto(await served());
  await page.getByRole('button', { name: 'Begin a campaign' }).first().click();
  const dialog = page.getByRole('dialog');
  await dialog.getByRole('textbox').first().fill('Bare coast');
  await dialog.getByRole('button', { name: /Begin/ }).click();
  await page.waitForURL(/#\/[0-9a-f]{12}/);
  const bare = /#\/([0-9a-f]{12})/.exec(page.url())![1]!;
  await page.goto(`${await served()}#/${bare}/plan`);
  // The name it was begun with; a day that is not today; a map as soon as a site has its place.
  assert.equal(await page.locator('.choices').getByLabel('Name', { exact: true }).inputValue(), 'Bare coast');
  await page.getByRole('button', { name: 'Choose date' }).click();
  await page.getByLabel('Date of the day').fill('2031-05-04');
  await page.getByRole('button', { name: 'Start day' }).click();
  await page.getByLabel('Which day').waitFor();
  await openOtherTables(page);
  await page.getByRole('button', { name: 'Add a site' }).click();
  const newSite = page.getByRole('form', { name: 'Add a site' });
  await newSite.getByLabel('Site (needed)', { exact: true }).fill('Spit');
  await newSite.getByLabel('Position', { exact: true }).fill('46° 24.66′ S 121° 18.78′ W');
  await newSite.getByText('Read as degrees and minutes: 46° 24.660′ S, 121° 18.780′ W.').waitFor();
  await newSite.getByRole('button', { name: 'Write it down' }).click();
  await page.getByRole('group', { name: 'Map of Spit; no hole has its place yet' }).waitFor();
  await page.getByText(/Needed: tidal constants of a gauge/).waitFor();
  await page.getByRole('button', { name: 'Paste tidal constants' }).click();
  const paste = page.getByRole('dialog');
  await paste.getByLabel('Constants', { exact: true }).fill('M2 1.0 40\nS2 0.3 70\nK1 0.1');
  await paste.getByText(/Line 3: found “K1 0\.1”/).waitFor();
  await paste.getByLabel('Constants', { exact: true }).fill('M2 1.0 40\nS2 0.3 70\nZ0 1.7 0');
  await paste.getByRole('button', { name: 'Write them down' }).click();
  await page.getByText(/Needed: the zero of gauge Tide gauge/).waitFor();
  await page.getByRole('button', { name: 'Tide gauge', exact: true }).click();
  await page.getByRole('dialog').getByLabel('Zero elevation', { exact: true }).fill('0');
  await page.getByRole('dialog').getByLabel('Zero elevation', { exact: true }).press('Enter');
  await page.getByRole('button', { name: 'Close' }).click();
  await picture().waitFor();
  await page.getByText(/^Predicted from 2 constituents of Tide gauge/).waitFor();
  // Nothing is levelled and no way stated: no hour is offered before it is.
  await page.getByText('Access not set').waitFor();
  assert.equal(await page.locator('.spans').count(), 0);
  // The water stands about 1.7 m.
  await field('Lowest point on route').fill('1.9');
  await field('Lowest point on route').press('Enter');
  await page.getByText('Access not set').waitFor({ state: 'detached' });
  await page.locator('.spans', { hasText: 'dry' }).waitFor();
});

test('half a day of a tide pole gives its tide and says how little that is', async () => {
  await plan('2023-02-06');
  await page.getByRole('button', { name: 'Find constants in the readings' }).click();
  const dialog = page.getByRole('dialog');
  await dialog.getByText('A short record').waitFor();
  assert.match(await words(dialog), /25 readings over 0\.5 days/);
  assert.match(await words(dialog), /S2 from M2 \(15 d\)/);
  assert.ok(await dialog.getByRole('button', { name: 'Write them down' }).isDisabled());
  await dialog.getByText('Neck pole has constants already').waitFor();
  await dialog.getByRole('button', { name: 'Close' }).click();
});

test('the checklist is answered by keyboard; a no is a danger until another answer, and all of it stays in the record', async () => {
  await plan('2023-02-07');
  const line = page.getByRole('group', { name: 'Nobody works alone' });
  const pressed = (name: string): Locator => line.getByRole('button', { name, pressed: true });
  const plate = page.locator('.danger-plate');
  const open = page.locator('.still-open');
  await line.getByRole('button', { name: 'no', exact: true }).focus();
  await page.keyboard.press('Enter');
  await pressed('no').waitFor();
  await plate.getByText('Somebody works alone').waitFor();
  assert.match(await words(plate), /Stop until there are two within sight/);
  // pressed again it stays: only another answer takes it down
  await page.keyboard.press('Enter');
  await pressed('no').waitFor();
  assert.ok(!(await words(open)).includes('Nobody works alone'));
  assert.match(await words(open), /Permits seen and carried; Leave-by time known to all/);
  // pressed twice by a cold hand it is given once
  await line.getByRole('button', { name: 'not needed' }).dblclick();
  await pressed('not needed').waitFor();
  await plate.waitFor({ state: 'detached' });
  // withdrawn, what stood before it stands again
  await line.getByRole('button', { name: 'not needed' }).press('Enter');
  await plate.getByText('Somebody works alone').waitFor();
  await line.getByRole('button', { name: 'yes' }).click();
  await pressed('yes').waitFor();
  await allSaved(page);
  await page.reload();
  await page.getByLabel('Which day').selectOption({ label: '2023-02-07' });
  await pressed('yes').waitFor();
  // Another day asks again, with the older answer and its age.
  await page.getByLabel('Which day').selectOption({ label: '2023-02-08' });
  await page
    .locator('.safety-list [data-check="alone"]', { hasText: 'yes, name not given, 1 day ago' })
    .waitFor();
});

test('the map opens a hole, and a site and a planned hole are added', async () => {
  await plan('2023-02-06');
  const hole = page.getByRole('button', { name: 'Hole T3, finished' });
  await hole.focus();
  await page.keyboard.press('Enter');
  await page.getByRole('dialog').waitFor();
  await page.getByRole('button', { name: 'Close' }).click();
  await openOtherTables(page);
  await page.getByRole('button', { name: 'Add a site' }).click();
  const newSite = page.getByRole('form', { name: 'Add a site' });
  await newSite.getByLabel('Site (needed)', { exact: true }).fill('QM');
  await newSite.getByRole('button', { name: 'Write it down' }).click();
  await page.getByRole('button', { name: 'QM', exact: true }).waitFor();
  await page.getByRole('button', { name: 'Plan a hole', exact: true }).click();
  const dialog = page.getByRole('dialog');
  await dialog.getByLabel('Hole (needed)', { exact: true }).fill('P1');
  const position = dialog.getByLabel('Position', { exact: true });
  // A sign forgotten puts it on the other side of the earth, which is said; what is meant is one press.
  await position.pressSequentially('46.4110, -121.3130');
  await dialog.getByText(/It is [\d,]+ km from [\w ]+, the nearest of the others\.$/).waitFor();
  await dialog
    .getByRole('button', { name: /the other side of the equator\), \d+ m from the others$/ })
    .click();
  await dialog.getByText(/the nearest of the others\.$/).waitFor({ state: 'hidden' });
  assert.equal(await position.inputValue(), '−46.411, −121.313');
  // What cannot be read says why.
  await position.fill('46 61 S 121 18.78 W');
  await dialog.getByText(/expected a position.* below 60/).waitFor();
  // Another writing of the same, as it stands in a notebook.
  await position.fill('46 24.660 S 121 18.780 W');
  await dialog
    .getByText(/^Read as degrees and minutes: 46° 24\.660′ S, 121° 18\.780′ W; \d+ m from \w+\.$/)
    .waitFor();
  await dialog.getByLabel('Target depth', { exact: true }).fill('40 m');
  // The rest is reached, and asks for nothing at first.
  assert.ok(!(await dialog.getByLabel('Backfill', { exact: true }).isVisible()));
  await dialog.getByText('More about the hole').click();
  await dialog.getByLabel('Backfill', { exact: true }).waitFor();
  await dialog.getByLabel('Reference elevation', { exact: true }).fill('1.20');
  await dialog.getByLabel('Reference datum', { exact: true }).fill('Town zero');
  await dialog.getByText(/^Datum Town zero is new: it is added as a local zero/).waitFor();
  await dialog.getByRole('button', { name: 'Write it down' }).click();
  // A datum that is new is written down with the hole, which stays in sight; one step back takes both.
  await page.getByRole('button', { name: 'Hole P1, planned' }).waitFor();
  // Pipe is counted for the deepest hole that is planned, and held against what there is.
  assert.equal(await page.getByLabel('Depth to reach', { exact: true }).inputValue(), '40 m');
  await page.locator('.recorded-pipe', { hasText: 'P1, 40.00 m: 8.02 m short' }).waitFor();
  await page.getByText(/^Town zero is new: added to Zeros of heights; say how it relates to/).waitFor();
  await page.getByRole('button', { name: 'Town zero', exact: true }).waitFor();
  await page.getByRole('button', { name: 'Undo' }).click();
  await page.getByRole('button', { name: 'Hole P1, planned' }).waitFor({ state: 'detached' });
  await page.getByRole('button', { name: 'Town zero', exact: true }).waitFor({ state: 'detached' });
  await page.getByRole('button', { name: 'Redo' }).click();
  // So it is where a hole that is there is given another.
  await page.getByRole('button', { name: 'Hole P1, planned' }).click();
  await dialog.getByLabel('Reference datum', { exact: true }).fill('Quay zero');
  await dialog.getByLabel('Reference datum', { exact: true }).press('Enter');
  await dialog.getByText(/^Datum Quay zero is new/).waitFor();
  await page.getByRole('button', { name: 'Close' }).click();
  await page.getByText(/^Quay zero is new/).waitFor();
  await page.getByRole('button', { name: 'Hole P1, planned' }).waitFor();
});

test('a month of readings: constants are written with their errors, and levels and band carry them', async () => {
  const time_ms = Float64Array.from({ length: 720 }, (_, i) => Date.UTC(2023, 0, 1) + i * 3_600_000);
  const constants = [
    { constituent: 'M2', amplitude_m: 0.9, phase_deg: 40 },
    { constituent: 'S2', amplitude_m: 0.4, phase_deg: 70 },
    { constituent: 'K1', amplitude_m: 0.5, phase_deg: 200 },
    { constituent: 'P1', amplitude_m: 0.16, phase_deg: 200 },
  ];
  const random = randomStream(4);
  const readings = [...predict({ mean_m: 2, constants }, time_ms)].map(
    (height, i) =>
      `Pole,${i + 1},${new Date(time_ms[i]!).toISOString().slice(0, 16)}Z,${(height + 0.1 * random.normal()).toFixed(3)}`,
  );
  const tables = {
    sites: 'site\nS',
    datums: 'datum,kind\nMSL,mean_sea_level',
    gauges: 'gauge,site,datum,zero_elevation_m\nPole,S,MSL,-2',
    field_days: 'date\n2023-02-21',
    gauge_readings: `gauge,seq,time,height_m\n${readings.join('\n')}`,
  };
  const files = Object.entries(tables).map(
    ([name, csv]) => [`${name}.csv`, new TextEncoder().encode(`${csv}\n`)] as const,
  );
  await openCampaign(page, readFiles(new Map(files)).document);
  await page.getByRole('button', { name: 'Find constants in the readings' }).click();
  const found = page.getByRole('dialog');
  assert.match(await words(found.getByRole('row', { name: /^K2/ })), /±.*S2$/);
  assert.match(await words(found), /P1 from K1 \(183 d\)/);
  await found.getByRole('button', { name: 'Write them down' }).click();
  const cells = page.locator('table', { hasText: 'Tidal constants' }).getByRole('row', { name: /^S2/ });
  // Amplitude, its 1 sigma (what K2 leaves open is most of it), phase, its 1 sigma.
  assert.match(await words(cells), /S2.*Pole.*0\.[34]\d{3}0\.0[12]\d\d.*\d\.\danalysis of 720 readings/);
  await page
    .getByText(/of the weather residual, assumed, and of constants and mean level, as stated/)
    .waitFor();
  await page.getByRole('button', { name: 'Use computed levels' }).click();
  const hat = page.getByRole('row', { name: /^HAT/ });
  await hat.getByText('±').waitFor();
  // The method alone has ±0.04 m; SA, S2 and K2 of a month have most of the rest.
  const [, twice] = /±(\d\.\d\d)/.exec(await words(hat)) ?? [];
  assert.ok(Number(twice) > 0.1 && Number(twice) < 0.6, twice);
});
