import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { test } from 'node:test';
import { fileURLToPath } from 'node:url';
import { parseCampaign, readFiles } from '@stillstand/campaign/document';
import {
  type Column,
  isTableForLater,
  labelColumn,
  parseLength,
  schemas,
  type TableName,
} from '@stillstand/campaign/tables';
import { loadCurve } from '@stillstand/published/curves';
import { reduceLoop } from '@stillstand/science/survey';
import {
  astronomicalExtremes,
  highAndLowWaters,
  meanLevels,
  springsAndNeaps,
  tabulatedExtremes,
  tideCurve,
} from '@stillstand/science/tide';
import { makeCampaign } from './campaign.ts';
import { DEMO_SEED, demoCampaign } from './index.ts';
import { onCurve } from './radiocarbon.ts';
import { TRUE_CONSTANTS, TRUE_TIDE_M, trueLevel, trueRate } from './sea.ts';
import { feet } from './sheet.ts';
import { localRecovery } from './shortening.ts';

const curves = { shcal20: await loadCurve('shcal20'), marine20: await loadCurve('marine20') };
const made = makeCampaign(DEMO_SEED, curves);
const rowsOf = (table: TableName, of = made) => of.sheets.rows.get(table) ?? [];
/** The same row with columns named at run time. */
const cellsOf = (row: object): Readonly<Record<string, string | undefined>> => ({ ...row });
const number = (cell: string | undefined): number => (cell === undefined ? Number.NaN : Number(cell));
const metresOf = (cell: string | undefined): number => {
  const read = parseLength(cell ?? '');
  assert.ok(read.ok, `“${cell}” is a length`);
  return read.metres;
};

/** Heights and depths of the same thing, metres. */
const LENGTH_M = 1e-9;
/** The crew knows the tide levels to 5 cm, 1 sigma. */
const TIDE_LEVEL_M = 0.05;
/** What wind and air pressure do to a day, and a swell to the eye. */
const WEATHER_M = 0.15;

test('the same seed gives the same bytes, another seed others', () => {
  const bytes = (seed: number) =>
    [...demoCampaign(seed, curves).files].map(([path, b]) => [path, Buffer.from(b).toString('utf8')]);
  assert.deepEqual(bytes(4), bytes(4));
  assert.notDeepEqual(bytes(4), bytes(5));
});

test('demo/campaign is what the generator makes (npm run store -w demo writes it anew)', () => {
  const folder = fileURLToPath(new URL('campaign/', import.meta.url));
  const { files } = demoCampaign(DEMO_SEED, curves);
  assert.deepEqual(readdirSync(folder).sort(), [...files.keys()].sort());
  let size = 0;
  for (const [path, bytes] of files) {
    size += bytes.length;
    assert.ok(readFileSync(folder + path).equals(bytes), path);
  }
  assert.ok(size < 300_000, `${size} bytes`);
});

test('the folder reads without a problem, and every table has its headings', () => {
  const { document, problems } = readFiles(demoCampaign(DEMO_SEED, curves).files);
  assert.deepEqual(problems, []);
  assert.deepEqual(
    [...document.tables.keys()].sort(),
    (Object.keys(schemas) as TableName[]).filter((name) => !isTableForLater(name)).sort(),
  );
});

test('the parser finds nothing wrong; its notes belong to the story and to what is not used yet', () => {
  const { campaign, problems } = parseCampaign(readFiles(demoCampaign(DEMO_SEED, curves).files).document);
  assert.deepEqual(
    problems.map((p) => [p.severity, p.table, p.label]),
    // The mended sounding was written three readings after the slip.
    [['note', 'soundings', 'T3 number 39']],
  );
  assert.deepEqual(
    campaign.amendments.map((a) => a.kind),
    ['replace', 'withdraw'],
  );
  assert.deepEqual(campaign.skipped_rows, []);
});

