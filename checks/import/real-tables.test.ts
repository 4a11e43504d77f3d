/** Published tables as they are: what they are about is seen, every line explained, and few things are asked. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { newDocument, withRows } from '@stillstand/campaign/document';
import {
  bestSheet,
  decided,
  hereOf,
  type Kind,
  type Mapping,
  proposed,
  readTheirs,
  understand,
} from '@stillstand/campaign/import';

/** Decisions of a person, at the places that the preview names. */
type Said = Readonly<Record<string, string>>;

interface Table {
  file: string;
  as: Kind;
  cores?: readonly string[];
  said: Said;
  /** Lines of the file in which something stands, and rows of each table that come of them. */
  lines: number;
  rows: Readonly<Record<string, number>>;
}

const MARY_HAMMOCK = ['MT01', 'MT02', 'MT03', 'MT04', 'MT05', 'MT06'];

const TABLES: readonly Table[] = [
  {
    file: 'import/data/turck_sampling.csv',
    as: 'cores',
    said: { leave_out: '12, 13', utm_zone: '17N' },
    lines: 12,
    rows: { datums: 1, holes: 6 },
  },
  {
    file: 'import/data/turck_sampling.csv',
    as: 'layers',
    cores: MARY_HAMMOCK,
    said: {},
    lines: 12,
    rows: { units: 18 },
  },
  {
    file: 'import/data/turck_sampling.csv',
    as: 'pushes',
    cores: MARY_HAMMOCK,
    said: { push: 'V1', 'columns.Y.to': 'from' },
    lines: 12,
    rows: { pushes: 6 },
  },
  {
    file: 'import/data/turck_sediment.csv',
    as: 'measurements',
    cores: MARY_HAMMOCK,
    said: {},
    lines: 59,
    // 54 samples of cores; sand, silt and clay of each, organic matter and carbon of all but one
    rows: { samples: 54, measurements: 54 * 3 + 53 * 2 },
  },
  {
    file: 'depth/data/cores.csv',
    as: 'cores',
    said: { method: 'tube' },
    lines: 7,
    rows: { datums: 1, holes: 6 },
  },
  {
    file: 'age-depth/data/sand_tump_points_dates.csv',
    as: 'dates',
    cores: ['SP_1', 'TP_1'],
    said: { calibration_curve: 'intcal20' },
    lines: 26,
    rows: { samples: 19, determinations: 25 },
  },
  {
    file: 'age-depth/data/sand_tump_points_caesium.csv',
    as: 'measurements',
    cores: ['SP_1', 'TP_1'],
    said: {},
    lines: 25,
    rows: { samples: 24, measurements: 24 },
  },
  {
    file: 'age-depth/data/delta_peat.csv',
    as: 'dates',
    cores: ['BACHI', 'FW'],
    said: { calibration_curve: 'intcal20' },
    lines: 34,
    rows: { samples: 31, determinations: 33 },
  },
  {
    file: 'curve/data/rotterdam_points.csv',
    as: 'published-points',
    said: {
      source: 'Hijma and Cohen 2019',
      'columns.D.to': 'rsl error up',
      'columns.E.to': 'rsl error down',
    },
    lines: 113,
    rows: { compiled_points: 112 },
  },
  {
    file: 'seasia/data/singapore.csv',
    as: 'published-points',
    said: {
      'words.kind.1': 'terrestrial',
      'words.kind.0': 'index',
      'words.kind.-1': 'marine',
    },
    lines: 67,
    // Limits have no level in this table: 23 of the 66 have one.
    rows: { sites: 5, compiled_points: 23 },
  },
];

for (const { file, as, cores = [], said, lines, rows } of TABLES) {
  test(`${file} as ${as}`, async () => {
    const theirs = await readTheirs(
      file,
      new Uint8Array(readFileSync(new URL(`../${file}`, import.meta.url))),
    );
    const sheet = bestSheet(theirs, as)!;
    let mapping: Mapping = understand(sheet, { as })!.mapping;
    for (const [where, word] of Object.entries(said)) {
      const read = decided(mapping, where, word);
      assert.ok('mapping' in read, JSON.stringify(read));
      mapping = read.mapping;
    }
    const document = withRows(
      newDocument('x'),
      'holes',
      cores.map((hole) => ({ hole, method: 'tube' })),
    );
    const proposal = proposed(hereOf(document), sheet, mapping);
    const used = proposal.lines.filter(({ outcome }) => outcome === 'used').length;
    const explained = proposal.lines.filter(({ outcome, why }) => outcome !== 'used' && why !== '').length;
    assert.equal(used + explained, sheet.lines.length);
    assert.equal(sheet.lines.length, lines);
    const found = Map.groupBy(proposal.rows, ({ table }) => table);
    assert.deepEqual(Object.fromEntries([...found].map(([table, of]) => [table, of.length])), rows);
    const asked = proposal.decisions.length + Object.keys(said).length;
    const columns = mapping.columns.filter(({ to }) => to !== null).length;
    assert.ok(asked <= 2 * columns, `${asked} decisions for ${columns} columns`);
  });
}
