/** A prediction (isostasy, land motion) that a curve is looked at without. */
import { type Problem, problem } from '@stillstand/campaign/problems';
import { range, signed, years } from '@stillstand/output/words';
import { type CurveResult, isAnswer, lessPrediction, type PublishedCurve } from '@stillstand/science/curve';
import type { Command, Words } from './command.ts';
import { readLevels } from './levels-table.ts';
import { print, sayTable } from './say.ts';

export const TAKE_OFF_OPTIONS: Command['options'] = {
  'take-off': {
    type: 'string',
    value: 'FILE',
    about: 'a prediction age_cal_bp, level_m, sd_m: its part of RSL; questions are then about what remains',
  },
};

interface Prediction {
  /** Null where none was asked for. */
  name: string | null;
  curve: PublishedCurve | null;
  problems: readonly Problem[];
}

/** Before anything is computed, as every file. */
export async function readTakeOff(words: Words): Promise<Prediction> {
  const path = words.text('take-off');
  return path === undefined ? { name: null, curve: null, problems: [] } : await readLevels(path);
}

/** What questions are asked of: the curve, or what remains of it; null where the prediction cannot be used. */
export function takeOff(
  curve: CurveResult,
  { name, curve: prediction, problems: found }: Prediction,
): { asked: CurveResult | null; problems: Problem[] } {
  if (name === null) return { asked: curve, problems: [] };
  const problems = [...found];
  const remains = prediction === null ? null : lessPrediction(curve, prediction);
  if (remains !== null && isAnswer(remains)) return { asked: remains, problems };
  problems.push(
    problem({
      severity: 'error',
      code: 'nothing-taken-off',
      table: name,
      found: remains === null ? 'no row that can be used' : remains.found,
      expected: remains === null ? 'rows with age_cal_bp and level_m' : remains.expected,
      fix: 'Correct the table. Nothing is subtracted, and the questions are not answered.',
    }),
  );
  return { asked: null, problems };
}

/** What remains, at each age. */
export function sayRemaining(
  { ages_cal_bp, level_m, rate_mm_yr, intervals, diagnostics }: CurveResult,
  name: string,
): void {
  const unsettled = diagnostics.converged ? [] : ['NOT CONVERGED'];
  print(`Less ${name}; its error is one for all ages. Questions are about what remains:`);
  sayTable([
    ['cal BP', 'remaining, m', '95 %', 'rate, mm/yr', '95 %', ...unsettled.map(() => '')],
    ...Array.from(ages_cal_bp, (age, i) => [
      years(age),
      signed(level_m.median[i]!, 2),
      range(level_m.lower95[i]!, level_m.upper95[i]!, 2),
      signed(rate_mm_yr.median[i]!, 2),
      range(rate_mm_yr.lower95[i]!, rate_mm_yr.upper95[i]!, 2),
      ...unsettled,
    ]),
  ]);
  for (const { older_cal_bp, younger_cal_bp, rate_mm_yr: rate } of intervals)
    print(
      `${older_cal_bp} to ${younger_cal_bp} cal BP, remaining: ${signed(rate.median, 2)} mm/yr (95 % ${range(rate.lower95, rate.upper95, 2)})${unsettled.map((word) => ` (${word})`).join('')}`,
    );
}
