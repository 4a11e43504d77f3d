/**
 * `npm run pictures`: every screen at three widths in both themes, as PNG in out/pictures with a page to look at them
 * all. `npm run pictures -- drill curve` takes only those; `--whole` takes the page to its end; `--guide` renews the
 * pictures of the guide.
 */
import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { device } from './browser.ts';
import { dress, SCREENS, SCREENS_ZONE, THEMES, WIDTHS } from './screens.ts';
import { smallPng } from './small-png.ts';

const ROOT = join(import.meta.dirname, '..', '..', '..');
const OUT = join(ROOT, 'out', 'pictures');
const IN_GUIDE = { 'app-drill': ['drill', 820], 'app-curve': ['curve', 1440] } as const;
const asked = process.argv.slice(2).filter((word) => !word.startsWith('--'));
const isWhole = process.argv.includes('--whole');
const unknown = asked.filter((word) => !SCREENS.some(({ name }) => name === word));
if (unknown.length > 0) {
  console.error(`Found ${unknown.join(', ')}; expected ${SCREENS.map(({ name }) => name).join(', ')}.`);
  process.exit(2);
}
const screens = SCREENS.filter(({ name }) => asked.length === 0 || asked.includes(name));

await mkdir(OUT, { recursive: true });
const { page, complaints, close } = await device({ zone: SCREENS_ZONE });
for (const screen of screens) {
  await screen.open(page);
  for (const theme of THEMES) {
    for (const size of WIDTHS) {
      await dress(page, screen, theme, size);
      await page.screenshot({ path: join(OUT, pictureOf(screen.name, theme, size)), fullPage: isWhole });
    }
  }
  console.log(screen.name);
}
await close();
await writeFile(join(OUT, 'index.html'), contactSheet());
if (process.argv.includes('--guide')) {
  for (const [name, [screen, width]] of Object.entries(IN_GUIDE)) {
    const taken = await readFile(join(OUT, pictureOf(screen, 'day', [width])));
    await writeFile(join(ROOT, 'docs', 'figures', `${name}.png`), smallPng(taken));
  }
}
if (complaints.length > 0) console.error(`The pages complained:\n${complaints.join('\n')}`);
console.log(`${join('out', 'pictures', 'index.html')}: ${screens.length} screens`);
process.exit(complaints.length > 0 ? 1 : 0);

function pictureOf(name: string, theme: string, [width]: readonly number[]): string {
  return `${name}-${width}-${theme}.png`;
}

function contactSheet(): string {
  const rows = screens.map(({ name }) => {
    const cells = THEMES.flatMap((theme) =>
      WIDTHS.map((size) => {
        const file = pictureOf(name, theme, size);
        return `<a href="${file}"><img src="${file}" alt="${name}, ${size[0]} px, ${theme}" loading="lazy"></a>`;
      }),
    );
    return `<h2>${name}</h2><div>${cells.join('')}</div>`;
  });
  return `<!doctype html><html lang="en"><meta charset="utf-8"><title>Every screen</title>
<style>body{font:16px sans-serif;margin:24px;background:#888}div{display:flex;gap:12px;align-items:start;overflow-x:auto}
img{height:420px;display:block}</style>
<h1>Every screen</h1>${rows.join('\n')}</html>\n`;
}
