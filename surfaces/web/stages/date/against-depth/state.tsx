/** Whether the history that is drawn counts, how far a new one is, and what the last change did. */
import type { HoleHistory } from '@stillstand/campaign/results';
import { twoHistories } from '@stillstand/output/figures';
import { sharedErrorInWords } from '@stillstand/output/words';
import { type Computation, useAgesProgress } from '../../../compute/index.ts';
import { useModelledHoles } from '../../../holes/index.ts';
import { Button, counted, Mark, Plate } from '../../../parts/index.ts';
import { changeOf } from './change.ts';
import { changeInWords } from './change-words.ts';

interface Props extends Pick<Computation, 'state'> {
  hole: string;
  history: HoleHistory | null;
  /** Of the dates before the last change. */
  isFormer: boolean;
  before: HoleHistory | null;
  /** Whether the hole has dates enough. */
  isEnough: boolean;
}

/** The holes whose ages are modelled, as the settings name them. */
function useAsked(hole: string) {
  const { asked, set, isReadOnly } = useModelledHoles();
  return {
    isAsked: asked.includes(hole),
    ask: () => set([...asked, hole]),
    remove: () => set(asked.filter((name) => name !== hole)),
    isReadOnly,
  };
}

export function State({ hole, history, isFormer, before, isEnough, state }: Props) {
  const { isAsked, ask, isReadOnly } = useAsked(hole);
  return (
    <div className="ages-state" data-ages={stateOf(history, isFormer, isAsked, state)}>
      {history === null ? (
        <NoHistory hole={hole} isAsked={isAsked} isEnough={isEnough} state={state} />
      ) : isFormer ? (
        <Former hole={hole} state={state} isEnough={isEnough} />
      ) : (
        <Settled history={history} before={before} />
      )}
      {isReadOnly || isAsked || !isEnough ? null : (
        <Button kind="main" onClick={ask}>
          Model ages
        </Button>
      )}
    </div>
  );
}

export function RemoveModel({ hole }: { hole: string }) {
  const { isAsked, remove, isReadOnly } = useAsked(hole);
  return isAsked && !isReadOnly ? <Button onClick={remove}>Remove model</Button> : null;
}

/** For whoever waits for a state of the page. */
function stateOf(
  history: HoleHistory | null,
  isFormer: boolean,
  isAsked: boolean,
  state: Computation['state'],
): 'none' | 'computing' | 'former' | 'new' {
  if (history !== null) return isFormer ? 'former' : 'new';
  return isAsked && state !== 'final' && state !== 'failed' ? 'computing' : 'none';
}

function NoHistory({
  hole,
  isAsked,
  isEnough,
  state,
}: { isAsked: boolean } & Pick<Props, 'hole' | 'isEnough' | 'state'>) {
  if (!isEnough)
    return (
      <p>
        Ages between the dates take three dates in use at known depths; two in a hole that begins at the
        living ground.
      </p>
    );
  if (!isAsked) return <p>The dates are drawn alone. Ages between them are modelled on request.</p>;
  if (state === 'failed') return <p role="status">The computation stopped before the ages were modelled.</p>;
  if (state === 'final')
    return <p role="status">No age is modelled: too few dates are in use that date their layers.</p>;
  return (
    <p role="status">
      Ages between the dates are computed until the chains agree. <SoFar hole={hole} />
    </p>
  );
}

function Former({ hole, state, isEnough }: Pick<Props, 'hole' | 'state' | 'isEnough'>) {
  return (
    <p role="status" className="former">
      <Mark name="old" size={20} />
      <span>
        <b>Former dates.</b> The history is drawn light: it is of the dates before the last change.{' '}
        {state === 'failed' ? (
          'The computation stopped before the new one.'
        ) : isEnough ? (
          <>
            A new one is computed until its chains agree. <SoFar hole={hole} />
          </>
        ) : (
          'Too few dates are in use now, so it is removed.'
        )}
      </span>
    </p>
  );
}

/** How far the ages of the hole are, or those of another that came before. Not read out at every per cent. */
function SoFar({ hole }: { hole: string }) {
  const ages = useAgesProgress();
  const percent = (share: number): string => `${Math.min(99, Math.floor(100 * share))} %`;
  const words =
    ages === null
      ? ''
      : ages.holes.includes(hole)
        ? `${percent(ages.share)}${ages.holes.length > 1 ? ` of ${ages.holes.join(', ')} together` : ''}`
        : `Those of ${ages.holes.join(', ')} come first: ${percent(ages.share)}`;
  return <span aria-hidden="true">{words}</span>;
}

function Settled({ history, before }: { history: HoleHistory; before: HoleHistory | null }) {
  const { converged, remarks } = history.diagnostics;
  return (
    <>
      {converged ? (
        <p role="status" className="settled">
          <Mark name="tick" size={20} /> <b>Converged</b>{' '}
          <span className="quiet">
            {counted(history.clocks.length, 'date')}
            {history.profiles.length > 0 ? ` and lead-210 of ${history.profiles.join(', ')}` : ''} together
          </span>
        </p>
      ) : (
        <Plate state="caution" word="Not converged">
          <p>The chains of the computation do not agree on this history. Do not use its ages.</p>
          <p>
            Mostly some dates contradict each other, or can be read in two ways. Look at the dates in doubt
            first; one more date between them settles it best.
          </p>
          <ul className="remarks">
            {remarks.slice(0, 4).map((remark) => (
              <li key={remark}>{remark}</li>
            ))}
            {remarks.length > 4 ? <li>and {remarks.length - 4} more</li> : null}
          </ul>
        </Plate>
      )}
      {history.shared.map((error) => (
        <p key={error.group} className="quiet" data-shared={error.group}>
          {sharedErrorInWords(history.hole, error)}.
        </p>
      ))}
      {history.modes.length < 2 ? null : (
        <Plate state="caution" word="Two histories">
          <p>
            {twoHistories(history)}. Both are drawn: bold the likelier, dashed the other. The ages in the list
            are of both together.
          </p>
          <p>Look at the samples of these dates; one more date where the two lie apart decides best.</p>
        </Plate>
      )}
      {before === null ? null : (
        <p role="status" className="changed-ages">
          Since the last change: {changeInWords(changeOf(before, history))}{' '}
          <span className="quiet">The light line is the history before it.</span>
        </p>
      )}
    </>
  );
}
