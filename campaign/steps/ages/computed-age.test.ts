/** Dates without a stated age: from the doses, rates and ratios of their samples. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { traceId } from '@stillstand/campaign/results';
import { DOSE_FACTORS } from '@stillstand/published/dose-factors';
import { computeCampaign } from '../compute.ts';
import { type Cells, campaignOf } from '../fixtures/campaign-of.ts';

const PUBLISHED = { curves: {}, doseFactors: DOSE_FACTORS };
const YEAR = { reference_year: '2020' };

/** Dates A, B … of samples of these names, each with its measurements and a point of its own. */
function computed(...dates: { date: Cells; measured: Cells[] }[]) {
  const names = dates.map((_, i) => String.fromCharCode(65 + i));
  const { campaign, problems } = campaignOf('computed', {
    datums: [{ datum: 'MSL', kind: 'mean_sea_level' }],
    sites: [{ site: 'S' }],
    tide_levels: ['MTL', 'MHW'].map((level, i) => ({
      site: 'S',
      level,
      datum: 'MSL',
      elevation_m: String(i),
      sigma_m: '0.1',
    })),
    samples: names.map((sample, i) => ({
      sample,
      site: 'S',
      basis: 'elevation',
      elevation_m: String(-1 - i),
      elevation_datum: 'MSL',
      material: dates[i]!.date['material'] ?? 'sand',
    })),
    determinations: names.map((sample, i) => {
      const { material: _, ...date } = dates[i]!.date;
      return { lab_code: `L-${sample}`, sample, method: 'luminescence', ...YEAR, ...date };
    }),
    measurements: names.flatMap((sample, i) => dates[i]!.measured.map((cells) => ({ sample, ...cells }))),
    points: names.map((sample) => ({
      point: `P-${sample}`,
      sample,
      kind: 'index',
      lower: 'MTL',
      upper: 'MHW',
    })),
  });
  const { results, trace, curveInput } = computeCampaign(campaign, PUBLISHED, problems, {
    withCurve: false,
  });
  return {
    dates: results.dates,
    rates: results.dose_rates,
    ages: (curveInput?.points ?? []).map(({ age }) => age),
    trace,
    groups: results.groups,
    problems: results.problems
      .filter((p) => p.table === 'determinations')
      .map((p) => `${p.severity} ${p.code} ${p.column}: ${p.found}; ${p.expected}`),
  };
}

const dose = (value: string, sigma: string, systematic_sigma = ''): Cells => ({
  property: 'Equivalent dose',
  value,
  sigma,
  systematic_sigma,
  unit: 'Gy',
});
const rate = (value: string, sigma: string, systematic_sigma = ''): Cells => ({
  property: 'dose rate',
  value,
  sigma,
  systematic_sigma,
  unit: 'Gy/ka',
});
const ratio = (property: string, value: string, sigma = ''): Cells => ({ property, value, sigma });

test('a date without a stated age has that of dose and rate, before 1950, with the whole error and its trace', () => {
  const { dates, ages, trace, problems } = computed({
    date: {},
    measured: [dose('75', '4'), rate('2.83', '0.14')],
  });
  assert.deepEqual(problems, []);
  const [date] = dates;
  // 75/2.83 = 26.502 ka, √((4/75)² + (0.14/2.83)²) = 7.275 %: 1,928 yr; 70 yr from 2020 to 1950.
  assert.equal(date!.age_from, 'measurements');
  assert.ok(Math.abs(date!.value - 26_501.8) < 0.1 && Math.abs(date!.error - 1928) < 1);
  // Rates even beforehand make it older by their variance, (0.14/2.83)² of the age: 65 yr, a thirtieth of the error.
  assert.ok(Math.abs(date!.median_cal_bp - 26_432 - 65) < 5, String(date!.median_cal_bp));
  // The older side is the longer.
  const [set] = date!.sets_95;
  assert.ok(set!.older_cal_bp - date!.median_cal_bp > date!.median_cal_bp - set!.younger_cal_bp);
  assert.equal(ages[0]!.kind, 'density');
  const node = trace.node(trace.find(traceId.date('L-A')));
  assert.match(node.how, /computed from the measurements of its sample/);
  const parts = node.parts.map((id) => trace.node(trace.find(id)));
  assert.ok(parts.some((part) => part.row?.table === 'determinations'));
  const measured = trace.node(trace.find(traceId.measuredAge('L-A')));
  assert.ok(node.parts.includes(traceId.measuredAge('L-A')) && measured.parts.length === 2);
  assert.ok(!measured.how.includes('comparison'));
});

