/** All points, of the campaign and of the literature; of many, those that what was typed finds. */
import type { Results } from '@stillstand/campaign/results';
import { useState } from 'react';
import { Field } from '../../parts/index.ts';
import { useStore } from '../../store/index.ts';
import { isFound, LONG_LIST } from './find-point.ts';
import { type ListedPoint, PointList } from './point-list.tsx';
import { PublishedList } from './published-list.tsx';

export function AllPoints({
  points,
  current,
  results,
  onChoose,
}: {
  points: readonly ListedPoint[];
  current: string | null;
  results: Results | null;
  onChoose: (label: string) => void;
}) {
  const store = useStore();
  const [typed, setTyped] = useState('');
  const found = points.filter(({ label, result }) =>
    isFound(typed, [label, result?.sample, result?.lab_code, result?.hole, result?.site]),
  );
  const published = store
    .rows('compiled_points')
    .filter(({ cells }) => (cells['point']?.trim() ?? '') !== '');
  const shown = published.filter(({ cells }) =>
    isFound(typed, [cells['point'], cells['source'], cells['site']]),
  );
  return (
    <div className="all-points">
      {points.length + published.length <= LONG_LIST ? null : (
        <Field
          name="Find a point"
          help={{
            about: 'Part of its name, sample, laboratory code, hole, site or source; several words narrow it',
          }}
        >
          {(input) => (
            <input
              {...input}
              type="search"
              autoComplete="off"
              value={typed}
              onChange={(event) => setTyped(event.target.value)}
            />
          )}
        </Field>
      )}
      <div className="lists">
        {found.length + shown.length === 0 && typed !== '' ? (
          <p role="status">No point has “{typed.trim()}” in its name, sample, code, hole, site or source.</p>
        ) : null}
        <PointList isComputed={results !== null} points={found} current={current} onChoose={onChoose} />
        <PublishedList rows={shown} results={results} />
      </div>
    </div>
  );
}
