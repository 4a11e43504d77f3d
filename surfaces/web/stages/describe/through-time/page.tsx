/** A section line through time: what stood where and when, read at any age, and what the holes still need for it. */
import type { Results } from '@stillstand/campaign/results';
import { notConvergedHoles, THROUGH_TIME_ASSUMES } from '@stillstand/output/words';
import { useState } from 'react';
import { useComputation } from '../../../compute/index.ts';
import { Plate } from '../../../parts/index.ts';
import { ModelAges, NoAges, SoFar, useAgesOfLine } from './model-ages.tsx';
import { Picture } from './picture.tsx';
import { ThroughTimeSettings } from './settings.tsx';
import { Passages, Stood } from './tables.tsx';
import './through-time.css';

export function ThroughTimePage({ results }: { results: Results }) {
  const { state } = useComputation();
  const [chosen, setChosen] = useState<string | null>(null);
  const section = results.sections.find((each) => each.row_id === chosen) ?? results.sections[0] ?? null;
  const line = results.lines_through_time.find(({ row_id }) => row_id === section?.row_id) ?? null;
  const ages = useAgesOfLine(results, section);
  const open = notConvergedHoles(results).filter((hole) => ages.labels.includes(hole));
  const without = ages.labels.filter((hole) => !results.environments.some((each) => each.hole === hole));
  const isComputing = state !== 'final' && state !== 'failed';
  return (
    <div className="through-time">
      <div className="through-choice">
        <label>
          Section line{' '}
          <select
            aria-label="Section line"
            title="Which line is shown through time"
            value={section?.row_id ?? ''}
            onChange={(event) => setChosen(event.target.value === '' ? null : event.target.value)}
          >
            {results.sections.map(({ line: name, row_id }) => (
              <option key={row_id} value={row_id ?? ''}>
                {name ?? 'all holes'}
              </option>
            ))}
          </select>
        </label>
        <ThroughTimeSettings results={results} />
      </div>
      {line === null ? (
        <NoAges ages={ages} state={state} />
      ) : (
        <>
          {open.length === 0 ? null : (
            <Plate state="caution" word="Not converged">
              <p>
                The chains do not agree on the ages of {open.join(', ')}. Do not use what is drawn of them.
              </p>
            </Plate>
          )}
          {isComputing ? (
            <p role="status" className="quiet">
              A newer state is being computed. <SoFar />
            </p>
          ) : null}
          <Picture key={line.row_id} results={results} line={line} />
          {without.length === 0 ? null : (
            <p className="quiet">Left out, without ages against depth: {without.join(', ')}.</p>
          )}
          <ModelAges ages={ages} />
          <div className="through-tables">
            <Passages results={results} line={line} />
            <Stood line={line} />
          </div>
          <p className="quiet">{THROUGH_TIME_ASSUMES.join(' ')}</p>
        </>
      )}
    </div>
  );
}
