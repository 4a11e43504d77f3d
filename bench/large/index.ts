/**
 * A long project: `stillstand check` of 504 holes in 50,000 rows and of half of them, each a process of its own, as
 * somebody runs it; its processor time and the most memory it held. Wanted: below 20 s and 500 MB, in a straight line.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { type CampaignDocument, writeFiles } from '@stillstand/campaign/document';
import { openFiles } from '@stillstand/campaign/versions';
import { manyTimes } from './campaign.ts';

export interface LargeBench {
  rows: number;
  holes: number;
  /** From starting the process to its end. */
  seconds: number;
  processor_s: number;
  /** The most it held at any time, all of the process counted. */
  megabytes: number;
  /** Processor time over twice that of half the rows; 1 is a straight line. */
  growth: number;
}

const COPIES = 84;
const DEMO = join(import.meta.dirname, '..', '..', 'demo', 'campaign');
const LAUNCHER = join(import.meta.dirname, '..', '..', 'surfaces', 'cli', 'stillstand.js');
/** Says at the end of a process what it used: kilobytes and microseconds, as the system counts them. */
const USE = `process.on('exit', () => {
  const { maxRSS, userCPUTime, systemCPUTime } = process.resourceUsage();
  require('node:fs').writeFileSync(process.env.STILLSTAND_USE, JSON.stringify([maxRSS, userCPUTime + systemCPUTime]));
});`;

export function benchLarge(): LargeBench {
  const { document } = openFiles(
    new Map(readdirSync(DEMO).map((name) => [name, new Uint8Array(readFileSync(join(DEMO, name)))])),
  );
  const whole = checked(manyTimes(document, COPIES));
  const half = checked(manyTimes(document, COPIES / 2));
  return { ...whole, growth: whole.processor_s / (2 * half.processor_s) };
}

function checked(document: CampaignDocument): Omit<LargeBench, 'growth'> {
  const place = mkdtempSync(join(tmpdir(), 'stillstand-large-'));
  try {
    const folder = join(place, 'campaign');
    for (const [path, bytes] of writeFiles(document)) {
      mkdirSync(dirname(join(folder, path)), { recursive: true });
      writeFileSync(join(folder, path), bytes);
    }
    const use = join(place, 'use.cjs');
    writeFileSync(use, USE);
    const began = performance.now();
    const { status, stderr } = spawnSync(process.execPath, ['--require', use, LAUNCHER, 'check', folder], {
      encoding: 'utf8',
      env: { ...process.env, STILLSTAND_USE: join(place, 'use.json') },
      maxBuffer: 100_000_000,
    });
    if (status !== 0) throw new Error(`check ended with ${status}: ${stderr}`);
    const [kilobytes, microseconds] = JSON.parse(readFileSync(join(place, 'use.json'), 'utf8')) as [
      number,
      number,
    ];
    return {
      rows: [...document.tables.values()].reduce((sum, { rows }) => sum + rows.length, 0),
      holes: document.tables.get('holes')?.rows.length ?? 0,
      seconds: (performance.now() - began) / 1000,
      processor_s: microseconds / 1e6,
      megabytes: kilobytes / 1000,
    };
  } finally {
    rmSync(place, { recursive: true, force: true });
  }
}