test('every required cell is there, every choice known, every length a length, every reference found', () => {
  for (const [table, rows] of made.sheets.rows) {
    const columns = schemas[table].columns as unknown as Record<string, Column>;
    for (const row of rows) {
      for (const [name, column] of Object.entries(columns)) {
        const cell = cellsOf(row)[name];
        const place = `${table} ${row.row_id} ${name}`;
        if (cell === undefined) {
          assert.ok(!column.required || row.amend_kind === 'withdraw', `${place} is missing`);
        } else if (column.kind === 'choice') {
          assert.ok(column.choices.includes(cell), `${place}: ${cell}`);
        } else if (column.kind === 'length') {
          const length = metresOf(cell);
          assert.ok(length >= column.min_m && length <= column.max_m, `${place}: ${cell}`);
        } else if (column.kind === 'number') {
          assert.ok(number(cell) >= column.min && number(cell) <= column.max, `${place}: ${cell}`);
        } else if (column.kind === 'reference') {
          const to = column.to as TableName;
          const scope: readonly string[] = schemas[to].scope;
          const found = rowsOf(to).some(
            (r) =>
              cellsOf(r)[labelColumn(to)!] === cell && scope.every((s) => cellsOf(r)[s] === cellsOf(row)[s]),
          );
          assert.ok(found, `${place}: no ${to} ${cell}`);
        }
      }
    }
  }
  const ids = [...made.sheets.rows.values()].flat().map((row) => row.row_id);
  assert.equal(new Set(ids).size, ids.length);
});

test('washover fans, and nothing else, are marked as laid down at once', () => {
  const units = rowsOf('units');
  const beds = units.filter((row) => row.event_bed === 'yes');
  assert.deepEqual(
    beds,
    units.filter((row) => row.environment === 'washover'),
  );
  assert.equal(new Set(beds.map((row) => `${row.hole} ${row.unit}`)).size, 5);
});

test('units, samples and pieces lie within the run they name', () => {
  const cores = new Map(made.cores.map((c) => [`${c.hole} ${c.label}`, c]));
  for (const table of ['units', 'samples', 'pieces'] as const) {
    for (const row of rowsOf(table)) {
      // A block cut beside the hole is in no run.
      if (row.depth_basis === 'in_situ') continue;
      const core = cores.get(`${row.hole} ${row.run}`);
      assert.ok(core, `${table}: ${row.hole} ${row.run}`);
      const length = core.slices.reduce((sum, s) => sum + s.length_m, 0);
      assert.ok(metresOf(row.top) < metresOf(row.bottom));
      assert.ok(metresOf(row.bottom) <= length + 0.005 + LENGTH_M, `${table} ${row.row_id}`);
    }
  }
});

test('what the campaign holds', () => {
  const count = (table: TableName, wanted: Record<string, string> = {}) =>
    rowsOf(table).filter((row) => Object.entries(wanted).every(([k, v]) => cellsOf(row)[k] === v)).length;
  assert.deepEqual(
    {
      holes: count('holes'),
      lost: count('holes', { state: 'lost' }),
      replacing: rowsOf('holes').filter((h) => h.replaces !== undefined).length,
      joints_added: count('string_items', { action: 'add', item: 'joint' }),
      joints_lost: count('string_items', { action: 'lost', item: 'joint' }),
      replaced: rowsOf('soundings').filter((s) => s.amend_kind === 'replace').length,
      withdrawn: rowsOf('soundings').filter((s) => s.amend_kind === 'withdraw').length,
      runs: count('runs'),
      empty_runs: count('runs', { outcome: 'lost_lifting' }),
      runs_with_fall_in: rowsOf('runs').filter((r) => r.fall_in !== undefined).length,
      pushes: count('pushes'),
      samples: count('samples'),
      grain_sizes: count('measurements', { property: '< 4 µm' }),
      slices_of_lead: count('measurements', { property: 'total lead-210' }),
      markers: count('determinations', { method: 'marker' }),
      determinations: count('determinations'),
      rejected_determinations: count('determinations', { status: 'rejected' }),
      shells: count('determinations', { calibration_curve: 'marine20' }),
      luminescence: count('determinations', { method: 'luminescence' }),
      points: count('points'),
      index: count('points', { kind: 'index', status: 'accepted' }),
      terrestrial: count('points', { kind: 'terrestrial', status: 'accepted' }),
      marine: count('points', { kind: 'marine', status: 'accepted' }),
      point_errors: count('point_errors'),
    },
    {
      holes: 6,
      lost: 1,
      replacing: 1,
      joints_added: 20,
      joints_lost: 2,
      replaced: 1,
      withdrawn: 1,
      runs: 40,
      empty_runs: 1,
      runs_with_fall_in: 1,
      pushes: 4,
      samples: 38,
      grain_sizes: 11,
      slices_of_lead: 18,
      markers: 1,
      determinations: 39,
      rejected_determinations: 4,
      shells: 10,
      luminescence: 2,
      points: 35,
      index: 17,
      terrestrial: 8,
      marine: 8,
      point_errors: 3,
    },
  );
  const tapes = new Set(rowsOf('string_items').flatMap((j) => j.length?.match(/ft|cm|m$/) ?? []));
  assert.deepEqual([...tapes].sort(), ['cm', 'ft', 'm']);
});

