import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { SAFETY_QUESTIONS } from '../safety/questions.ts';
import { riskOpen, riskProblems, risksFromCautions } from './risks.ts';
import { WORKING_HAZARDS } from './working-hazards.ts';

type Cells = Record<string, string>;

const campaignOf = (risks: Cells[]) =>
  parseCampaign(
    withRows(
      newDocument('risks'),
      'risks',
      risks.map((cells, i) => ({ row_id: `r${i}`, ...cells })),
    ),
  ).campaign;

test('every caution that can hurt someone gives a row, once, with what is done about it', () => {
  const rows = risksFromCautions([]);
  const dangers = SAFETY_QUESTIONS.filter(({ no }) => no === 'danger');
  assert.equal(rows.length, dangers.length + WORKING_HAZARDS.length);
  const lines = rows.find(({ check }) => check === 'overhead')!;
  assert.equal(lines.hazard, 'Overhead line within reach of the mast');
  assert.match(lines.control, /^Mast clear of overhead lines: .* If not: Lower the mast/);
  assert.equal(new Set(rows.map(({ hazard }) => hazard)).size, rows.length);
  for (const { control } of rows) assert.notEqual(control, '');
  // Pressed again it adds nothing; a row the crew renamed is known by its check.
  assert.deepEqual(risksFromCautions(rows), []);
  const renamed = rows.map((row) => (row.check === 'overhead' ? { ...row, hazard: 'Power line' } : row));
  assert.deepEqual(risksFromCautions(renamed), []);
});

test('a risk that stays high is a danger of the campaign; an incomplete one says what is missing', () => {
  const campaign = campaignOf([
    { hazard: 'Soft ground', control: 'pole', controlled_by: 'driller', residual: 'high' },
    { hazard: 'Cold', control: 'clothing', controlled_by: 'all', residual: 'low' },
    { hazard: 'Noise' },
  ]);
  assert.deepEqual(
    riskProblems(campaign).map((p) => [p.severity, p.label, p.found]),
    [['danger', 'Soft ground', 'high']],
  );
  assert.deepEqual(campaign.rows.risks.map(riskOpen), [
    null,
    null,
    'not entered: what is done about it, who sees to it, what risk is left',
  ]);
});
