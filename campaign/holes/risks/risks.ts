/**
 * The risk assessment: hazards, what is done about each, and what risk is left. It starts from the tool's own safety
 * questions and is the crew's from then on. A licensed person and local codes decide; nothing here allows any work.
 */
import type { Campaign } from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import type { Row } from '@stillstand/campaign/tables';
import { SAFETY_QUESTIONS } from '../safety/questions.ts';
import { WORKING_HAZARDS } from './working-hazards.ts';

type RiskCells = Readonly<Record<'hazard' | 'check' | 'who' | 'control', string>>;

/** Read with every risk sheet. */
export const RISK_CAUTION =
  'A starting point only. Local codes, the permits and the makers’ manuals take precedence; a competent, where the law asks for it licensed, person checks this sheet at the place.';

/** A row for each of the tool's cautions that no row is about yet; what was written is left as it is. */
export function risksFromCautions(rows: readonly Pick<Row<'risks'>, 'hazard' | 'check'>[]): RiskCells[] {
  const known = new Set(rows.flatMap(({ hazard, check }) => [check?.trim(), hazard.trim().toLowerCase()]));
  const asked = SAFETY_QUESTIONS.filter(({ no }) => no === 'danger').map(
    ({ check, hazard, question, why, act }): RiskCells => ({
      hazard,
      check,
      who: 'crew',
      control: `${question}: ${why}. If not: ${act}`,
    }),
  );
  return [...asked, ...WORKING_HAZARDS.map((risk) => ({ ...risk, check: '' }))].filter(
    ({ hazard, check }) => !known.has(hazard.toLowerCase()) && (check === '' || !known.has(check)),
  );
}

/** What is left to enter about a risk, as typed or as read; null where it is complete. */
export function riskOpen(risk: Readonly<Partial<Record<keyof typeof NEEDED, string | null>>>): string | null {
  const missing = (Object.keys(NEEDED) as (keyof typeof NEEDED)[]).filter(
    (column) => (risk[column] ?? '').trim() === '',
  );
  return missing.length === 0 ? null : `not entered: ${missing.map((column) => NEEDED[column]).join(', ')}`;
}

const NEEDED = {
  control: 'what is done about it',
  controlled_by: 'who sees to it',
  residual: 'what risk is left',
} as const;

export const isHigh = ({ residual }: { readonly residual?: string | null }): boolean =>
  residual?.trim() === 'high';

/** Said of a risk that stays high. */
export const HIGH_RISK_ACT = 'Do not start this work. Find another control, or leave the work out.';

/** Each risk that stays high as a danger of the campaign. */
export const riskProblems = ({ rows, lines }: Pick<Campaign, 'rows' | 'lines'>): Problem[] =>
  rows.risks.filter(isHigh).map(({ row_id, hazard }) =>
    problem({
      severity: 'danger',
      code: 'risk-high',
      table: 'risks',
      row_id,
      line: lines.get(row_id) ?? null,
      label: hazard,
      column: 'residual',
      found: 'high',
      expected: 'low or medium with its controls',
      fix: HIGH_RISK_ACT,
    }),
  );
