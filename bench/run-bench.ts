/** Every bench in turn; a table on standard error, JSON on standard output and in `out/bench.json`. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { benchAgeDepthGeneral } from './age-depth/general-engine.ts';
import { benchAgeDepth } from './age-depth/index.ts';
import { benchApp, benchAppCurve } from './app/index.ts';
import { benchFunctions } from './base/index.ts';
import { benchCalibration } from './calibration/index.ts';
import { benchChains } from './chains/index.ts';
import { benchGeneralEngine } from './curve/general-engine.ts';
import { benchCurve } from './curve/index.ts';
import { benchDataPackage } from './data-package/index.ts';
import { benchDemo } from './demo/index.ts';
import { benchDepth } from './depth/index.ts';
import { benchDocument, benchNoise } from './document/index.ts';
import { benchHistory } from './history/index.ts';
import { benchLarge } from './large/index.ts';
import { benchMerge } from './merge/index.ts';
import { benchRig } from './rig/index.ts';
import { benchSection } from './section/index.ts';
import { benchGeodesics } from './survey/index.ts';
import { benchTide } from './tide/index.ts';

const BENCHES = {
  functions: benchFunctions,
  geodesics: benchGeodesics,
  tide: benchTide,
  calibration: benchCalibration,
  curve: benchCurve,
  'general-engine': benchGeneralEngine,
  'age-depth': benchAgeDepth,
  'age-depth-general': benchAgeDepthGeneral,
  chains: benchChains,
  document: benchDocument,
  noise: benchNoise,
  large: benchLarge,
  history: benchHistory,
  merge: benchMerge,
  rig: benchRig,
  depth: benchDepth,
  section: benchSection,
  demo: benchDemo,
  'data-package': benchDataPackage,
  app: benchApp,
  'app-curve': benchAppCurve,
} as const;

const OUT = fileURLToPath(new URL('../out/bench.json', import.meta.url));

/** Runs the named benches, or all of them. */
export async function runBench(names: readonly string[]): Promise<void> {
  const chosen = Object.entries(BENCHES).filter(([name]) => names.length === 0 || names.includes(name));
  const measured: Record<string, unknown> = {
    machine: { node: process.version, processor: cpus()[0]?.model ?? 'unknown', cores: cpus().length },
  };
  for (const [name, bench] of chosen) {
    console.error(`\n${name}`);
    measured[name] = await bench();
    for (const line of lines(measured[name])) console.error(line);
  }
  const json = JSON.stringify(measured, null, 1);
  mkdirSync(dirname(OUT), { recursive: true });
  writeFileSync(OUT, `${json}\n`);
  console.log(json);
}

/** A list of records as a table, one record as lines of name and value. */
function lines(value: unknown): string[] {
  if (value === null) return ['  could not be measured here'];
  if (Array.isArray(value) && value.length > 0) {
    const columns = Object.keys(value[0] as object);
    const rows = value.map((row) => columns.map((column) => shown((row as Record<string, unknown>)[column])));
    const widths = columns.map((column, i) => Math.max(column.length, ...rows.map((row) => row[i]!.length)));
    return [columns, ...rows].map((row) => row.map((cell, i) => cell.padStart(widths[i]!)).join('  '));
  }
  return Object.entries(value as object).map(([name, v]) => `  ${name.padEnd(34)} ${shown(v)}`);
}

function shown(value: unknown): string {
  if (typeof value === 'number') return Number.isInteger(value) ? String(value) : value.toPrecision(4);
  if (value !== null && typeof value === 'object') {
    return Object.entries(value)
      .map(([name, v]) => `${name} ${shown(v)}`)
      .join(', ');
  }
  return String(value);
}
