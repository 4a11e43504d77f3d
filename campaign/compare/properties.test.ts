/** What holds for any edit of a campaign: nothing changed against itself, mirrored the other way round, applied whole. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { type CampaignDocument, parseCampaign } from '@stillstand/campaign/document';
import { computeCampaign } from '@stillstand/campaign/steps';
import fc from 'fast-check';
import { type Cells, documentOf, THREE_LEVELS } from '../steps/sea/fixtures/three-levels.ts';
import { type Computed, compareComputations } from './compare.ts';
import { rowChanges, withChanges } from './row-changes.ts';

const SEED = 20_261_129;
const RUNS = 60;

/** Some rows edited in one column, some gone, some twice under another label. */
const edited = (table: string, label: string, column: string) =>
  fc
    .tuple(
      fc.array(fc.constantFrom('', 'x', '0', '0.1', '0.4', '55', '1234', '-2.5'), {
        minLength: 3,
        maxLength: 3,
      }),
      fc.array(fc.boolean(), { minLength: 3, maxLength: 3 }),
      fc.boolean(),
    )
    .map(([cells, edits, isLonger]): readonly Cells[] => {
      const rows = THREE_LEVELS[table]!.flatMap((row, i): Cells[] => {
        const cell = cells[i]!;
        if (!edits[i]) return [row];
        return cell === 'x' ? [] : [{ ...row, [column]: cell }];
      });
      return isLonger ? [...rows, { ...THREE_LEVELS[table]![0]!, [label]: 'new' }] : rows;
    });

const documents: fc.Arbitrary<CampaignDocument> = fc
  .record({
    samples: edited('samples', 'sample', 'elevation_sigma_m'),
    determinations: edited('determinations', 'lab_code', 'error'),
    points: edited('points', 'point', 'status'),
  })
  // Rows of their own identity: of those that state none, the labels.
  .map((tables) => {
    const of = documentOf('Three', {});
    const whole = documentOf('Three', { ...THREE_LEVELS, ...tables });
    const withLabels = [...whole.tables].map(([name, table]) => {
      const place = table.columns.indexOf('row_id');
      if (!(name in tables)) return [name, table] as const;
      const rows = table.rows.map((row) => ({ ...row, cells: row.cells.with(place, '') }));
      return [name, { ...table, rows }] as const;
    });
    return { ...of, tables: new Map(withLabels) };
  });

function computed(document: CampaignDocument): Computed {
  const { campaign, problems } = parseCampaign(document);
  const computation = computeCampaign(campaign, { curves: {} }, problems, { withCurve: false });
  return { results: computation.results, from: { document, campaign, computation } };
}

test(`any campaign with itself has no change (seed ${SEED})`, () => {
  const same = (document: CampaignDocument): void => {
    const { changes, rows, rounded } = compareComputations(computed(document), computed(document));
    assert.deepEqual([changes, rows, rounded], [[], [], 0]);
  };
  fc.assert(fc.property(documents, same), { seed: SEED, numRuns: RUNS });
});

test(`any two campaigns the other way round are mirrored (seed ${SEED})`, () => {
  const swapped = { added: 'removed', removed: 'added', changed: 'changed' } as const;
  const mirrored = (one: CampaignDocument, other: CampaignDocument): void => {
    const [a, b] = [computed(one), computed(other)];
    const [there, back] = [compareComputations(a, b), compareComputations(b, a)];
    const said = ({ changes }: typeof there, isBack: boolean) =>
      changes
        .map(({ key, old, now, difference, in_sigma, rows }) => ({
          key,
          sides: isBack ? [now, old] : [old, now],
          // No −0 where nothing moved.
          moved: [difference, in_sigma].map((x) => (x === null ? null : 0 + (isBack ? -x : x))),
          rows: rows.map(({ row_id }) => row_id).sort(),
        }))
        .sort((x, y) => (x.key < y.key ? -1 : 1));
    assert.deepEqual(said(back, true), said(there, false));
    assert.deepEqual(
      back.rows!.map(({ row_id, change }) => `${row_id} ${swapped[change]}`).sort(),
      there.rows!.map(({ row_id, change }) => `${row_id} ${change}`).sort(),
    );
  };
  fc.assert(fc.property(documents, documents, mirrored), { seed: SEED, numRuns: RUNS });
});

test(`all changes applied to the old campaign give the new one (seed ${SEED})`, () => {
  const applied = (one: CampaignDocument, other: CampaignDocument): void => {
    assert.deepEqual(rowChanges(withChanges(one, rowChanges(one, other)), other), []);
  };
  fc.assert(fc.property(documents, documents, applied), { seed: SEED, numRuns: RUNS });
});

test(`a number changed where a changed row is under it, for any edit of points, dates and samples (seed ${SEED})`, () => {
  const explained = (one: CampaignDocument, other: CampaignDocument): void => {
    for (const { cause, name } of compareComputations(computed(one), computed(other)).changes)
      assert.equal(cause, 'rows', name);
  };
  fc.assert(fc.property(documents, documents, explained), { seed: SEED, numRuns: RUNS });
});
