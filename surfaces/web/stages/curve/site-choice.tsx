/** Which sites share the curve, where the accepted points are of more than one. */
import { type Results, sitesOfCurve } from '@stillstand/campaign/results';
import { useId } from 'react';
import { useStore } from '../../store/index.ts';
import './site-choice.css';

const nameOf = (site: string | null): string => site ?? 'no site';

export function SiteChoice({ results }: { results: Results }) {
  const { points } = results;
  const curve_sites = sitesOfCurve(results);
  const store = useStore();
  const id = useId();
  const accepted = points.filter((point) => point.status === 'accepted');
  const counts = [...Map.groupBy(accepted, (point) => point.site)].map(([site, of]) => ({
    site,
    points: of.length,
  }));
  if (counts.length < 2) return null;
  const isAll = curve_sites.length === counts.length;
  const current = isAll ? 'all' : curve_sites.map(nameOf).join('; ');
  const others = accepted.filter((point) => !curve_sites.includes(point.site)).length;
  const several = !isAll && curve_sites.length > 1;
  return (
    <div className="site-choice">
      <label htmlFor={id}>Sites in the curve</label>{' '}
      <select
        id={id}
        title="Two coasts have two seas: points of several sites share a curve only where you say so"
        value={current}
        disabled={store.readOnly}
        onChange={(event) => store.setSetting('curve_sites', event.target.value)}
      >
        {several ? <option value={current}>{current}</option> : null}
        {counts.map(({ site, points: n }) =>
          // A site without a name cannot be asked for by name.
          site === null && current !== nameOf(null) ? null : (
            <option key={nameOf(site)} value={nameOf(site)}>
              {nameOf(site)} ({n})
            </option>
          ),
        )}
        <option value="all">all sites together ({accepted.length})</option>
      </select>
      {others === 0 ? null : (
        <p className="quiet">
          {others} accepted {others === 1 ? 'point' : 'points'} of other sites {others === 1 ? 'is' : 'are'}{' '}
          not in this curve.
        </p>
      )}
    </div>
  );
}
