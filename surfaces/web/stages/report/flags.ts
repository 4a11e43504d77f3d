/** What a reader of the report would miss or must not trust: where it stands on the page, and where it is mended. */
import { curveOf, inNoCurve, type Results } from '@stillstand/campaign/results';
import { levelOnOnePoint } from '@stillstand/output/words';
import { square } from '@stillstand/science/base';
import { disagreeing, loneEnds, probableOutliers } from '@stillstand/science/curve';
import { counted } from '../../parts/index.ts';
import type { StageName } from '../../shell/index.ts';

export interface Flag {
  /** Id of the report's section it belongs to. */
  section: string;
  kind: 'unconverged' | 'stop' | 'close' | 'note';
  words: string;
  to: { stage: StageName; params: Readonly<Record<string, string>> } | null;
}

/** The gravest first within a section. */
export function flagsOf(results: Results): Flag[] {
  return [...found(results), ...holes(results), ...dates(results), ...points(results), ...curve(results)];
}

function found(results: Results): Flag[] {
  const { name, problems, datum, points: all } = results;
  const c = curveOf(results);
  const flags: Flag[] = [];
  const grave = problems.filter((problem) => problem.severity === 'danger' || problem.severity === 'error');
  if (c === null) {
    flags.push(
      flag(
        'found',
        'stop',
        all.length === 0 ? 'No points, so no curve' : 'No curve: no point can be used',
        'Points',
      ),
    );
  } else {
    if (!c.diagnostics.converged)
      flags.push(
        flag('found', 'unconverged', 'Not converged: bands are hatched and rates not to be used', 'Curve'),
      );
    flags.push(
      ...some(
        'found',
        'close',
        [...new Set(probableOutliers(c).map(({ id }) => id))],
        'probably outliers, and weighed so',
        'Curve',
      ),
      ...some(
        'found',
        'close',
        disagreeing(c).map(({ id }) => id),
        'contradicted by the other points',
        'Curve',
      ),
      ...loneEnds(c).map((end) => flag('found', 'note', levelOnOnePoint(end), 'Curve', { point: end.id })),
    );
    const left = inNoCurve(results);
    if (left.length > 0)
      flags.push(
        flag(
          'found',
          'close',
          `${counted(left.length, 'accepted point')} of other sites in no curve`,
          'Curve',
        ),
      );
    for (const { id, curve: other } of results.curves)
      if (other !== null && other !== c && !other.diagnostics.converged)
        flags.push(
          flag('sites', 'unconverged', `The curve of ${id} has not converged`, 'Curve', { curve: id }),
        );
  }
  if (grave.length > 0) {
    flags.push(
      flag(
        'found',
        'stop',
        `${counted(grave.length, 'problem')} left something out of the computation`,
        null,
      ),
    );
  }
  if (name === '') flags.push(flag('found', 'note', 'The campaign has no name', 'Plan'));
  if (datum.epoch === null)
    flags.push(flag('found', 'close', 'No tidal epoch: the curve is not tied to today', 'Plan'));
  return flags;
}

function holes({ holes: all }: Results): Flag[] {
  const lacking = (test: (hole: Results['holes'][number]) => boolean): string[] =>
    all.filter(test).map((hole) => hole.hole);
  const drilled = (hole: Results['holes'][number]): boolean => hole.state !== 'planned';
  return [
    ...some(
      'holes',
      'close',
      lacking((h) => h.latitude_deg === null || h.longitude_deg === null),
      'without a position: not in the section, not in GeoJSON',
      'Plan',
    ),
    ...some(
      'holes',
      'close',
      lacking((h) => drilled(h) && h.ground_elevation_m === null),
      'without a ground elevation',
      'Plan',
    ),
    ...some(
      'holes',
      'note',
      lacking((h) => drilled(h) && h.state !== 'lost' && h.units.length === 0),
      'not described: no graphic log',
      'Describe',
    ),
    ...some(
      'holes',
      'note',
      lacking((h) => h.state === 'open'),
      'still open',
      'Drill',
    ),
  ];
}

