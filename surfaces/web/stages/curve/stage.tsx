/** Curve: sea level above, its rate below, and beside them the rate of a chosen interval and how sensitive it is. */
import './curve.css';
import { curveLookedAt, MAIN_CURVE, seenFrom } from '@stillstand/campaign/results';
import { useMemo } from 'react';
import { useComputation } from '../../compute/index.ts';
import { Button, Plate } from '../../parts/index.ts';
import { HeadAside, type StageProps, useNavigate } from '../../shell/index.ts';
import { Shown } from './shown.tsx';
import { State } from './state.tsx';

export function Stage({ params }: StageProps) {
  const computation = useComputation();
  const { state } = computation;
  const of = params['curve'] ?? MAIN_CURVE;
  const all = computation.results;
  const results = useMemo(() => (all === null ? null : seenFrom(all, of)), [all, of]);
  return (
    <>
      <HeadAside>
        <State {...computation} results={results} />
      </HeadAside>
      {results === null ? (
        <p role="status">
          {state === 'failed' ? 'Nothing is computed yet.' : 'Computing holes, dates and points.'}
        </p>
      ) : results.points.length === 0 ? (
        <NoPoints />
      ) : (
        // Another curve has an interval, a choice and a before of its own.
        <Shown
          key={curveLookedAt(results)}
          results={results}
          computation={computation}
          isFinal={state === 'final'}
          params={params}
        />
      )}
    </>
  );
}

function NoPoints() {
  const navigate = useNavigate();
  return (
    <Plate word="No points yet">
      <p>A curve goes through points: dated samples with a claim on the sea.</p>
      <p>
        <Button kind="main" onClick={() => navigate('Points')}>
          Make a point
        </Button>
      </p>
    </Plate>
  );
}