test('what samples measured together share goes into the curve as one error of the group', () => {
  const of = (value: string): Cells[] => [dose(value, '2', '1.5'), rate('2.5', '0.1', '0.08')];
  const group = { systematic_group: 'lab' };
  const { ages, groups, problems } = computed(
    { date: group, measured: of('50') },
    { date: group, measured: of('60') },
    { date: { ...group, systematic_error: '500' }, measured: of('55') },
  );
  assert.deepEqual(problems, []);
  const [first, , third] = ages;
  assert.ok(first?.kind === 'normal' && third?.kind === 'normal');
  // 20 ka: whole √((2/50)² + (0.1/2.5)²) = 5.657 %, shared √((1.5/50)² + (0.08/2.5)²) = 4.386 %.
  assert.ok(Math.abs(first.mean_cal_bp - 19_930) < 0.01 && Math.abs(first.sd_yr - 1131.4) < 0.1);
  assert.deepEqual([first.systematic?.group, Math.round(first.systematic!.sd_yr)], ['lab', 877]);
  assert.equal(third.systematic?.sd_yr, 500);
  assert.deepEqual(groups.find(({ kind }) => kind === 'dose')?.members, ['L-A', 'L-B', 'L-C']);
});

test('a shared part without a group, above its whole, or missing in a group, is named', () => {
  const { problems, dates } = computed(
    { date: {}, measured: [dose('50', '2', '1.5'), rate('2.5', '0.1')] },
    { date: {}, measured: [dose('50', '2', '3'), rate('2.5', '0.1')] },
    { date: { systematic_group: 'lab' }, measured: [dose('50', '2'), rate('2.5', '0.1')] },
  );
  assert.deepEqual(
    dates.map(({ lab_code }) => lab_code),
    ['L-A', 'L-C'],
  );
  assert.equal(problems.length, 3);
  assert.match(
    problems.join('\n'),
    /warning systematic-error-unused systematic_error: 600; the name of a group/,
  );
  assert.match(
    problems.join('\n'),
    /error age-not-computed value: .*50 ± 2, 3 shared; a shared part of at most/,
  );
  assert.match(
    problems.join('\n'),
    /warning systematic-error-unused systematic_error: ; the part of the error/,
  );
});

test('a stated age stays, unless the row says that its measurements are the result', () => {
  const measured = [dose('75', '4'), rate('2.83', '0.14')];
  const stated = { value: '62500', error: '1900' };
  const { dates, problems } = computed(
    { date: stated, measured },
    { date: { ...stated, reported_as: 'measurements' }, measured },
    { date: { ...stated, reported_as: 'measurements' }, measured: [] },
  );
  assert.deepEqual(
    dates.map(({ lab_code, age_from, value }) => [lab_code, age_from, Math.round(value)]),
    [
      ['L-A', 'stated', 62_500],
      ['L-B', 'measurements', 26_502],
    ],
  );
  assert.equal(problems.length, 2);
  assert.match(problems.join('\n'), /warning age-not-as-measured value: 62500 ± 1900/);
  assert.match(
    problems.join('\n'),
    /error age-missing reported_as: no measurements of C that give an age; equivalent dose and dose rate/,
  );
});

