/** What a line needs before it can be drawn through time: ages against depth of its holes, modelled by one press. */
import type { Results, SectionResult } from '@stillstand/campaign/results';
import { LEAST_DATES, LEAST_WITH_GROUND } from '@stillstand/campaign/steps';
import { type Computation, useAgesProgress, useAgesWanted, useComputation } from '../../../compute/index.ts';
import { datedHoles, useModelledHoles } from '../../../holes/index.ts';
import { Button, counted } from '../../../parts/index.ts';

/** Holes of the line with dates enough, as `age_depth` would name them, and those it names already. */
export function useAgesOfLine(results: Results, section: SectionResult | null) {
  const { asked, set, isReadOnly } = useModelledHoles();
  const { campaign } = useComputation();
  const dated = datedHoles(results);
  const living = new Set(
    campaign?.rows.holes.filter(({ top_is_ground }) => top_is_ground === true).map(({ hole }) => hole),
  );
  const labels = section?.holes.map(({ hole }) => hole) ?? [];
  const enough = labels.filter(
    (hole) => (dated.get(hole) ?? 0) >= (living.has(hole) ? LEAST_WITH_GROUND : LEAST_DATES),
  );
  return {
    labels,
    /** Asked for, whether or not they are computed. */
    asked: labels.filter((hole) => asked.includes(hole)),
    /** With dates enough, not asked for. */
    left: enough.filter((hole) => !asked.includes(hole)),
    tooFew: labels.filter((hole) => !enough.includes(hole)),
    ask: (holes: readonly string[]) => set([...asked, ...holes]),
    isReadOnly,
  };
}

type Ages = ReturnType<typeof useAgesOfLine>;

/** Where no hole of the line has ages against depth. */
export function NoAges({ ages, state }: { ages: Ages; state: Computation['state'] }) {
  const isComputing = ages.asked.length > 0 && state !== 'final' && state !== 'failed';
  useAgesWanted(ages.asked[0] ?? null);
  if (ages.labels.length === 0)
    return <p>No section line has a hole with a place and a levelled ground yet.</p>;
  return (
    <div className="no-ages" data-ages={isComputing ? 'computing' : 'none'}>
      {isComputing ? (
        <p role="status">
          Ages against depth of {ages.asked.join(', ')} are computed until their chains agree. <SoFar />
        </p>
      ) : (
        <p>
          No hole of this line has ages against depth. They say when each environment stood, so the line can
          be drawn through time.
        </p>
      )}
      {ages.asked.length > 0 && state === 'failed' ? (
        <p role="status">The computation stopped before the ages were modelled.</p>
      ) : null}
      {ages.asked.length > 0 && state === 'final' ? (
        <p role="status">No age is modelled in {ages.asked.join(', ')}: too few of their dates are in use.</p>
      ) : null}
      <ModelAges ages={ages} />
      {ages.left.length === 0 && ages.asked.length === 0 ? (
        <p>
          Ages take three dates in use at known depths in a hole, two in one that begins at the living ground:
          too few in {ages.tooFew.join(', ')}.
        </p>
      ) : null}
    </div>
  );
}

/** Models all that can be, by one press. */
export function ModelAges({ ages }: { ages: Ages }) {
  if (ages.left.length === 0 || ages.isReadOnly) return null;
  return (
    <p className="model-ages">
      <Button kind={ages.asked.length === 0 ? 'main' : 'bare'} onClick={() => ages.ask(ages.left)}>
        Model ages of {ages.left.join(', ')}
      </Button>{' '}
      <span className="quiet">
        It takes a minute or more for {counted(Math.max(5, ages.left.length), 'hole')}. Undo takes it back.
      </span>
    </p>
  );
}

/** How far they are. Not read out at every per cent. */
export function SoFar() {
  const progress = useAgesProgress();
  return (
    <span aria-hidden="true">
      {progress === null
        ? ''
        : `${progress.holes.join(', ')}: ${Math.min(99, Math.floor(100 * progress.share))} %`}
    </span>
  );
}
