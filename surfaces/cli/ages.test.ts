/** `stillstand ages`: ages at depths from a plain table, and what of the table could not be used. */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';

const LAUNCHER = join(import.meta.dirname, 'stillstand.js');
const place = mkdtempSync(join(tmpdir(), 'stillstand-ages-'));
after(() => rmSync(place, { recursive: true, force: true }));

function ages(text: string, ...words: string[]): { code: number | null; out: string; err: string } {
  const path = join(place, 'dated.csv');
  writeFileSync(path, text);
  const run = spawnSync(process.execPath, [LAUNCHER, 'ages', path, ...words], { encoding: 'utf8' });
  return { code: run.status, out: run.stdout, err: run.stderr };
}

interface Answer {
  converged: boolean;
  ages_cal_bp: { depth_m: number; median: number; lower95: number; upper95: number }[];
  dates: { id: string; outlier_probability: number; age_cal_bp: { median: number } }[];
  hiatuses: { id: string; length_yr: { median: number } }[];
}

/** A metre in a thousand years, from 1950 CE. */
const STEADY = [
  'lab_code,depth_m,depth_sigma_m,age_cal_bp,age_sigma_yr',
  'A-1,1,0.02,1000,30',
  'A-2,2,0.02,2000,30',
  'A-3,3,0.02,3000,30',
  'A-4,4,0.02,4000,30',
];

test('steady accumulation is read off at any depth, by text and as JSON', () => {
  const words = ['--at', '0,1.5,2.5,4', '--surface-year', '1950'];
  const { code, out, err } = ages(STEADY.join('\n'), ...words, '--json');
  assert.deepEqual([code, err], [0, '']);
  const answer: Answer = JSON.parse(out);
  assert.equal(answer.converged, true);
  // 1 mm/yr by hand: 1.5 m is 1,500 years.
  for (const { depth_m, median, lower95, upper95 } of answer.ages_cal_bp) {
    assert.ok(Math.abs(median - 1000 * depth_m) < 60, `${depth_m} m: ${median}`);
    assert.ok(lower95 <= 1000 * depth_m + 1 && upper95 >= 1000 * depth_m - 1);
  }
  assert.ok(answer.dates.every(({ outlier_probability: p }) => p < 0.2));
  const text = ages(STEADY.join('\n'), ...words);
  assert.match(text.out, /^1\.50 +1,[45]\d\d +1,\d\d\d to 1,\d\d\d/m);
});

test('radiocarbon is calibrated; a date that contradicts all others is named, a rejected one is not used', () => {
  const rows = [
    'Lab_code;depth_m;c14_age;c14_error;curve;age_cal_bp;age_sigma_yr;status',
    'A-1;1,0;1110;25;intcal20;;;',
    'A-2;2,0;;;;2000;30;accepted',
    'A-3;3,0;;;;3000;30;',
    'odd;2,0;;;;7000;40;',
    'gone;1,5;;;;9000;40;rejected',
  ];
  const { code, out, err } = ages(rows.join('\n'), '--json', '--at', '2');
  const answer: Answer = JSON.parse(out);
  assert.deepEqual(
    answer.dates.map(({ id, outlier_probability: p }) => [id, p > 0.5]),
    [
      ['A-1', false],
      ['A-2', false],
      ['A-3', false],
      ['odd', true],
    ],
  );
  assert.ok(Math.abs(answer.ages_cal_bp[0]!.median - 2000) < 100);
  assert.equal(code, 0);
  assert.match(err, /gone.*found “rejected”/);
  assert.match(err, /no column depth_sigma_m/);
});

test('what cannot be used is named by line, and the rest is computed', () => {
  const rows = [
    ...STEADY,
    'A-2,2.5,0.02,2500,30',
    'deep,-3,0.02,2500,30',
    'shallow,,0.02,2500,30',
    'undated,2.2,0.02,,30',
    'wide,2.2,0.02,2200,0',
  ];
  const { code, out, err } = ages(rows.join('\n'), '--json', '--at', '1,9', '--bottom', '5');
  assert.equal(code, 1);
  const answer: Answer = JSON.parse(out);
  assert.equal(answer.dates.length, 4);
  assert.deepEqual(
    answer.ages_cal_bp.map(({ depth_m }) => depth_m),
    [1],
  );
  for (const named of [
    /line 6, A-2, lab_code/,
    /deep, depth_m/,
    /shallow, depth_m/,
    /undated, age_cal_bp/,
    /wide, age_sigma_yr/,
  ])
    assert.match(err, named);
  assert.match(err, /--at: found “9.00 m”; expected depths from 0 to 5.00 m/);
});

