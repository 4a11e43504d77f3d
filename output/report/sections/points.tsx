/** Index and limiting points, each with its error budget: parts laid end to end by their share of the variance. */

import {
  curveOf,
  type ErrorComponent,
  type PointResult,
  type Results,
  traceId,
} from '@stillstand/campaign/results';
import { decimalsFor, printed, range, sharedThrough, signed, years } from '@stillstand/output/words';
import { square } from '@stillstand/science/base';
import { ConvergedCell, ConvergedHead } from '../marks.tsx';
import { partSigma2, pointSigma2 } from '../point-error.ts';
import { each, PartName, ValueCells, words } from '../quantity.tsx';
import { From } from '../where/from.tsx';

const BOUND: Record<PointResult['kind'], string> = {
  index: '',
  terrestrial: 'below ',
  marine: 'above ',
};

export function Points({ results }: { results: Results }) {
  const { points } = results;
  if (points.length === 0)
    return (
      <>
        <p>No sample makes a claim on the sea.</p>
        <Published results={results} />
      </>
    );
  const groups = lettersOf(points);
  return (
    <>
      <p className="lede q">
        Sea level is sample elevation less reference water level. Its ± has all parts of the error together,
        as the curve, the figures and the app have it: an even range of half width h counts 1.15 h. (The
        community protocol counts h, Hijma et al. 2015; Khan et al. 2019; points.csv has both.) Under each
        point its parts, longest first: bars by share of the variance, numbers at 2 sd in metres. A letter
        marks an error shared with the other points that carry it.
      </p>
      <table className="grouped">
        <thead>
          <tr>
            <th>point</th>
            <th>kind</th>
            <th>dated by</th>
            <th className="n">age, cal BP</th>
            <th className="n">95 %</th>
            <th className="n">elevation, m</th>
            <th className="n">reference, m</th>
            <th className="n">range, m</th>
            <th className="n" colSpan={2}>
              sea level, m
            </th>
          </tr>
        </thead>
        {each(points, (point) => (
          <Point point={point} groups={groups} />
        ))}
      </table>
      <Groups groups={groups} results={results} />
      <Published results={results} />
    </>
  );
}

/** Of the literature: by source, how many and of what age; each stands in the table. */
function Published({ results: { published } }: { results: Results }) {
  if (published.length === 0) return null;
  return (
    <>
      <h3>Published points</h3>
      <table style={{ maxWidth: '150mm' }}>
        <thead>
          <tr>
            <th>source</th>
            <th>site</th>
            <th className="n">index</th>
            <th className="n">limiting</th>
            <th className="n">median ages, cal BP</th>
            <th className="n">sea level or limit, m</th>
          </tr>
        </thead>
        <tbody>
          {each(
            [...Map.groupBy(published, ({ source, site }) => JSON.stringify([source, site])).values()],
            (of) => {
              const ages = of.map(({ age }) => age.median_cal_bp);
              const levels = of.map(({ rsl_m }) => rsl_m);
              const index = of.filter(({ kind }) => kind === 'index').length;
              return (
                <tr>
                  <td>{of[0]!.source}</td>
                  <td>{of[0]!.site}</td>
                  <td className="n">{printed(index, 0)}</td>
                  <td className="n">{printed(of.length - index, 0)}</td>
                  <td className="n">{range(Math.max(...ages), Math.min(...ages), 0, printed)}</td>
                  <td className="n">{range(Math.min(...levels), Math.max(...levels), 1)}</td>
                </tr>
              );
            },
          )}
        </tbody>
      </table>
      <p className="q">
        On the datum of the campaign; drawn with the curve, and in none of the numbers. Each point in
        published_points.csv.
      </p>
    </>
  );
}

function Point({ point, groups }: { point: PointResult; groups: ReadonlyMap<string, string> }) {
  const sigma2 = pointSigma2(point);
  const decimals = Math.min(2, decimalsFor(sigma2, 2));
  return (
    <tbody className={point.status}>
      <tr>
        <td className="id">{point.point}</td>
        <td className="nb">{kindOf(point)}</td>
        <td className="nb">{point.lab_code ?? ''}</td>
        <td className="n">
          <From id={point.lab_code === null ? null : traceId.date(point.lab_code)}>
            {years(point.age.median_cal_bp)}
          </From>
        </td>
        <td className="n">
          {years(point.age.older95_cal_bp)} to {years(point.age.younger95_cal_bp)}
        </td>
        <td className="n">
          <From id={traceId.sample(point.sample).elevation}>{signed(point.elevation_m, decimals)}</From>
        </td>
        <td className="n">
          <From id={traceId.point(point.point).referenceWaterLevel}>
            {signed(point.reference_water_level_m, decimals)}
          </From>
        </td>
        <td className="n">{printed(point.indicative_range_m, decimals)}</td>
        <SeaLevel point={point} sigma2={sigma2} />
      </tr>
      {depositOf(point) !== '' || point.status === 'rejected' || point.components.length > 0 ? (
        <tr className="more">
          <td />
          <td colSpan={9}>
            <div>
              {depositOf(point)}
              {point.status === 'rejected' ? `. Rejected: ${point.reason ?? 'no reason given'}.` : ''}
            </div>
            <Budget parts={point.components} groups={groups} />
          </td>
        </tr>
      ) : null}
    </tbody>
  );
}

