/** Ages against depth, hole by hole: what all its dates together say, and which of them does not fit. */
import type { Results } from '@stillstand/campaign/results';
import { LEAST_DATES, LEAST_WITH_GROUND } from '@stillstand/campaign/steps';
import { type AgeScaleName, placedDates } from '@stillstand/output/figures';
import { memo, useEffect, useMemo } from 'react';
import { type Computation, useAgesWanted, useComputation } from '../../../compute/index.ts';
import { datedHoles, LivingGround } from '../../../holes/index.ts';
import { Button, Field } from '../../../parts/index.ts';
import { type StageProps, useNavigate } from '../../../shell/index.ts';
import { useStore } from '../../../store/index.ts';
import { DatesList } from './dates-list.tsx';
import { datesOf, fullest } from './hole-dates.ts';
import { Picture } from './picture.tsx';
import { RemoveModel, State } from './state.tsx';
import { Undated } from './undated.tsx';
import { useBefore } from './use-before.ts';
import './depth-page.css';

export function DepthPage({ params }: StageProps) {
  const { campaign, results, state, formerAges } = useComputation();
  const holes = useMemo(() => datedHoles(results), [results]);
  const asked = params['hole'] ?? null;
  const shown = asked !== null && holes.has(asked) ? asked : fullest(holes);
  useAgesWanted(shown);
  const navigate = useNavigate();
  if (results === null) return <p role="status">Dating the samples…</p>;
  if (shown === null) {
    return (
      <p>
        No date belongs to a hole yet. <Button onClick={() => navigate('Date')}>Open dates</Button>
      </p>
    );
  }
  const isLiving = campaign?.rows.holes.find(({ hole }) => hole === shown)?.top_is_ground === true;
  return (
    <div className="against-depth">
      <nav aria-label="Holes with dates">
        {[...holes.keys()].map((name) => (
          <button
            key={name}
            type="button"
            aria-pressed={name === shown}
            onClick={() => navigate('Date', { ...params, view: 'depth', hole: name, date: '' })}
          >
            {name}
          </button>
        ))}
      </nav>
      <OfHole
        key={shown}
        params={params}
        hole={shown}
        isEnough={(holes.get(shown) ?? 0) >= (isLiving ? LEAST_WITH_GROUND : LEAST_DATES)}
        results={results}
        state={state}
        isFormer={formerAges.has(shown)}
      />
    </div>
  );
}

const AGES: Readonly<Record<AgeScaleName, string>> = {
  bp: 'cal BP',
  ce: 'years BCE and CE',
  ka: 'thousand years (ka)',
};
const isAgeScale = (word: string | undefined): word is AgeScaleName => word !== undefined && word in AGES;

const OfHole = memo(function OfHole({
  params,
  hole,
  isEnough,
  results,
  state,
  isFormer,
}: StageProps & {
  hole: string;
  isEnough: boolean;
  results: Results;
  isFormer: boolean;
} & Pick<Computation, 'state'>) {
  const store = useStore();
  const navigate = useNavigate();
  const ages = isAgeScale(params['ages']) ? params['ages'] : 'bp';
  const chosen = params['date'] || null;
  const history = results.histories.find((each) => each.hole === hole) ?? null;
  const before = useBefore(hole, history, isFormer);
  const of = results.holes.find((each) => each.hole === hole)!;
  const [rows, samples] = [store.rows('determinations'), store.rows('samples')];
  const dates = useMemo(
    () => datesOf(hole, rows, samples, results, placedDates(results, hole, history, isFormer)),
    [hole, rows, samples, results, history, isFormer],
  );
  const dated = useMemo(() => new Set(results.dates.map((date) => date.sample)), [results]);
  const go = (changed: Record<string, string>): void =>
    navigate('Date', { ...params, view: 'depth', hole, ...changed });
  useEffect(() => {
    if (chosen !== null) document.getElementById(`age-${chosen}`)?.scrollIntoView({ block: 'nearest' });
  }, [chosen]);
  const isDrawn = dates.some(({ state: drawn }) => drawn !== null);
  return (
    <>
      <div className="ages-left">
        <State
          hole={hole}
          history={history}
          isFormer={isFormer}
          before={before}
          isEnough={isEnough}
          state={state}
        />
        {isDrawn ? (
          <figure>
            <Picture
              results={results}
              hole={of}
              isFormer={isFormer}
              before={before}
              ages={ages}
              chosen={chosen}
              onChoose={(row_id) => go({ date: row_id ?? '' })}
            />
            <figcaption className="quiet">
              Press a date to see its row. Depths are below the ground. Nothing here enters the curve.
            </figcaption>
          </figure>
        ) : (
          <p>No dated sample of {hole} has a depth yet. Give its sample a depth to draw it.</p>
        )}
        <div className="ages-foot">
          <Field
            name="Ages"
            help={{
              about: 'How ages are written along the drawing: years before 1950, of the era, or in thousands',
            }}
          >
            {(input) => (
              <select {...input} value={ages} onChange={(event) => go({ ages: event.target.value })}>
                {Object.entries(AGES).map(([word, words]) => (
                  <option key={word} value={word}>
                    {words}
                  </option>
                ))}
              </select>
            )}
          </Field>
          <LivingGround hole={hole} />
          <RemoveModel hole={hole} />
        </div>
      </div>
      <div className="ages-right">
        <DatesList
          hole={hole}
          dates={dates}
          hasHistory={history !== null}
          isFormer={isFormer}
          chosen={chosen}
          onChoose={(row_id) => go({ date: row_id ?? '' })}
        />
        {history === null || isFormer ? null : <Undated history={history} dated={dated} />}
      </div>
    </>
  );
});
