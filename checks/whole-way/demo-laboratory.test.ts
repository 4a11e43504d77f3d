/** The demo's laboratory slices against the truth they were made from: values, parts, and depths with their 95 %. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { parseCampaign } from '@stillstand/campaign/document';
import { traceId } from '@stillstand/campaign/results';
import { computeCampaign } from '@stillstand/campaign/steps';
import { openFiles } from '@stillstand/campaign/versions';
import { DEMO_SEED, demoCampaign } from '@stillstand/demo';
import { loadCurve } from '@stillstand/published/curves';

const curves = { shcal20: await loadCurve('shcal20'), marine20: await loadCurve('marine20') };

function computed(seed: number) {
  const { files, truth } = demoCampaign(seed, curves);
  const { document } = openFiles(files);
  const { campaign, problems } = parseCampaign(document);
  const { results } = computeCampaign(campaign, { curves }, problems, { withCurve: false });
  return { results, truth };
}

const SEEDS = [DEMO_SEED, ...Array.from({ length: 11 }, (_, i) => i + 1)];

test('loss on ignition and density are off by their errors; the 95 % of their depths hold the truth', (t) => {
  let [squares, values, held, depths] = [0, 0, 0, 0];
  for (const seed of SEEDS) {
    const { results, truth } = computed(seed);
    const points = new Map(results.logs.flatMap(({ points }) => points.map((point) => [point.trace, point])));
    for (const { row_id, depth_m, value } of truth.laboratory) {
      const point = points.get(traceId.measurement(row_id));
      if (point === undefined) continue;
      const { lower95, upper95 } = point.depth_m;
      depths += 1;
      if (depth_m >= lower95 && depth_m <= upper95) held += 1;
      if (point.qualifier !== null || point.sigma === null) continue;
      squares += ((point.value! - value) / point.sigma) ** 2;
      values += 1;
    }
  }
  t.diagnostic(`mean square ${(squares / values).toFixed(3)} of ${values} values`);
  t.diagnostic(`${held} of ${depths} depths in their 95 %: ${(held / depths).toFixed(3)}`);
  // Values are written to 0.1 and 0.01, a tenth to a third of their sigma; limits take the low ones away.
  assert.ok(Math.abs(squares / values - 1) < 4 * Math.sqrt(2 / values), `${squares / values}`);
  assert.ok(held / depths >= 0.9, `${held / depths}`);
});

test('sand of each analysis is the true one, and layers have the names of what they are', (t) => {
  let [squares, count] = [0, 0];
  for (const seed of SEEDS) {
    const { results, truth } = computed(seed);
    const true_percent = new Map(truth.laboratory.map(({ row_id, value }) => [row_id, value]));
    for (const { classes, sand_percent, name, sum_percent } of results.grain_sizes) {
      assert.ok(Math.abs(sum_percent! - 100) < 0.5, `${sum_percent}`);
      const sand = classes
        .filter(
          ({ coarser_phi, finer_phi }) =>
            coarser_phi !== null && coarser_phi > -1.1 && (finer_phi ?? 9) < 4.1,
        )
        .reduce((sum, { row_id }) => sum + true_percent.get(row_id)!, 0);
      squares += (sand_percent! - sand) ** 2;
      count += 1;
      assert.match(name!, sand > 90 ? /sand$|gravel$/ : /./);
    }
    assert.deepEqual(
      results.problems.filter(({ code }) => code.startsWith('grain-size') || code === 'impossible-value'),
      [],
    );
  }
  const rms = Math.sqrt(squares / count);
  t.diagnostic(`sand off by ${rms.toFixed(2)} % (rms) in ${count} analyses`);
  // Four classes of 0.4 % each, made parts of their own sum.
  assert.ok(rms < 1.2, `${rms}`);
});
