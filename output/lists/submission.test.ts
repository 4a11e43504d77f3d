/** The sheet of a parcel: what it says, that a laboratory's copy of it comes back by itself, and that nothing in it runs. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { Resvg } from '@resvg/resvg-js';
import { newDocument, parseCampaign, readCsv, withRows } from '@stillstand/campaign/document';
import {
  bestSheet,
  hereOf,
  type Proposal,
  proposed,
  readTheirs,
  understand,
} from '@stillstand/campaign/import';
import jsQR from 'jsqr';
import {
  entriesOfParcel,
  listCsv,
  listHtml,
  listXlsx,
  type Parcel,
  parcelLabels,
  parcelSent,
  submissionOf,
} from './index.ts';

/** Its types describe another way of packing than Node's. */
const readCode = jsQR as unknown as typeof jsQR.default;

const PARCEL: Parcel = {
  label: 'P1',
  laboratory: 'Quay Laboratory',
  sender: 'A. Bearer',
  date: '2026-03-02',
  samples: [
    { sample: 'T1-A', request: 'AMS radiocarbon', amount: '12 mg', note: 'rhizomes, picked' },
    { sample: '=B', request: 'luminescence', amount: 'the whole tube', note: '' },
    { sample: 'T1-C', request: 'grain size', amount: '', note: '=1+1' },
  ],
};

function campaignDocument() {
  let document = newDocument('sheet');
  document = withRows(document, 'holes', [{ hole: 'T1', method: 'hand', site: 'S' }]);
  document = withRows(document, 'sites', [{ site: 'S' }]);
  const depths = { hole: 'T1', depth_basis: 'in_situ' };
  document = withRows(document, 'samples', [
    { sample: 'T1-A', ...depths, top: '1.00 m', bottom: '1.02 m', material: 'peat' },
    { sample: '=B', ...depths, top: '2.00 m', bottom: '2.02 m', material: 'sand' },
    { sample: 'T1-C', ...depths, top: '3.00 m', bottom: '3.02 m', identifier: '10.58052/INVENTED1' },
  ]);
  document = withRows(document, 'laboratories', [
    { laboratory: 'Quay Laboratory', address: '1 Quay\nHarbour', contact: 'office' },
  ]);
  return withRows(
    document,
    'custody',
    entriesOfParcel(PARCEL).map((cells, i) => ({ ...cells, seq: String(i + 1), by: 'A. Bearer' })),
  );
}

const DOCUMENT = campaignDocument();
const { campaign, problems } = parseCampaign(DOCUMENT);
const list = submissionOf(campaign, null, PARCEL);
const TYPED: Readonly<Record<string, string>> = {
  'laboratory code': 'INV-1',
  value: '4520',
  'error, 1σ': '30',
};