function dates({ dates: all, samples, points: claims }: Results): Flag[] {
  const claimed = new Set(claims.map((point) => point.sample));
  const silent = samples.filter((sample) => sample.dated && !claimed.has(sample.sample));
  return [
    ...some(
      'dates',
      'close',
      all.filter((d) => d.status === 'rejected' && isBlank(d.reason)).map((d) => d.lab_code),
      'rejected without a reason',
      'Date',
    ),
    ...some(
      'dates',
      'close',
      all.filter((d) => d.truncated > 0.01).map((d) => d.lab_code),
      'run past the end of the calibration curve',
      'Date',
    ),
    ...some(
      'dates',
      'note',
      silent.map((s) => s.sample),
      'dated, but make no point',
      'Points',
    ),
  ];
}

/** Above this share of its variance a point's error is more assumed than known. */
const MOSTLY = 0.5;

function points({ points: all }: Results): Flag[] {
  const mostlyAssumed = all.filter((point) => {
    const total = point.components.reduce((sum, part) => sum + square(part.sigma_m), 0);
    const assumed = point.components
      .filter((part) => part.source.startsWith('assumed'))
      .reduce((sum, part) => sum + square(part.sigma_m), 0);
    return point.status === 'accepted' && assumed > MOSTLY * total;
  });
  return [
    ...some(
      'points',
      'close',
      all.filter((p) => p.status === 'rejected' && isBlank(p.reason)).map((p) => p.point),
      'rejected without a reason',
      'Points',
    ),
    ...some(
      'points',
      'close',
      all.filter((p) => isBlank(p.indicator)).map((p) => p.point),
      'without a kind of deposit',
      'Points',
    ),
    ...some(
      'points',
      'note',
      mostlyAssumed.map((p) => p.point),
      'errors more assumed than measured',
      'Points',
    ),
  ];
}

function curve(results: Results): Flag[] {
  const c = curveOf(results);
  const { settings } = results;
  if (c === null) return [];
  const chosen = settings.some((setting) => setting.name === 'intervals' && !setting.assumed);
  return [
    ...(c.diagnostics.converged
      ? []
      : [
          flag(
            'diagnostics',
            'unconverged',
            `Not converged: ${counted(c.diagnostics.remarks.length, 'number')} named`,
            'Curve',
          ),
        ]),
    ...some(
      'diagnostics',
      'close',
      c.points.filter((p) => Math.abs(p.age_shift_sd) > 1).map((p) => p.id),
      'aged otherwise by the curve, by more than 1 sd',
      'Curve',
    ),
    ...(chosen
      ? []
      : [flag('diagnostics', 'note', 'No interval chosen: every whole millennium is reported', 'Curve')]),
  ];
}

const isBlank = (text: string | null): boolean => text === null || text.trim() === '';

function flag(
  section: string,
  kind: Flag['kind'],
  words: string,
  stage: StageName | null,
  params = {},
): Flag {
  return { section, kind, words, to: stage === null ? null : { stage, params } };
}

/** So many are named; the rest are counted. */
const NAMED = 3;

/** One flag for all that lack the same; it opens the first of them. */
function some(
  section: string,
  kind: Flag['kind'],
  names: readonly string[],
  words: string,
  stage: StageName,
): Flag[] {
  const first = names[0];
  if (first === undefined) return [];
  const rest = names.length - NAMED;
  const who = `${names.slice(0, NAMED).join(', ')}${rest > 0 ? ` and ${rest} more` : ''}`;
  const param = {
    Plan: 'hole',
    Drill: 'hole',
    Describe: 'hole',
    Date: 'date',
    Points: 'point',
    Curve: 'point',
    Report: '',
  }[stage];
  return [flag(section, kind, `${who}: ${words}`, stage, { [param]: first })];
}