test('the rig stays possible: sampler above the margin, plug within the string, no more in than driven (seeds 1 to 12)', () => {
  for (let seed = 1; seed <= 12; seed++) {
    for (const [hole, drilled] of makeCampaign(seed, curves).drilled) {
      assert.ok(drilled.least_clearance_m > 0.35, `seed ${seed} ${hole}: ${drilled.least_clearance_m}`);
      assert.ok(drilled.plug_over_string_m < 0, `seed ${seed} ${hole}`);
      assert.ok(drilled.entered_m < drilled.penetration_m, `seed ${seed} ${hole}`);
    }
  }
});

test('what the joints and stick-ups say is the true penetration, within the errors of tape and collar', () => {
  for (const [hole, { penetration_m }] of made.drilled) {
    let string_m = 0;
    let items = 0;
    let stick_up_m = 0;
    const readings = [...rowsOf('string_items'), ...rowsOf('drives')]
      .filter((r) => r.hole === hole)
      .sort((a, b) => number(a.seq) - number(b.seq));
    for (const r of readings) {
      if (r.action === 'add') {
        string_m += metresOf(r.length);
        items += 1;
      } else if (r.stick_up_end !== undefined) stick_up_m = metresOf(r.stick_up_end);
    }
    const loss_m = metresOf(rowsOf('pipes')[0]!.makeup_loss);
    const ground_m = metresOf(rowsOf('ground_levels').find((g) => g.hole === hole)!.ground_below_reference);
    const shoe_m = string_m - loss_m * (items - 1) - stick_up_m - ground_m;
    assert.ok(Math.abs(shoe_m - penetration_m) < 0.03, `${hole}: ${shoe_m} and ${penetration_m}`);
  }
});

test('the level book closes, and gives the true heights but for the bench mark and shift nobody can see', () => {
  const mark = rowsOf('benchmarks')[0]!;
  const shift_m = number(rowsOf('datum_shifts')[0]!.shift_m);
  for (const loop of ['marsh', 'spit']) {
    const reading = (cell: string | undefined) => (cell === undefined ? null : Number(cell));
    const book = reduceLoop(
      rowsOf('levelling')
        .filter((r) => r.loop === loop)
        .map((r) => ({
          row_id: r.row_id!,
          point: r.point!,
          backsight_m: reading(r.backsight_m),
          intermediate_m: reading(r.intermediate_m),
          foresight_m: reading(r.foresight_m),
          distance_m: reading(r.distance_m),
        })),
      [{ point: mark.benchmark!, elevation_m: number(mark.elevation_m), sigma_m: 0.06 }],
    );
    assert.deepEqual(book.findings, []);
    assert.ok(book.closures.every((c) => c.within));
    for (const { point, elevation_m } of book.points) {
      const hole = made.holes.find((h) => point === `${h.hole} peg`);
      if (hole === undefined) continue;
      const peg_m = metresOf(
        rowsOf('ground_levels').find((g) => g.hole === hole.hole)!.ground_below_reference,
      );
      const found = elevation_m + shift_m - peg_m;
      const expected = hole.ground_m + made.hidden.benchmark_m + made.hidden.datum_shift_m;
      // Levelling over a kilometre, and the tape at the peg.
      assert.ok(Math.abs(found - expected) < 0.015, `${point}: ${found} and ${expected}`);
    }
  }
});

