/**
 * Each described hole of the demo taken for a planned one, its layers unknown: what is expected there against what was
 * described in it. Five holes of one coast, whose contacts go together: printed; held is that most are in their bands.
 * Invented data, from demo/.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { type CampaignDocument, parseCampaign, rowsOf, withRows } from '@stillstand/campaign/document';
import { computeCampaign, type Memo } from '@stillstand/campaign/steps';
import { openFiles } from '@stillstand/campaign/versions';
import { DEMO_SEED, demoCampaign } from '@stillstand/demo';
import { loadCurve } from '@stillstand/published/curves';

const curves = { shcal20: await loadCurve('shcal20'), marine20: await loadCurve('marine20') };
const { document } = openFiles(demoCampaign(DEMO_SEED, curves).files);
const memo: Memo = new Map();

type Cells = Record<string, string>;
function resultsOf(of: CampaignDocument) {
  const { campaign, problems } = parseCampaign(of);
  return computeCampaign(campaign, { curves }, problems, { withCurve: false, memo }).results;
}

const whole = resultsOf(document);

/** Correlations without a hole, what was one by way of it correlated itself, as before it was drilled. */
function withoutHole(hole: string): Cells[] {
  const all = rowsOf(document, 'correlations');
  const others = all.filter((row) => row['hole_a'] !== hole && row['hole_b'] !== hole);
  const ends = all.flatMap((row) =>
    row['hole_a'] === hole
      ? [{ by: row['unit_a'], hole: row['hole_b']!, unit: row['unit_b']! }]
      : row['hole_b'] === hole
        ? [{ by: row['unit_b'], hole: row['hole_a']!, unit: row['unit_a']! }]
        : [],
  );
  const across = ends.flatMap((a, i) =>
    ends
      .slice(i + 1)
      .flatMap((b): Cells[] =>
        a.by === b.by && a.hole !== b.hole
          ? [{ hole_a: a.hole, unit_a: a.unit, hole_b: b.hole, unit_b: b.unit, confidence: 'probable' }]
          : [],
      ),
  );
  return [...others, ...across.map((row, i) => ({ ...row, row_id: `across ${hole} ${i}` }))];
}

test('what is expected in each hole of the demo, against what was described in it', (t) => {
  let [held, count] = [0, 0];
  for (const { hole, units } of whole.holes) {
    if (units.length === 0) continue;
    const planned = withRows(
      withRows(
        withRows(
          document,
          'holes',
          rowsOf(document, 'holes').map((row) => (row['hole'] === hole ? { ...row, state: 'planned' } : row)),
        ),
        'units',
        rowsOf(document, 'units').filter((row) => row['hole'] !== hole),
      ),
      'correlations',
      withoutHole(hole),
    );
    const results = resultsOf(planned);
    const expectation = results.expectations.find((each) => each.hole === hole);
    assert.ok(expectation, hole);
    for (const contact of expectation.contacts) {
      // Bases that are one with this one by a correlation of the whole demo.
      const tied = new Set(contact.units.map(({ unit_row_id }) => unit_row_id));
      const own = units.find(({ row_id }) =>
        whole.correlations.some(
          ({ unit_a_row_id: a, unit_b_row_id: b }) =>
            (a === row_id && tied.has(b)) || (b === row_id && tied.has(a)),
        ),
      );
      if (own?.elevation_bottom_m == null) continue;
      const { lower95, median, upper95 } = contact.elevation_m;
      const is = own.elevation_bottom_m.value;
      const isHeld = is >= lower95 && is <= upper95;
      if (isHeld) held++;
      count++;
      t.diagnostic(
        `${hole}, base of ${own.sediment}: ${is.toFixed(2)} m; expected ${median.toFixed(2)} (${lower95.toFixed(2)} to ${upper95.toFixed(2)}), present ${contact.present.toFixed(2)}${isHeld ? '' : ', missed'}`,
      );
    }
  }
  t.diagnostic(`95 % hold ${held} of ${count}`);
  assert.ok(count >= 8 && held / count >= 0.7, `${held} of ${count}`);
});
