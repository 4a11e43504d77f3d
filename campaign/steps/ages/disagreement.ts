/** What the dates of a hole say against each other: single ones out of place, many of them, two histories that remain possible; and whether its
 * numbers can be used. */
import type { Campaign } from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import type { HoleHistory } from '@stillstand/campaign/results';
import { datesApart, isProbableOutlier } from '@stillstand/science/dating';

/** Of so many dates one out of place is nothing unusual; common practice, no source. */
const OF_DATES = 4;

export const disagreements = (campaign: Campaign, result: HoleHistory): Problem[] => [
  ...outOfPlace(campaign, result),
  ...manyOutOfPlace(result),
  ...twoHistories(result),
  ...notConverged(result),
];

function outOfPlace(campaign: Campaign, { hole, clocks }: HoleHistory): Problem[] {
  return clocks.filter(isProbableOutlier).flatMap(({ id: lab_code, outlier_probability, age_cal_bp }) => {
    const row = campaign.rows.determinations.find((r) => r.lab_code === lab_code)!;
    return [
      problem({
        severity: 'note',
        code: 'date-outlier',
        table: 'determinations',
        row_id: row.row_id,
        line: campaign.lines.get(row.row_id) ?? null,
        label: lab_code,
        column: 'value',
        found: `a date more likely out of place than not in ${hole} (probability ${outlier_probability.toFixed(2)})`,
        expected: `about ${Math.round(age_cal_bp.median)} cal BP from all dates of the hole (95 % ${Math.round(age_cal_bp.upper95)} to ${Math.round(age_cal_bp.lower95)})`,
        fix: 'Look at the sample; nothing was left out of the curve for it.',
      }),
    ];
  });
}

function manyOutOfPlace({ hole, clocks }: HoleHistory): Problem[] {
  const doubted = clocks.filter(isProbableOutlier);
  if (doubted.length < 2 || doubted.length * OF_DATES < clocks.length) return [];
  return [
    problem({
      severity: 'warning',
      code: 'dates-disagree',
      table: 'determinations',
      label: hole,
      found: `${doubted.length} of ${clocks.length} dates of ${hole} more likely out of place than not`,
      expected: 'dates that agree with each other but for one now and then',
      fix: `The ages of this hole rest on the others alone. Look for what ${namesOf(doubted)} have in common (old carbon, reworking, exchanged labels) before you use them.`,
    }),
  ];
}

function twoHistories({ hole, modes }: HoleHistory): Problem[] {
  const [likelier, other] = modes;
  if (likelier === undefined || other === undefined) return [];
  const apart = datesApart(modes.map(({ clocks }) => clocks));
  const by =
    apart.length > 0
      ? `whether ${apart.join(', ')} date their layers`
      : 'the years that its dates are read as';
  const probabilities = [likelier, other].map(({ probability }) => probability.toFixed(2)).join(' and ');
  return [
    problem({
      severity: 'warning',
      code: 'two-histories',
      table: 'determinations',
      label: hole,
      found: `two histories of ${hole} possible, ${probabilities} probable`,
      expected: 'one history that all dates agree with',
      fix: `They differ in ${by}. Ages of the hole hold both. Another date between may decide; reject one only for what is seen in its sample.`,
    }),
  ];
}

const notConverged = ({ hole, diagnostics }: HoleHistory): Problem[] =>
  diagnostics.converged
    ? []
    : [
        problem({
          severity: 'warning',
          code: 'ages-not-converged',
          table: 'determinations',
          label: hole,
          found: `ages of ${hole} against depth have not converged after ${diagnostics.sweeps} sweeps`,
          expected: 'R-hat below 1.01 and at least 400 effective draws of every number',
          fix: 'Do not use them, nor what is made of them: points by depth, environments, lines of one age. Another date, or what was seen in a sample that is out of place, may decide between its histories.',
        }),
      ];

const namesOf = (clocks: HoleHistory['clocks']): string => clocks.map(({ id }) => id).join(', ');