/** The sheet as a laboratory types into it: cells by sample and heading. */
function filledIn(text: string, typed: Record<string, Record<string, string>>): string {
  const csv = readCsv(text)!;
  const lines = [csv.columns, ...csv.rows.map(({ cells }) => cells)];
  const heading = lines.find((cells) => cells.includes('laboratory code'))!;
  return lines
    .map((cells) => {
      const own = typed[cells[0]!.replace(/^'/, '')];
      return heading
        .map((name, i) => own?.[name] ?? cells[i] ?? '')
        .map(quoted)
        .join(',');
    })
    .join('\r\n');
}
const quoted = (cell: string): string => `"${cell.replaceAll('"', '""')}"`;

async function imported(name: string, content: string | Uint8Array, document = DOCUMENT): Promise<Proposal> {
  const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
  const theirs = await readTheirs(name, bytes);
  assert.deepEqual(theirs.problems, []);
  const sheet = bestSheet(theirs)!;
  const { mapping } = understand(sheet)!;
  assert.equal(mapping.as, 'dates');
  return proposed(hereOf(document), sheet, mapping);
}

test('what the sheet says of each sample, and to whom it goes', () => {
  assert.deepEqual(
    problems.filter(({ severity }) => severity === 'error'),
    [],
  );
  assert.equal(list.title, 'Submission P1');
  assert.deepEqual(list.head.slice(1), [
    ['From', 'A. Bearer'],
    ['To', 'Quay Laboratory, 1 Quay\nHarbour, office'],
    ['Date', '2026-03-02'],
    ['Samples', '3'],
  ]);
  const cell = (row: number, heading: string): string =>
    list.rows[row]!.cells[list.columns.findIndex((column) => column.heading === heading)]!;
  assert.equal(cell(0, 'position in the core'), 'Hole T1, 1.00–1.02 m below ground');
  assert.equal(cell(0, 'site'), 'S');
  assert.equal(cell(0, 'material sent'), 'peat');
  assert.equal(cell(0, 'method'), 'radiocarbon');
  assert.equal(cell(1, 'method'), 'luminescence');
  assert.equal(cell(2, 'method'), '');
  assert.equal(list.rows[2]!.code, '10.58052/INVENTED1');
});

test('the entries written for a parcel give the parcel back', () => {
  assert.deepEqual(parcelSent(campaign, 'P1'), PARCEL);
  assert.deepEqual(parcelLabels(campaign), ['P1']);
  assert.equal(parcelSent(campaign, 'P2'), null);
});

test('the sheet filled in by the laboratory is imported without any mapping', async () => {
  const back = filledIn(listCsv(list), {
    'T1-A': {
      'laboratory code': 'INV-1',
      value: '4520',
      'error, 1σ': '30',
      'δ13C, ‰': '-26.4',
      remarks: 'small',
    },
    '=B': { 'laboratory code': 'INV-2', value: '4900', 'error, 1σ': '350' },
  });
  const proposal = await imported('back.csv', back);
  assert.deepEqual(proposal.problems, []);
  assert.deepEqual(
    proposal.rows.map(({ table, cells }) => [
      table,
      cells['sample'],
      cells['lab_code'],
      cells['method'],
      cells['value'],
      cells['error'],
    ]),
    [
      ['determinations', 'T1-A', 'INV-1', 'radiocarbon', '4520', '30'],
      ['determinations', '=B', 'INV-2', 'luminescence', '4900', '350'],
    ],
  );
  // What the campaign knows already is not said again in the note.
  assert.equal(proposal.rows[0]!.cells['note'], 'small');
  assert.equal(proposal.rows[0]!.cells['delta13c_permil'], '-26.4');
  assert.equal(proposal.rows[1]!.cells['note'], undefined);
});

test('F14C is what the laboratory says it is; the sheet as it went gives no row and no error', async () => {
  const back = filledIn(listCsv(list), {
    'T1-A': { 'laboratory code': 'INV-1', value: '1.0921', 'error, 1σ': '0.0031', 'reported as': 'F14C' },
  });
  const [row] = (await imported('back.csv', back)).rows;
  assert.equal(row!.cells['reported_as'], 'f14c');
  const untouched = await imported('sheet.csv', listCsv(list));
  assert.deepEqual([untouched.rows, untouched.problems], [[], []]);
  const workbook = await imported('sheet.xlsx', listXlsx(list));
  assert.deepEqual([workbook.rows, workbook.problems], [[], []]);
  const filled = list.rows.map(({ cells, code }, i) => ({
    code,
    cells: cells.map((cell, k) => (i === 0 ? (TYPED[list.columns[k]!.heading] ?? cell) : cell)),
  }));
  const { rows } = await imported('back.xlsx', listXlsx({ ...list, rows: filled }));
  assert.deepEqual(
    rows.map(({ cells }) => [cells['sample'], cells['lab_code'], cells['value'], cells['error']]),
    [['T1-A', 'INV-1', '4520', '30']],
  );
});

test('a result of a sample that was never sent is named and kept; an unknown code is named', async () => {
  const only = parcelSent(campaign, 'P1')!;
  const other = withRows(
    DOCUMENT,
    'custody',
    entriesOfParcel({ ...only, samples: only.samples.slice(1) }).map((cells, i) => ({
      ...cells,
      seq: String(i + 1),
    })),
  );
  const back = filledIn(listCsv(list), {
    'T1-A': { 'laboratory code': 'INV-1', value: '4520', 'error, 1σ': '30' },
    '=B': { sample: 'zzzzzzzz/sample/B', 'laboratory code': 'INV-2', value: '4900', 'error, 1σ': '350' },
  });
  const proposal = await imported('back.csv', back, other);
  assert.deepEqual(
    proposal.problems.map(({ code, severity, found }) => [code, severity, found]),
    [
      ['never-sent', 'warning', 'T1-A'],
      ['unknown-code', 'error', 'zzzzzzzz/sample/B'],
    ],
  );
  assert.equal(proposal.rows.length, 1);
});

test('no text of the sheet is a formula, and the codes on its page are read by a library that did not make them', () => {
  assert.match(listCsv(list), /^'=B,/m);
  assert.match(listCsv(list), /'=1\+1/);
  const html = listHtml(list);
  const read = [...html.matchAll(/viewBox="0 0 (\d+) \d+"[^>]*>(<path d="[^"]*")/g)].map(([, side, path]) => {
    const svg = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${side} ${side}"><rect width="${side}" height="${side}" fill="#fff"/>${path}/></svg>`;
    const { pixels, width, height } = new Resvg(svg, {
      fitTo: { mode: 'width', value: Number(side) * 4 },
    }).render();
    return readCode(new Uint8ClampedArray(pixels), width, height)?.data;
  });
  assert.deepEqual(
    read,
    list.rows.map(({ code }) => code),
  );
});