test('accepted radiocarbon ages agree with the truth, rejected ones do not (seeds 1 to 12)', (t) => {
  let squares = 0;
  let n = 0;
  for (let seed = 1; seed <= 12; seed++) {
    const campaign = makeCampaign(seed, curves);
    for (const d of rowsOf('determinations', campaign)) {
      if (d.method !== 'radiocarbon') continue;
      const sample = campaign.samples.find((s) => s.sample === d.sample)!;
      const shell = d.calibration_curve === 'marine20';
      const { c14_age, sigma_yr } = onCurve(shell ? curves.marine20 : curves.shcal20, sample.age_cal_bp);
      const expected = c14_age + (shell ? campaign.hidden.reservoir_offset_yr : 0);
      const z = (number(d.value) - expected) / Math.sqrt(sigma_yr ** 2 + number(d.error) ** 2);
      if (d.fraction_dated?.startsWith('bulk')) assert.ok(z < -3, `seed ${seed} ${d.lab_code}: ${z}`);
      else {
        assert.ok(Math.abs(z) < 4.5, `seed ${seed} ${d.lab_code}: ${z}`);
        squares += z * z;
        n += 1;
      }
    }
  }
  t.diagnostic(`mean square ${(squares / n).toFixed(3)} of ${n} ages`);
  // Mean square of n standard normals: 1 ± √(2/n); four of its sigmas.
  assert.ok(Math.abs(squares / n - 1) < 4 * Math.sqrt(2 / n), `${squares / n}`);
});

test('sands are off by their errors, and together by the part that they share (seeds 1 to 100)', (t) => {
  const z: number[][] = [];
  for (let seed = 1; seed <= 100; seed++) {
    const campaign = makeCampaign(seed, curves);
    z.push(
      rowsOf('determinations', campaign)
        .filter(({ method }) => method === 'luminescence')
        .map((d) => {
          const { age_cal_bp } = campaign.samples.find((s) => s.sample === d.sample)!;
          const dose = (property: string) =>
            rowsOf('measurements', campaign).find((m) => m.sample === d.sample && m.property === property)!;
          const [gray, rate] = [dose('equivalent dose'), dose('dose rate')];
          const age_yr = (1000 * number(gray.value)) / number(rate.value);
          // Doses and rates are written to 0.01, ages to ten years.
          assert.ok(Math.abs(age_yr / number(d.value) - 1) < 0.015, `seed ${seed} ${d.lab_code}: ${age_yr}`);
          assert.ok(number(d.systematic_error) < number(d.error));
          return (number(d.value) - (number(d.reference_year) - 1950) - age_cal_bp) / number(d.error);
        }),
    );
  }
  const mean = (of: (pair: number[]) => number) => z.reduce((sum, pair) => sum + of(pair), 0) / z.length;
  const square = mean(([a, b]) => (a! ** 2 + b! ** 2) / 2);
  const shared = mean(([a, b]) => a! * b!) / square;
  t.diagnostic(`mean square ${square.toFixed(3)}, correlation of two ${shared.toFixed(3)}`);
  // 100 pairs: four sigmas of a mean square, and of a correlation of 0.04² / (0.045² + 0.03² + 0.04²) = 0.354.
  assert.ok(Math.abs(square - 1) < 4 * Math.sqrt(2 / 100), `${square}`);
  assert.ok(Math.abs(shared - 0.354) < 4 * 0.0875, `${shared}`);
});