test('what keeps an age from being computed is named, and the rest is dated', () => {
  const { dates, problems } = computed(
    { date: {}, measured: [] },
    { date: { value: '5000' }, measured: [dose('12', '1')] },
    { date: {}, measured: [dose('12', ''), rate('2.4', '0.1')] },
    { date: {}, measured: [dose('12', '1'), rate('2.4', '1.2')] },
    { date: { status: 'rejected' }, measured: [] },
    { date: { reference_year: '' }, measured: [dose('12', '1'), rate('2.4', '0.1')] },
    { date: { method: 'marker' }, measured: [] },
  );
  const said = problems.join('\n');
  assert.deepEqual(
    dates.map(({ lab_code }) => lab_code),
    ['L-F'],
  );
  assert.match(
    said,
    /error age-missing value: ; an age and its 1 sigma, or measurements of A: equivalent dose/,
  );
  assert.match(said, /error age-not-computed value: 0 × dose rate of B; one of each/);
  assert.match(said, /error age-not-computed value: measured of C: 12 ± 0 Gy; an error above 0/);
  assert.match(
    said,
    /error age-not-computed value: measured of D: 2.4 ± 1.2 Gy\/ka; a rate known to a quarter/,
  );
  assert.match(said, /warning measured-age-without-year reference_year: ; the year of the measurement/);
  assert.match(said, /error missing-cell value/);
  assert.ok(!said.includes('of E'));
});

test('ratios give the age of a coral that is printed, and the error of detritus is the one it shares', () => {
  const clean = [ratio('230Th/238U', '0.7867', '0.0007'), ratio('234U/238U', '1.1186', '0.00075')];
  const dirty = [
    ...clean,
    ratio('230Th/232Th', '25'),
    { property: 'initial 230Th/232Th', value: '4.4', sigma: '2.2', unit: 'ppm' },
  ];
  const date = { method: 'u_series', systematic_group: 'reef', systematic_error: '' };
  const { dates, ages, problems } = computed(
    { date: { method: 'u_series' }, measured: clean },
    { date, measured: dirty },
    { date: { method: 'u_series' }, measured: [...clean, ratio('230Th/232Th', '25')] },
    { date: { method: 'u_series', material: 'coral' }, measured: clean },
    { date, measured: dirty },
  );
  // The age and its error of the sample of `measured-age.test.ts`, 128,170 ± 280.
  assert.ok(Math.abs(dates[0]!.value - 128_170) < 20 && Math.abs(dates[0]!.error - 280) < 25);
  assert.ok(dates[1]!.value < dates[0]!.value - 500, 'detritus makes it younger');
  const corrected = ages[1]!;
  assert.ok(corrected.kind === 'normal' && corrected.systematic?.group === 'reef');
  // 0.186 in activity for 1 ppm (the methods page): half of what detritus makes it younger, as 2.2 is of 4.4.
  const younger = dates[0]!.value - dates[1]!.value;
  assert.ok(Math.abs(corrected.systematic!.sd_yr / younger - 0.5) < 0.02);
  assert.ok(corrected.systematic!.sd_yr < corrected.sd_yr);
  assert.match(
    problems.join('\n'),
    /warning measurements-doubtful value: measured of C: 25, and no correction/,
  );
  assert.match(problems.join('\n'), /warning measurements-doubtful value: measured of D: initial δ234U 170/);
  assert.equal(problems.length, 2);
});

test('two 230Th/232Th of one sample, and an initial ratio in another unit, are named', () => {
  const needed = [ratio('230Th/238U', '0.7867', '0.0007'), ratio('234U/238U', '1.1186', '0.00075')];
  const { dates, problems } = computed(
    {
      date: { method: 'u_series' },
      measured: [...needed, ratio('230Th/232Th', '25'), ratio('230Th/232Th', '26')],
    },
    {
      date: { method: 'u_series' },
      measured: [...needed, { property: 'initial 230Th/232Th', value: '0.8', unit: 'activity ratio' }],
    },
    {
      date: { method: 'u_series' },
      measured: [...needed, { property: 'initial 230Th/232Th', value: '4.4', sigma: '2.2', unit: 'ppm' }],
    },
  );
  assert.deepEqual(dates, []);
  assert.match(problems.join('\n'), /2 × 230Th\/232Th of A; one of each/);
  assert.match(problems.join('\n'), /initial 230Th\/232Th in activity ratio; ppm or atomic ppm or 1e-6/);
  assert.match(problems.join('\n'), /measured of C: none; the measured 230Th\/232Th activity ratio/);
});

