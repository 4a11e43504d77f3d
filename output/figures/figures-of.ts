/** All the figures of a campaign, in the order of the job. */
import { curveOf, type Results } from '@stillstand/campaign/results';
import { datedHoles } from './across/layout.ts';
import { ageDepthFigure } from './age-depth-figure.tsx';
import { agesAcrossFigure } from './ages-across-figure.tsx';
import { lanesOf } from './column/laboratory.ts';
import { graphicLog, withoutRoom } from './column-figure.tsx';
import { curveFigures } from './curve-figure.tsx';
import { datesFigure } from './dates-figure.tsx';
import { environmentsFigures } from './environments-figure.tsx';
import { errorBudgetFigure } from './error-budget-figure.tsx';
import { fenceFigure, whyNoFence } from './fence-figure.tsx';
import type { Figure, FigureOptions } from './figure.tsx';
import { grainSizeFigure, hasGrainSizes } from './grain-size-figure.tsx';
import { laboratoryFigure } from './laboratory-figure.tsx';
import { leadProfileFigure } from './lead-profile-figure.tsx';
import { hasLocation, locationFigure } from './location-figure.tsx';
import { penetrationFigure } from './penetration-figure.tsx';
import { hasPlate } from './plate/layout.ts';
import { plateFigure } from './plate-figure.tsx';
import { recoveryFigure } from './recovery-figure.tsx';
import { registrationFigure } from './registration-figure.tsx';
import { sectionFigures } from './section-figure.tsx';

/** Error budgets are drawn of so many points, the most influential; every point's stands in the tables. */
const BUDGETS = 5;

/** Every figure the results have matter for; each name is fit for a file, and no two are one on any disk. */
export function figuresOf(results: Results, options: FigureOptions): Figure[] {
  const holes = results.holes.filter((hole) => hole.units.length > 0);
  const strings = results.holes.filter((hole) => hole.method === 'string' && hole.drives.length > 0);
  const influence = new Map(curveOf(results)?.points.map((point) => [point.id, point.influence]));
  const points = results.points
    .filter((point) => point.status === 'accepted' && point.kind === 'index')
    .sort((a, b) => (influence.get(b.point) ?? 0) - (influence.get(a.point) ?? 0))
    .slice(0, BUDGETS);
  return withOwnNames([
    ...holes.map((hole) => graphicLog(results, hole.hole, options)),
    ...results.holes.flatMap(({ hole, units }) =>
      lanesOf(results, hole).length > 0 && (units.length === 0 || withoutRoom(results, hole, options) > 0)
        ? [laboratoryFigure(results, hole, options)]
        : [],
    ),
    ...results.holes.flatMap(({ hole }) =>
      hasGrainSizes(results, hole) ? [grainSizeFigure(results, hole, options)] : [],
    ),
    ...(holes.length > 0 ? sectionFigures(results, options) : []),
    ...(whyNoFence(results) === null ? [fenceFigure(results, options)] : []),
    ...environmentsFigures(results, options),
    ...strings.flatMap(({ hole }) => [
      registrationFigure(results, hole, options),
      recoveryFigure(results, hole, options),
      penetrationFigure(results, hole, options),
    ]),
    ...(results.dates.length > 0 ? [datesFigure(results, options)] : []),
    ...(datedHoles(results).length > 1 ? [agesAcrossFigure(results, options)] : []),
    ...results.lead_profiles.map(({ profile }) => leadProfileFigure(results, profile, options)),
    ...results.histories.map(({ hole }) => ageDepthFigure(results, hole, options)),
    ...(results.points.length > 0 ? curveFigures(results, options) : []),
    ...points.map((point) => errorBudgetFigure(results, point.point, options)),
    ...(hasLocation(results) ? [locationFigure(results, options)] : []),
    ...(hasPlate(results) ? [plateFigure(results, options)] : []),
  ]);
}

/** Far below the longest name a disk takes (255 bytes), with room for a number and the kind of file. */
const LONGEST_NAME = 100;

/** Two labels may have one plain name (Ä1 and Ö1 are both 1), and some disks take T1 and t1 for one. */
function withOwnNames(figures: readonly Figure[]): Figure[] {
  const taken = new Set<string>();
  return figures.map((figure) => {
    const plain = figure.name.slice(0, LONGEST_NAME);
    let name = plain;
    for (let n = 2; taken.has(name.toLowerCase()); n++) name = `${plain}-${n}`;
    taken.add(name.toLowerCase());
    return name === figure.name ? figure : { ...figure, name };
  });
}