test('the marsh grew from its base to the day it was cored; its pollen is of the years it says (seeds 1 to 40)', () => {
  for (let seed = 1; seed <= 40; seed++) {
    const campaign = makeCampaign(seed, curves);
    const { growth, hole } = campaign.marsh;
    assert.ok(Math.abs(growth.depth_m(0)) < LENGTH_M);
    for (let yr = 0; yr < 900; yr += 30) {
      assert.ok(growth.depth_m(yr + 30) > growth.depth_m(yr), `seed ${seed}: ${yr}`);
      assert.ok(Math.abs(growth.before_yr(growth.depth_m(yr)) - yr) < 1e-4, `seed ${seed}: ${yr}`);
    }
    // The sample of its base begins up to 2.5 cm above the contact, and is said to be of the contact's age.
    const base = campaign.samples.find((s) => s.hole === hole)!;
    assert.ok(growth.age_cal_bp(base.depth_m) < base.age_cal_bp && growth.age_cal_bp(base.depth_m) > 700);
    const marker = rowsOf('determinations', campaign).find(({ method }) => method === 'marker')!;
    const pollen = campaign.samples.find((s) => s.sample === marker.sample)!;
    assert.ok(Math.abs(pollen.age_cal_bp - number(marker.value)) <= number(marker.error), `seed ${seed}`);
    assert.ok(Math.abs(growth.age_cal_bp(pollen.depth_m) - pollen.age_cal_bp) < 1e-4, `seed ${seed}`);
    const row = rowsOf('samples', campaign).find((s) => s.sample === marker.sample)!;
    assert.ok(pollen.depth_m >= metresOf(row.top) && pollen.depth_m <= metresOf(row.bottom), `seed ${seed}`);
  }
});

test('samples tell the truth of the sea: index in the marsh, limits on their side, holes in order (seeds 1 to 40)', (t) => {
  const { MHW, HAT, MTL } = TRUE_TIDE_M;
  let sum = 0;
  let squares = 0;
  let n = 0;
  for (let seed = 1; seed <= 40; seed++) {
    const campaign = makeCampaign(seed, curves);
    const points = rowsOf('points', campaign);
    let above: (typeof campaign.samples)[number] | null = null;
    for (const sample of campaign.samples) {
      const place = `seed ${seed} ${sample.sample}`;
      const point = points.find((p) => p.sample === sample.sample);
      const { tide_m } = sample;
      assert.ok(
        Math.abs(tide_m - (sample.elevation_m + sample.lowering_m - trueLevel(sample.age_cal_bp))) < LENGTH_M,
      );
      if (point?.status !== 'accepted') continue;
      if (point.kind === 'terrestrial') assert.ok(tide_m > MTL, place);
      else if (point.kind === 'marine') assert.ok(tide_m < MTL, place);
      else {
        // A sample begins up to 2.5 cm above a contact laid in the marsh's range.
        assert.ok(tide_m > MHW - 0.03 && tide_m < HAT + 0.03, `${place}: ${tide_m}`);
        sum += tide_m;
        squares += (tide_m - (MHW + HAT) / 2) ** 2;
        n += 1;
      }
      if (above !== null && above.hole === sample.hole) {
        assert.ok(sample.age_cal_bp > above.age_cal_bp, `${place}: older than the one above`);
        assert.ok(sample.depth_m > above.depth_m, `${place}: deeper than the one above`);
      }
      above = sample;
    }
  }
  t.diagnostic(
    `${n} index points: ${(100 * (sum / n - (MHW + HAT) / 2)).toFixed(2)} cm off the middle, sd ${(100 * Math.sqrt(squares / n)).toFixed(2)} cm`,
  );
  // Even over the range, as the points claim: its middle and its standard deviation, within 1 cm.
  assert.ok(Math.abs(sum / n - (MHW + HAT) / 2) < 0.01, `middle ${sum / n}`);
  assert.ok(
    Math.abs(Math.sqrt(squares / n) - (HAT - MHW) / Math.sqrt(12)) < 0.01,
    `sd ${Math.sqrt(squares / n)}`,
  );
});

