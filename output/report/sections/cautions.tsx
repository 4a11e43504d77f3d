/** What a reader must not take from these numbers, and what could hurt someone. Only what applies is said. */
import { isAssumed, type Results, sitesNamed } from '@stillstand/campaign/results';
import { Caution, Danger } from '../marks.tsx';
import { each } from '../quantity.tsx';
import { isCut } from './dates.tsx';

export function Cautions({ results }: { results: Results }) {
  return (
    <ul className="cautions">
      {each(standingNos(results), ({ isDanger, text }) => (
        <li className={isDanger ? 'danger' : ''}>
          {isDanger ? <Danger /> : <Caution />}
          <span>{text}</span>
        </li>
      ))}
      {each(cautions(results), (text) => (
        <li>
          <Caution />
          <span>{text}</span>
        </li>
      ))}
    </ul>
  );
}

/** Safety questions answered no and never otherwise, by hole or day: a danger while work goes on there. */
function standingNos({ problems }: Results): { isDanger: boolean; text: string }[] {
  return problems
    .filter((problem) => problem.code === 'safety-no')
    .map(({ severity, label, found, fix }) => ({
      isDanger: severity === 'danger',
      text: `${severity === 'danger' ? 'Danger: safety' : 'Safety'} question of ${label ?? 'the campaign'} answered ${found}. ${fix}`,
    }));
}

function cautions(results: Results): string[] {
  const { points, dates, holes, problems } = results;
  const unsettled = results.curves.filter((each) => each.curve?.diagnostics.converged === false);
  const accepted = points.filter((point) => point.status === 'accepted');
  const intercalated = accepted.filter((point) => point.position === 'intercalated').length;
  const assumed = accepted.filter((point) => point.components.some(isAssumed)).length;
  const marine = dates.filter((date) => date.curve?.toLowerCase() === 'marine20').length;
  const cut = dates.filter(isCut).length;
  const left = holes.filter((hole) => hole.left_in_ground !== null && hole.left_in_ground !== '').length;
  const errors = problems.filter((problem) => problem.severity === 'error').length;
  const texts: [boolean, string][] = [
    [
      unsettled.length > 0,
      `${results.curves.length < 2 ? 'The curve has not converged. Its' : `Not converged: the curve of ${unsettled.map(({ sites }) => sitesNamed(sites)).join(', and that of ')}. Its`} numbers are shown so that the fault can be found, not to be quoted.`,
    ],
    [
      errors > 0,
      `Cells or rows that could not be used: ${errors}. What depends on them is missing here, and nothing was put in its place.`,
    ],
    [
      intercalated > 0,
      `Intercalated points: ${intercalated} of ${accepted.length}. What lies below such a point may have settled; unless a lowering was declared, sea level from it is too low. Compare the rates without them.`,
    ],
    [
      assumed > 0,
      `Points with error parts that were not measured: ${assumed} of ${accepted.length}. These parts are marked; measure them rather than trust them.`,
    ],
    [
      marine > 0,
      'A reservoir offset holds for one water mass and was itself measured at other times; one tied to an older marine curve must not be used with Marine20, and Marine20 is not for polar seas (Heaton et al. 2020).',
    ],
    [
      cut > 0,
      `Dates that run past the end of the calibration curve: ${cut}. They are cut off there, so their true ages may lie beyond.`,
    ],
    [
      accepted.length > 0,
      'Tide levels are today’s. If the tidal range at this coast was another in the past, reference water levels were too. Movement of the land is not taken off: this is sea level relative to this coast.',
    ],
    [
      left > 0,
      `Holes with pipe or gear left in the ground: ${left}. Mark the places, and inform whoever digs or anchors there.`,
    ],
    [
      holes.length > 0,
      'This report gives advice only; it does not authorise any operation. Before anyone drills again on these figures: have a competent person check line, sheaves and derrick against their rated loads, locate buried and overhead services, follow local codes, permits and the equipment’s own manual, work with at least one other person, and be off the flat when the tide turns.',
    ],
  ];
  return texts.filter(([applies]) => applies).map(([, text]) => text);
}