const content = (property: string, value: string, sigma: string, unit: string): Cells => ({
  property,
  value,
  sigma,
  unit,
});
/** Contents of a sand of quartz: 0.82 Gy/ka are printed with them (checks/luminescence). */
const CONTENTS: Cells[] = [
  content('uranium', '0.63', '0.03', 'ppm'),
  content('thorium', '2.11', '0.1', 'ppm'),
  content('potassium', '0.61', '0.03', '%'),
  content('water since burial', '32', '6', '%'),
  content('cosmic dose rate', '0.16', '0.016', 'Gy/ka'),
  { property: 'grain size from', value: '180', unit: 'µm' },
  { property: 'grain size to', value: '250', unit: 'µm' },
  { property: 'etched layer', value: '10', unit: 'µm' },
];
const PALAEODOSE = dose('105.4', '7');
const without = (property: string): Cells[] => CONTENTS.filter((cells) => cells['property'] !== property);
const withOther = (property: string, cells: Cells): Cells[] =>
  CONTENTS.map((each) => (each['property'] === property ? { ...each, ...cells } : each));

test('without a dose rate the contents give it, with the factors they were computed with in results and trace', () => {
  const { dates, rates, trace, problems } = computed({ date: {}, measured: [PALAEODOSE, ...CONTENTS] });
  assert.deepEqual(problems, []);
  const [rate] = rates;
  assert.ok(Math.abs(rate!.rate_gy_ka - 0.82) < 0.03, String(rate!.rate_gy_ka));
  assert.ok(Math.abs(dates[0]!.value - (1000 * 105.4) / rate!.rate_gy_ka) < 1e-6);
  assert.equal(rate!.factors, 'guerin2011');
  assert.ok(rate!.figures.some(({ name, from_memory }) => name === 'dose factors' && from_memory));
  assert.ok(rate!.shared_sigma_gy_ka < rate!.rate_sigma_gy_ka);
  const measured = trace.node(trace.find(traceId.measuredAge('L-A')));
  assert.ok(measured.parts.includes(traceId.doseRate('L-A')));
  const node = trace.node(trace.find(traceId.doseRate('L-A')));
  // Eight measurements and the factors.
  assert.equal(node.parts.length, 9);
  assert.match(node.how, /factors guerin2011; dose factors: Guérin, .*\(from memory\)/);
  assert.match(
    trace.node(trace.find(traceId.published('dose factors guerin2011'))).how,
    /Guérin, Mercier & Adamiec 2011/,
  );
});

test('a dose rate that was measured comes in place of contents, and a stated age is held against theirs', () => {
  const measured = [PALAEODOSE, ...CONTENTS];
  const { dates, rates, problems } = computed(
    { date: {}, measured: [...measured, rate('2.5', '0.1')] },
    { date: { value: '60000', error: '5000' }, measured },
    { date: { value: '60000', error: '5000', reported_as: 'measurements' }, measured },
  );
  assert.ok(Math.abs(dates[0]!.value - 42_160) < 1e-6);
  assert.deepEqual(
    dates.map(({ age_from }) => age_from),
    ['measurements', 'stated', 'measurements'],
  );
  assert.deepEqual(
    rates.map(({ lab_code }) => lab_code),
    ['L-B', 'L-C'],
  );
  assert.equal(problems.length, 1);
  assert.match(problems[0]!, /^warning age-not-as-measured value: 60000 ± 5000; about 1[0-9]{5} ±/);
});

test('water, the cosmic dose and the factors are shared by samples of a group unless a part is stated', () => {
  const date = { systematic_group: 'site' };
  const own = withOther('water since burial', { systematic_sigma: '0' });
  const { dates, rates } = computed(
    { date, measured: [PALAEODOSE, ...CONTENTS] },
    { date, measured: [PALAEODOSE, ...own] },
    { date: {}, measured: [PALAEODOSE, ...CONTENTS] },
  );
  const [shared, apart, alone] = dates.map(({ shared_sigma_yr }) => shared_sigma_yr);
  assert.ok(shared! > 0 && apart! > 0 && apart! < shared!);
  // A part that nobody asked to share is the date's own.
  assert.equal(alone, null);
  assert.ok(Math.abs(rates[0]!.rate_sigma_gy_ka - rates[1]!.rate_sigma_gy_ka) < 1e-12);
});

