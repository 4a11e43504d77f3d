/** Which curve is shown, which sites share one, and which is the curve of the report, where there are several sites. */
import { curveLookedAt, inNoCurve, type Results, siteName, sitesNamed } from '@stillstand/campaign/results';
import { useId } from 'react';
import { counted } from '../../parts/index.ts';
import { useNavigate } from '../../shell/index.ts';
import { useStore } from '../../store/index.ts';
import './sites-and-curves.css';

export function SitesAndCurves({ results }: { results: Results }) {
  const store = useStore();
  const accepted = results.points.filter((point) => point.status === 'accepted');
  const sites = [...Map.groupBy(accepted, (point) => point.site)].map(([site, { length }]) => ({
    site,
    points: length,
  }));
  if (sites.length < 2) return null;
  const left = inNoCurve(results);
  return (
    <div className="sites-and-curves">
      {results.curves.length < 2 ? null : <Shown results={results} />}
      {left.length === 0 ? null : (
        <p className="quiet">
          {counted(left.length, 'accepted point')} of {sitesNamed(left.map(({ site }) => site))}{' '}
          {left.length === 1 ? 'is' : 'are'} in no curve: a site needs two index points, or a curve named
          here.
        </p>
      )}
      <details>
        <summary>Sites and their curves</summary>
        <ul>
          {sites.map(({ site, points }) => (
            <li key={site}>
              <span>
                {siteName(site)} <span className="quiet">({counted(points, 'point')})</span>
              </span>
              {site === null ? null : <CurveOf site={site} />}
            </li>
          ))}
        </ul>
        <OfTheReport sites={sites} isReadOnly={store.readOnly} />
      </details>
    </div>
  );
}

function Shown({ results }: { results: Results }) {
  const navigate = useNavigate();
  const id = useId();
  return (
    <p>
      <label htmlFor={id}>Curve shown</label>{' '}
      <select
        id={id}
        title="Each curve is of its own sites; the report has them all, that of the report first"
        value={curveLookedAt(results) ?? ''}
        onChange={(event) => navigate('Curve', { curve: event.target.value })}
      >
        {results.curves.map(({ id: curve, sites }, i) => (
          <option key={curve} value={curve}>
            {sitesNamed(sites) === curve || i === 0 ? sitesNamed(sites) : `${curve}: ${sitesNamed(sites)}`}
            {i === 0 ? ', of the report' : ''}
          </option>
        ))}
      </select>
    </p>
  );
}

/** With which others a site shares a curve. */
function CurveOf({ site }: { site: string }) {
  const store = useStore();
  const rows = store.rows('sites').map(({ row_id, cells }) => ({
    row_id,
    site: cells['site']?.trim() ?? '',
    curve: cells['curve']?.trim() ?? '',
  }));
  const own = rows.find((row) => row.site === site);
  if (own === undefined) return null;
  const others = rows.flatMap((row) => (row.site === site ? [] : [row.curve === '' ? row.site : row.curve]));
  const choices = [...new Set([...others, own.curve])].filter((label) => label !== '' && label !== site);
  return (
    <select
      aria-label={`Curve of ${site}`}
      title="Two coasts have two seas: points of several sites share a curve only where you say so"
      value={own.curve === site ? '' : own.curve}
      disabled={store.readOnly}
      onChange={(event) => store.editRow('sites', own.row_id, { curve: event.target.value })}
    >
      <option value="">a curve of its own</option>
      {choices.map((label) => (
        <option key={label} value={label}>
          {rows.some((row) => row.site === label) ? `together with ${label}` : `curve ${label}`}
        </option>
      ))}
    </select>
  );
}

function OfTheReport({
  sites,
  isReadOnly,
}: {
  sites: readonly { site: string | null; points: number }[];
  isReadOnly: boolean;
}) {
  const store = useStore();
  const id = useId();
  const asked = store.setting('curve_sites')?.trim() ?? '';
  const choices = ['', ...sites.flatMap(({ site }) => site ?? []), 'all'];
  const words = (choice: string): string =>
    choice === ''
      ? 'the one with most index points'
      : choice === 'all'
        ? 'one curve of all sites'
        : `of ${choice}`;
  return (
    <p>
      <label htmlFor={id}>Curve of the report</label>{' '}
      <select
        id={id}
        title="Stands first in the report and is held against other curves; the others follow it"
        value={asked}
        disabled={isReadOnly}
        onChange={(event) => store.setSetting('curve_sites', event.target.value)}
      >
        {choices.includes(asked) ? null : <option value={asked}>of {asked}</option>}
        {choices.map((choice) => (
          <option key={choice} value={choice}>
            {words(choice)}
          </option>
        ))}
      </select>
    </p>
  );
}