test('a hiatus has the years that are missing at it', () => {
  const rows = [
    'lab_code,depth_m,age_cal_bp,age_sigma_yr',
    'A-1,1,1000,30',
    'A-2,2,2000,30',
    'A-3,3,7000,30',
    'A-4,4,8000,30',
  ];
  const words = ['--json', '--hiatus', '2.5', '--at', '2.4,2.6', '--surface-year', '1950'];
  const { out } = ages(rows.join('\n'), ...words);
  const answer: Answer = JSON.parse(out);
  const [hiatus] = answer.hiatuses;
  // 2,000 at 2 m and 7,000 at 3 m: 5,000 years, less the thousand that a metre takes at the pace of the rest.
  assert.equal(hiatus?.id, '2.50 m');
  assert.ok(hiatus.length_yr.median > 2500 && hiatus.length_yr.median < 5000, `${hiatus.length_yr.median}`);
});

test('a bed laid down at once takes no time; one upside down is wrong use', () => {
  const rows = [
    'lab_code,depth_m,age_cal_bp,age_sigma_yr',
    'A-1,1,1000,30',
    'A-2,2,2000,30',
    'A-3,4,3000,30',
    'A-4,5,4000,30',
  ].join('\n');
  const { out } = ages(rows, '--json', '--bed', '2.2-3.2', '--at', '2.2,3.2', '--surface-year', '1950');
  const answer: Answer & { beds: { id: string; age_cal_bp: { median: number } }[] } = JSON.parse(out);
  const [top, base] = answer.ages_cal_bp.map(({ median }) => median);
  assert.equal(top, base);
  assert.ok(Math.abs(top! - 2200) < 100, `${top}`);
  assert.equal(answer.beds[0]?.id, '2.20 to 3.20 m');
  assert.match(
    ages(rows, '--bed', '2.2-3.2').out,
    /Bed at 2.20 to 3.20 m, laid down at once: 2,[12]\d\d cal BP/,
  );
  assert.equal(ages(rows, '--bed', '3.2-2.2').code, 2);
  assert.equal(ages(rows, '--bed', '2.2').code, 2);
  // Nothing but a bed is no hole to be modelled.
  const all = ages(rows, '--bed', '0-9');
  assert.equal(all.code, 1);
  assert.match(all.err, /beds laid down at once/);
});

test('one date is not enough, unless the year of the ground is known; wrong use is said', () => {
  const one = STEADY.slice(0, 2).join('\n');
  const few = ages(one);
  assert.equal(few.code, 1);
  assert.match(few.err, /1 dated horizon and a ground of unknown age/);
  assert.match(few.err, /--surface-year/);
  assert.equal(ages(one, '--surface-year', '1990', '--at', '0.5').code, 0);
  assert.equal(ages(one, '--at', '1.5 m').code, 2);
  assert.equal(ages(one, '--at', '-1').code, 2);
  assert.equal(ages('lab_code,age_cal_bp\nA,1\n').code, 1);
});

test('an error that dates share is one, and said; of a single date it is its own', () => {
  const rows = (group: (i: number) => string): string =>
    [
      'lab_code,depth_m,age_cal_bp,age_sigma_yr,age_systematic_group,age_systematic_yr',
      ...[1, 2, 3, 4].map((d, i) => `L-${d},${d},${1000 * d},75,${group(i)}`),
    ].join('\n');
  const widthAt = (
    text: string,
  ): { width: number; shared: { group: string; dates: string[]; shift_yr: { sd: number } }[] } => {
    const { code, out } = ages(text, '--at', '2', '--json');
    assert.equal(code, 0);
    const answer = JSON.parse(out);
    const [{ lower95, upper95 }] = answer.ages_cal_bp;
    return { width: upper95 - lower95, shared: answer.shared };
  };
  const one = widthAt(rows(() => 'lamp,60'));
  assert.deepEqual(
    one.shared.map(({ group, dates }) => [group, dates]),
    [['dose:lamp', ['L-1', 'L-2', 'L-3', 'L-4']]],
  );
  assert.ok(Math.abs(one.shared[0]!.shift_yr.sd - 60) < 9, `${one.shared[0]!.shift_yr.sd}`);
  const own = widthAt(rows((i) => (i === 0 ? 'lamp,60' : ',')));
  assert.deepEqual(own.shared, []);
  assert.ok(one.width > own.width, `${one.width}, ${own.width}`);
  assert.match(
    ages(
      rows(() => 'lamp,60'),
      '--at',
      '2',
    ).out,
    /^Systematic error lamp, one for 4 dates: [+−]?\d+ ± \d\d yr \(1 sd; stated ±60\)$/m,
  );
});