test('contents that are missing, twice, without an error, in another unit or out of physics are named; doubts too', () => {
  const of = (measured: Cells[]) => ({ date: {}, measured: [PALAEODOSE, ...measured] });
  const { dates, problems } = computed(
    of(without('potassium')),
    of([...CONTENTS, content('uranium', '0.7', '0.1', 'ppm')]),
    of(withOther('thorium', { sigma: '' })),
    of(withOther('water since burial', { unit: 'kg' })),
    of(withOther('grain size to', { value: '100' })),
    of(withOther('water since burial', { value: '0.32', sigma: '0.06' })),
    of(withOther('etched layer', { value: '0' })),
    { date: {}, measured: CONTENTS },
    { date: { value: '5000', error: '400' }, measured: CONTENTS },
  );
  const said = problems.join('\n');
  assert.deepEqual(
    dates.map(({ lab_code }) => lab_code),
    ['L-F', 'L-G', 'L-I'],
  );
  assert.match(
    said,
    /error age-not-computed value: 0 × potassium of A; one of each, to compute the dose rate/,
  );
  assert.match(said, /error age-not-computed value: 2 × uranium of B/);
  assert.match(said, /error age-not-computed value: measured of C: thorium 2.11 ppm, no error; its 1 sigma/);
  assert.match(said, /error age-not-computed value: water since burial in kg; % or % of dry mass/);
  assert.match(said, /error age-not-computed value: measured of E: grains: 180 to 100/);
  assert.match(said, /warning measurements-doubtful value: measured of F: water since burial: 0.32 %/);
  assert.match(said, /warning measurements-doubtful value: measured of G: grains: .*not etched/);
  assert.match(said, /error age-missing value: ; .*measurements of H: equivalent dose and dose rate/);
  // Contents alone are held against nothing.
  assert.ok(!said.includes(' of I'));
  assert.equal(problems.length, 8);
});

test('names as laboratories write them are the same measurements, and one under two names is two', () => {
  const symbols = CONTENTS.map((cells) => ({
    ...cells,
    property: { uranium: 'U', thorium: 'th', potassium: 'K' }[cells['property']!] ?? cells['property']!,
  }));
  const palaeodose = { ...PALAEODOSE, property: 'Palaeodose' };
  const { dates, problems } = computed(
    { date: {}, measured: [PALAEODOSE, ...CONTENTS] },
    { date: {}, measured: [palaeodose, ...symbols] },
    { date: {}, measured: [PALAEODOSE, ...CONTENTS, content('K', '0.7', '0.03', '%')] },
  );
  assert.equal(dates[0]!.value, dates[1]!.value);
  assert.equal(problems.length, 1);
  assert.match(problems[0]!, /2 × potassium of C/);
});

test('a sample near the ground is named: part of its gamma dose is missing', () => {
  const at = (top: string, bottom: string): string[] => {
    const { campaign, problems } = campaignOf('shallow', {
      holes: [{ hole: 'E', method: 'exposure' }],
      samples: [{ sample: 'A', hole: 'E', depth_basis: 'in_situ', top, bottom }],
      determinations: [{ lab_code: 'L', sample: 'A', method: 'luminescence', ...YEAR }],
      measurements: [PALAEODOSE, ...CONTENTS].map((cells) => ({ sample: 'A', ...cells })),
    });
    const { results } = computeCampaign(campaign, PUBLISHED, problems, { withCurve: false });
    return results.problems.filter(({ code }) => code === 'measurements-doubtful').map(({ found }) => found);
  };
  assert.deepEqual(at('10 cm', '14 cm'), ['measured of A: depth: 0.12 m']);
  assert.deepEqual(at('1.10 m', '1.14 m'), []);
});
