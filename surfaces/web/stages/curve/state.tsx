/** In the head: whether the curve that is drawn may be used, and how far a new one is. */
import { curveOf, type Results, sitesOfCurve } from '@stillstand/campaign/results';
import { type Computation, useProgress } from '../../compute/index.ts';
import { counted, Mark } from '../../parts/index.ts';
import './state.css';

/** Shape first, then word: whether what is drawn may be used. */
export function State({ results, state, isLook }: Computation) {
  const curve = (results === null ? null : curveOf(results)) ?? null;
  const counts = countsOf(results);
  const [mark, word, more] =
    curve === null
      ? state === 'final'
        ? ([null, 'No curve', counts] as const)
        : ([null, 'Computing', <SoFar key="percent" after={counts} />] as const)
      : state === 'final'
        ? curve.diagnostics.converged
          ? (['tick', 'Converged', counts] as const)
          : (['unconverged', 'Not converged', counts] as const)
        : isLook && state === 'provisional'
          ? (['unconverged', 'First look', <SoFar key="percent" before="provisional, computing" />] as const)
          : ([
              'unconverged',
              'From before',
              state === 'failed' ? (
                'the last change is not computed'
              ) : (
                <SoFar key="percent" before="the last change is being computed" />
              ),
            ] as const);
  return (
    <p
      className={mark === 'unconverged' ? 'curve-state unsure' : 'curve-state'}
      role="status"
      data-curve={state === 'final' ? 'final' : 'provisional'}
    >
      {mark === null ? null : <Mark name={mark} size={20} />}
      <span>
        <b>{word}</b> <span className="quiet">{more}</span>
      </span>
    </p>
  );
}

/** "32 points used, 2 rejected": points of other sites than the curve's by themselves. */
function countsOf(results: Results | null): string {
  const accepted = results?.points.filter((point) => point.status === 'accepted') ?? [];
  const rejected = (results?.points.length ?? 0) - accepted.length;
  const elsewhere =
    results === null || sitesOfCurve(results).length === 0
      ? 0
      : accepted.filter((point) => !sitesOfCurve(results).includes(point.site)).length;
  return [
    `${counted(accepted.length - elsewhere, 'point')} used`,
    ...(rejected > 0 ? [`${rejected} rejected`] : []),
    ...(elsewhere > 0 ? [`${elsewhere} of other sites`] : []),
  ].join(', ');
}

/** How far the curve is, among other words: drawn again by itself. */
function SoFar({ before = '', after = '' }: { before?: string; after?: string }) {
  const progress = useProgress();
  const percent = progress === null ? '' : `${Math.min(99, Math.floor(100 * progress))} %`;
  return [before, percent, after].filter((words) => words !== '').join(' ');
}