function SeaLevel({ point, sigma2 }: { point: PointResult; sigma2: number }) {
  const id = traceId.point(point.point).rsl;
  if (point.kind === 'index') return <ValueCells value={point.rsl_m} twoSigma={sigma2} from={id} />;
  return (
    <>
      <td className="n">
        {BOUND[point.kind]}
        <From id={id}>{signed(point.rsl_m, 2)}</From>
      </td>
      <td className="pm">±{printed(sigma2, 2)}</td>
    </>
  );
}

function kindOf(point: PointResult): string {
  return point.kind === 'index' ? 'index' : `${point.kind} limiting`;
}

/** What the deposit is and what lies below it: "high marsh peat, base of basal". */
function depositOf(point: PointResult): string {
  const parts = [point.indicator, point.kind === 'index' ? point.position : null];
  return parts
    .filter((part) => part !== null && part !== '')
    .map((part) => words(part!))
    .join(', ');
}

/** The black and white of a staff: a length can be counted without reading. */
function Budget({
  parts,
  groups,
}: {
  parts: readonly ErrorComponent[];
  groups: ReadonlyMap<string, string>;
}) {
  if (parts.length === 0) return null;
  const longest = [...parts].sort((a, b) => partSigma2(b) - partSigma2(a));
  const total = longest.reduce((sum, part) => sum + square(partSigma2(part)), 0);
  return (
    <div className="parts">
      <div className="budget">
        {each(longest, (part) => (
          <i style={{ width: `${total > 0 ? ((100 * square(partSigma2(part))) / total).toFixed(2) : 0}%` }} />
        ))}
      </div>
      <p>
        {each(longest, (part, i) => (
          <>
            {i === 0 ? '' : ' · '}
            <span>
              <PartName part={part} />{' '}
              <b>{printed(partSigma2(part), Math.min(3, decimalsFor(partSigma2(part), 2)))}</b>
              {part.shared_group === null ? '' : <sup>{groups.get(part.shared_group)}</sup>}
            </span>
          </>
        ))}
      </p>
    </div>
  );
}

/** A letter for every group of points that share an error: a, b … z, aa, ab … */
function lettersOf(points: readonly PointResult[]): ReadonlyMap<string, string> {
  const letters = new Map<string, string>();
  for (const point of points) {
    for (const { shared_group } of point.components) {
      if (shared_group !== null && !letters.has(shared_group))
        letters.set(shared_group, letter(letters.size));
    }
  }
  return letters;
}

function letter(index: number): string {
  const last = String.fromCodePoint(97 + (index % 26));
  return index < 26 ? last : letter(Math.floor(index / 26) - 1) + last;
}

/** The groups by name, with what the curve made of each. */
function Groups({ groups, results }: { groups: ReadonlyMap<string, string>; results: Results }) {
  if (groups.size === 0) return null;
  const converged = curveOf(results)?.diagnostics.converged ?? true;
  const through = new Map(
    results.points.flatMap(({ components }) =>
      components.map((part) => [part.shared_group ?? '', sharedThrough(part)] as const),
    ),
  );
  const inCurve = new Map(curveOf(results)?.groups.map((group) => [group.group, group]));
  return (
    <>
      <h3>Shared errors</h3>
      <table style={{ maxWidth: '120mm' }}>
        <thead>
          <tr>
            <th>letter</th>
            <th>shared through</th>
            <th className="n">before the curve, m (2 sd)</th>
            <th className="n" colSpan={2}>
              shift found by the curve, m
            </th>
            <ConvergedHead converged={converged} />
          </tr>
        </thead>
        <tbody>
          {each([...groups], ([group, mark]) => {
            const found = inCurve.get(group);
            return (
              <tr>
                <td>{mark}</td>
                <td>{through.get(group) ?? group}</td>
                <td className="n">{found === undefined ? '' : `±${printed(2 * found.sigma_m, 3)}`}</td>
                {found === undefined ? (
                  <>
                    <td />
                    <td />
                    {converged ? null : <td />}
                  </>
                ) : (
                  <>
                    <td className="n">{signed(found.shift_m.mean, 3)}</td>
                    <td className="pm">±{printed(2 * found.shift_m.sd, 3)}</td>
                    <ConvergedCell converged={converged} />
                  </>
                )}
              </tr>
            );
          })}
        </tbody>
      </table>
    </>
  );
}