test('the constants predict the tide levels that are stated, and the day the crew read the pole', () => {
  const tide = { mean_m: 0, constants: TRUE_CONSTANTS };
  const curve = tideCurve(tide);
  const { HAT_m, LAT_m } = astronomicalExtremes(tide, 1993)!;
  const { MHW_m, MLW_m, MTL_m } = meanLevels(
    tabulatedExtremes(highAndLowWaters(curve, Date.UTC(1993, 0, 1), Date.UTC(2012, 0, 1))),
  )!;
  const found = { HAT: HAT_m, LAT: LAT_m, MHW: MHW_m, MLW: MLW_m, MTL: MTL_m };
  const { MHWS_m, MHWN_m, MLWN_m, MLWS_m } = springsAndNeaps(tide);
  for (const [level, height_m] of Object.entries({
    ...found,
    MHWS: MHWS_m,
    MHWN: MHWN_m,
    MLWN: MLWN_m,
    MLWS: MLWS_m,
  })) {
    const stated = TRUE_TIDE_M[level as keyof typeof TRUE_TIDE_M];
    assert.ok(Math.abs(height_m - stated) < TIDE_LEVEL_M, `${level}: ${height_m} ${stated}`);
  }
  for (const { time, height_m } of rowsOf('gauge_readings', made)) {
    // The pole stands 1.08 m below the old harbour zero, which lies 0.742 m below mean sea level.
    const stood_m = number(height_m) - 1.08 - 0.742;
    assert.ok(
      Math.abs(curve.height_m(Date.parse(String(time))) - stood_m) < WEATHER_M,
      `${time}: ${stood_m}`,
    );
  }
  for (const { leave_by, ...day } of rowsOf('field_days', made)) {
    // The boat needs −0.80 m and a margin of 0.30 m until the 20 minutes of the way are over.
    const { access, access_level_m, access_margin_m, access_minutes } = day;
    assert.deepEqual(
      [access, access_level_m, access_margin_m, access_minutes],
      ['boat', '-0.80', '0.30', '20'],
    );
    assert.ok(curve.height_m(Date.parse(String(leave_by)) + 20 * 60_000) > -0.5, String(leave_by));
  }
});

test('the true rate is the slope of the true level, zero stands at the tidal epoch, and the sea had a highstand', () => {
  for (let age = -50; age <= 9500; age += 50) {
    const slope = (trueLevel(age - 0.5) - trueLevel(age + 0.5)) * 1000;
    assert.ok(Math.abs(slope - trueRate(age)) < 1e-5, `${age}: ${slope} and ${trueRate(age)}`);
  }
  assert.ok(Math.abs(trueLevel(1950 - 2002)) < 1e-4);
  assert.ok(trueRate(8500) > 7 && trueRate(6000) < 1.5 && trueRate(2000) < -0.1);
  assert.ok(trueLevel(4100) > 0.6);
});

test('slice by slice, the pipe takes in what the law of decaying shortening integrates to', () => {
  // E(P) = P − (1 − ρ0) ℓ (1 − e^(−P/ℓ)), computed outside the product for ρ0 0.5, ℓ 3 m: E(1.524) 0.9265, E(4.572) 3.3988 m.
  const law = { recovery_at_ground: 0.5, shortening_length_m: 3 };
  const entered = (penetration_m: number) => {
    let sum = 0;
    const slices = 2000;
    const slice = penetration_m / slices;
    for (let i = 0; i < slices; i++) sum += slice * localRecovery(law, (i + 0.5) * slice, 1);
    return sum;
  };
  assert.ok(Math.abs(entered(1.524) - 0.9265) < 5e-5);
  assert.ok(Math.abs(entered(4.572) - 3.3988) < 5e-5);
});

test('feet and inches are read back to the nearest quarter inch', () => {
  for (let mm = 0; mm < 6000; mm += 7) {
    assert.ok(Math.abs(metresOf(feet(mm / 1000)) - mm / 1000) <= 0.0254 / 8 + LENGTH_M, feet(mm / 1000));
  }
  assert.equal(feet(3.0353), '9 ft 11 1/2 in');
});
