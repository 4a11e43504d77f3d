import { newDocument, withRows, writeZip } from '@stillstand/campaign/document';
import { device, served } from './browser.ts';
const joint = (row_id: string, seq: string, label: string, length: string, more: Record<string, string> = {}) => ({ row_id, hole: 'A', seq, time: '2024-03-05T09:1'+seq+':00+08:00', by:'DK', action: 'add', item: 'joint', joint: label, length, tight: 'true', amends: '', amend_kind: '', ...more });
const T: Record<string, Record<string, string>[]> = {
  holes: [{ hole: 'A', method: 'string', state: 'open' }],
  ground: [{ hole: 'A', seq: '1', ground_below_reference: '0.20 m', time: '2024-03-05T09:10:00+08:00' }],
  joints: [joint('first', '2', 'J1', '3.05 m'), joint('second', '3', 'J2', '3.05 m'),
      joint('mine', '3', 'J2', '2.95 m', { amends: 'second', amend_kind: 'replace', by: 'DK', device: 'tablet 1' }),
      joint('yours', '3', 'J2', '3.15 m', { amends: 'second', amend_kind: 'replace', by: 'KM', device: 'tablet 2' })],
  drives: [{ hole: 'A', seq: '4', stick_up_start: '5.90 m', stick_up_end: '0.45 m', time: '2024-03-05T09:20:00+08:00' }],
  soundings: [{ hole: 'A', seq: '5', purpose: 'after_drive', to_sediment: '1.10 m', time: '2024-03-05T09:25:00+08:00' }],
};
let document = newDocument('Spit 2024');
for (const [t, rows] of Object.entries(T)) document = withRows(document, t, rows);
const d = await device({ width: 820, height: 1180, touch: true });
const { page } = d;
await page.goto(`${await served()}#/`);
await page.getByRole('button', { name: 'Open a file' }).waitFor();
await page.locator('input[type=file]').setInputFiles({ name: 'x.zip', mimeType: 'application/zip', buffer: Buffer.from(writeZip(document) as Uint8Array<ArrayBuffer>) });
await page.waitForURL(/#\/[0-9a-f]{12}/);
const id = /#\/([0-9a-f]{12})/.exec(page.url())![1];
const at = async (where: string) => { await page.goto(`${await served()}#/${id}/${where}`); };
const shot = async (name: string) => { for (const [w, h] of [[820, 1180], [360, 740]] as const) { await page.setViewportSize({ width: w, height: h }); await page.waitForTimeout(400); await page.screenshot({ path: `/tmp/shots-store/${name}-${w}.png` }); } await page.setViewportSize({ width: 820, height: 1180 }); };
await at('drill?hole=A');
await page.locator('.book li').first().waitFor();
await shot('conflict-book');
await page.locator('.book li', { hasText: 'J2' }).getByRole('button').tap();
await shot('conflict-choice');
await page.getByRole('button', { name: /Use length 2\.95/ }).tap();
await page.locator('.book li', { hasText: 'Drive' }).locator('[data-column="stick_up_end"]').tap();
await page.waitForTimeout(300);
await page.locator('.act .action-bar').tap();
await shot('amend-unchanged');
await page.getByRole('button', { name: /^Leave: Amend/ }).tap();
await at('plan');
await page.waitForTimeout(2500); await page.screenshot({path:"/tmp/shots-store/dbg.png"}); console.log(page.url(), d.complaints); await page.getByRole("button", { name: "Plan a hole", exact: true }).tap();
await page.getByLabel('Hole (needed)', { exact: true }).fill('H3');
await page.getByRole('button', { name: 'Write it down' }).tap();
await at('drill?hole=H3');
await page.getByRole('heading', { name: 'H3', exact: true }).waitFor();
await page.locator('.drill-tools').getByRole('button', { name: 'Sound' }).tap();
await page.getByRole('region', { name: 'keypad' }).getByRole('button', { name: '1', exact: true }).tap();
await page.locator('.act .action-bar').tap();
await page.keyboard.press('Control+z');
await page.waitForTimeout(200);
await page.keyboard.press('Control+z');
await shot('undo-refused');
const cdp = await d.context.newCDPSession(page);
await cdp.send('Storage.overrideQuotaForOrigin', { origin: new URL(await served()).origin, quotaSize: 10 });
await page.locator('.drill-tools').getByRole('button', { name: 'Sound' }).tap();
await page.getByRole('region', { name: 'keypad' }).getByRole('button', { name: '2', exact: true }).tap();
await page.locator('.act .action-bar').tap();
await page.waitForTimeout(3000);
await shot('not-saved');
console.log(await page.locator('.store-news').textContent());
await cdp.send('Storage.overrideQuotaForOrigin', { origin: new URL(await served()).origin });
await page.waitForTimeout(3000);
await page.setViewportSize({ width: 820, height: 1180 });
await at('plan');
await page.waitForTimeout(500);
await page.getByRole('button', { name: 'Hole A' }).first().tap().catch(() => undefined);
await d.close();
process.exit();
