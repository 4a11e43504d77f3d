/**
 * Documents read and written: 100,000 readings in 1,000 holes, from bytes to campaign and back, and the same for ten
 * times fewer, whose ratio shows whether the work grows in a straight line. And 10 MB of nonsense as a table, beside the
 * plainest way to cut the same bytes into cells.
 */

import { newDocument, parseCampaign, withRows, writeFiles, writeZip } from '@stillstand/campaign/document';
import { openFiles, openZip } from '@stillstand/campaign/versions';
import { NOISE_KINDS, type NoiseKind, noise } from '../../checks/document/noise.ts';
import { least_ms } from '../least.ts';

export interface DocumentBench {
  readings: number;
  holes: number;
  megabytes: number;
  /** Seconds, the middle of the repeats. */
  read_cells_s: number;
  parse_s: number;
  write_s: number;
  zip_s: number;
  unzip_s: number;
  readings_per_s: number;
  /** Seconds for ten times the readings over ten times the seconds for a tenth; 1 is a straight line. */
  growth: number;
}

const HOLES = 1000;
const REPEATS = 5;

export interface NoiseBench {
  kind: NoiseKind;
  /** Of 10 MB, the least of the repeats. */
  milliseconds: number;
  /** To the engine's own decoding and splitting of the same bytes into lines and cells, in the same run. */
  ratio: number;
  /** Time of 10 MB over ten times that of 1 MB; 1 is a straight line. */
  growth: number;
}

const MEGABYTE = 1_000_000;

export function benchNoise(): NoiseBench[] {
  return NOISE_KINDS.map((kind) => {
    const bytes = noise(kind, 10 * MEGABYTE, 1);
    const read = (some: Uint8Array) => () =>
      parseCampaign(openFiles(new Map([['soundings.csv', some]])).document);
    const split = (): unknown =>
      new TextDecoder()
        .decode(bytes)
        .split('\n')
        .map((line) => line.split(','));
    const milliseconds = least_ms(read(bytes), REPEATS);
    return {
      kind,
      milliseconds,
      ratio: milliseconds / least_ms(split, REPEATS),
      growth: milliseconds / (10 * least_ms(read(bytes.subarray(0, MEGABYTE)), REPEATS)),
    };
  });
}

export function benchDocument(): DocumentBench {
  const large = measure(HOLES);
  const small = measure(HOLES / 10);
  const time = (m: typeof large): number => m.read_cells_s + m.parse_s;
  return {
    ...large,
    readings_per_s: Math.round(large.readings / time(large)),
    growth: time(large) / (10 * time(small)),
  };
}

/** Holes of 100 readings: 20 times a joint, a drive, two soundings and a run. */
function campaignFiles(holes: number): Map<string, Uint8Array> {
  const holeRows: Record<string, string>[] = [];
  const joints: Record<string, string>[] = [];
  const drives: Record<string, string>[] = [];
  const soundings: Record<string, string>[] = [];
  const runs: Record<string, string>[] = [];
  for (let h = 0; h < holes; h++) {
    const hole = `H${h}`;
    holeRows.push({ hole, method: 'string', latitude_deg: '-40.25', longitude_deg: '-12.5' });
    let seq = 0;
    const reading = (): Record<string, string> => {
      seq++;
      const clock = `${String(8 + (seq >> 4)).padStart(2, '0')}:${String(seq % 60).padStart(2, '0')}`;
      return {
        hole,
        seq: String(seq),
        time: `2024-03-05T${clock}:00+08:00`,
        row_id: `${h}-${seq}`,
      };
    };
    for (let i = 1; i <= 20; i++) {
      joints.push({ ...reading(), action: 'add', item: 'joint', length: '10 ft', tight: 'yes' });
      drives.push({
        ...reading(),
        stick_up_start: '9 ft 11 1/2 in',
        stick_up_end: '0.35 m',
        duration_s: '240',
      });
      soundings.push({ ...reading(), purpose: 'before_run', to_sediment: `${i * 2}.05 m`, sigma: '1 cm' });
      soundings.push({ ...reading(), purpose: 'after_run', to_sediment: `${i * 2 + 1}.15 m` });
      runs.push({
        ...reading(),
        run: `R${i}`,
        recovered: '95 cm',
        start_mark: `${i * 2} m`,
        note: 'sand, "grey"',
      });
    }
  }
  let document = newDocument('bench');
  for (const [table, rows] of Object.entries({ holes: holeRows, joints, drives, soundings, runs })) {
    document = withRows(document, table, rows);
  }
  return writeFiles(document);
}

function measure(holes: number) {
  const files = campaignFiles(holes);
  const times = {
    read: [] as number[],
    parse: [] as number[],
    write: [] as number[],
    zip: [] as number[],
    unzip: [] as number[],
  };
  const timed = <T>(into: number[], work: () => T): T => {
    const began = performance.now();
    const result = work();
    into.push((performance.now() - began) / 1000);
    return result;
  };
  let readings = 0;
  for (let k = 0; k < REPEATS; k++) {
    const { document } = timed(times.read, () => openFiles(files));
    const { campaign, problems } = timed(times.parse, () => parseCampaign(document));
    if (problems.length > 0)
      throw new RangeError(`a campaign without problems expected, got ${problems[0]!.code}`);
    const { string_items, drives, soundings, runs } = campaign.rows;
    readings = string_items.length + drives.length + soundings.length + runs.length;
    const edited = {
      ...document,
      tables: new Map([...document.tables].map(([n, t]) => [n, { ...t, source: null }])),
    };
    timed(times.write, () => writeFiles(edited));
    const zip = timed(times.zip, () => writeZip(document));
    timed(times.unzip, () => openZip(zip));
  }
  const middle = (list: number[]): number => [...list].sort((a, b) => a - b)[list.length >> 1]!;
  return {
    readings,
    holes,
    megabytes: [...files.values()].reduce((sum, file) => sum + file.length, 0) / 1e6,
    read_cells_s: middle(times.read),
    parse_s: middle(times.parse),
    write_s: middle(times.write),
    zip_s: middle(times.zip),
    unzip_s: middle(times.unzip),
  };
}
