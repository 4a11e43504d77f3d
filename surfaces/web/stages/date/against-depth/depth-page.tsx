/** Ages against depth, hole by hole: what all its dates together say, and which of them does not fit. */
import type { HoleHistory, Results } from '@stillstand/campaign/results';
import { LEAST_DATES } from '@stillstand/campaign/steps';
import { ageDepthFigure } from '@stillstand/output/figures';
import type { Range } from '@stillstand/science/base';
import { isProbableOutlier } from '@stillstand/science/dating';
import { memo, useMemo } from 'react';
import { type Computation, useComputation, useCurveWanted } from '../../compute/index.ts';
import { Button, Mark, printed, signed, Table } from '../../parts/index.ts';
import { type StageProps, useNavigate, useTheme } from '../../shell/index.ts';
import { useStore } from '../../store/index.ts';
import './depth-page.css';

export function DepthPage({ params }: StageProps) {
  const { results, state } = useComputation();
  useCurveWanted(true);
  return <Against hole={params['hole'] ?? null} results={results} isFinal={state === 'final'} />;
}

const Against = memo(function Against({
  hole,
  results,
  isFinal,
}: { hole: string | null; isFinal: boolean } & Pick<Computation, 'results'>) {
  const navigate = useNavigate();
  const { theme } = useTheme();
  const holes = useMemo(() => datedHoles(results), [results]);
  const shown = hole !== null && holes.has(hole) ? hole : fullest(holes);
  const svg = useMemo(
    () =>
      results === null || shown === null
        ? ''
        : withoutStyle(ageDepthFigure(results, shown, { theme, caption: false }).svg),
    [results, shown, theme],
  );
  if (results === null) return <p role="status">Dating the samples…</p>;
  if (shown === null) {
    return (
      <p>
        No dated sample has a depth in a hole yet.{' '}
        <Button onClick={() => navigate('Date')}>Back to the dates</Button>
      </p>
    );
  }
  const rows = new Map(results.dates.map((date) => [date.lab_code, date.row_id]));
  const dated = new Set(results.dates.map((date) => date.sample));
  const model = results.histories.find((each) => each.hole === shown) ?? null;
  return (
    <div className="against-depth">
      <nav aria-label="Holes with dates">
        {[...holes.keys()].map((name) => (
          <button
            key={name}
            type="button"
            aria-pressed={name === shown}
            onClick={() => navigate('Date', { view: 'depth', hole: name })}
          >
            {name}
          </button>
        ))}
      </nav>
      {/* Our own drawing, made of results alone: nothing typed stands in it but labels, which it escapes. */}
      <figure
        role="img"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: on a narrow screen it is scrolled by the keyboard too
        tabIndex={0}
        aria-label={words(shown, model)}
        // biome-ignore lint/security/noDangerouslySetInnerHtml: the figure is our own SVG, its text escaped by React
        dangerouslySetInnerHTML={{ __html: svg }}
      />
      <p className="sideways quiet">The drawing goes on to the right: move it sideways.</p>
      <p className="quiet">
        Densities are drawn at the depths of their samples.
        {model === null
          ? ''
          : ' The band is the age at each depth from all dates of the hole together; any one date may be out of place. Nothing of it enters the curve.'}
      </p>
      <Wanted
        hole={shown}
        isEnough={(holes.get(shown) ?? 0) >= LEAST_DATES}
        isDone={model !== null}
        isFinal={isFinal}
      />
      {model === null ? null : (
        <>
          <DatesTogether model={model} rows={rows} />
          <Undated model={model} dated={dated} />
        </>
      )}
    </div>
  );
});

/** Ages between the dates take some seconds a hole: they are modelled where somebody asks, and kept in the settings. */
function Wanted({
  hole,
  isEnough,
  isDone,
  isFinal,
}: {
  hole: string;
  isEnough: boolean;
  isDone: boolean;
  isFinal: boolean;
}) {
  const store = useStore();
  const asked = (store.setting('age_depth') ?? '')
    .split(';')
    .map((name) => name.trim())
    .filter((name) => name !== '');
  const isAsked = asked.includes(hole);
  const set = (names: readonly string[]): void => store.setSetting('age_depth', names.join('; '));
  if (isAsked && !isDone) {
    return (
      <p role="status">
        {isFinal
          ? 'No age is modelled between them: it takes three dates in use, at known depths.'
          : 'Ages between the dates are being computed, with the curve: some seconds a hole.'}
      </p>
    );
  }
  if (!isEnough && !isAsked) return <p>Ages between dates take three dates in use, at known depths.</p>;
  if (store.readOnly) return null;
  return isAsked ? (
    <Button onClick={() => set(asked.filter((name) => name !== hole))}>Remove model</Button>
  ) : (
    <Button kind="main" onClick={() => set([...asked, hole])}>
      Model the ages between them
    </Button>
  );
}

/** The page sets its figures tabular already, and refuses styles written into elements. */
const withoutStyle = (svg: string): string => svg.replace(/ style="[^"]*"/g, '');

/** Holes with dated samples of known depth, in the campaign's order, and how many of their dates are in use. */
function datedHoles(results: Results | null): ReadonlyMap<string, number> {
  const holes = new Map<string, number>();
  if (results === null) return holes;
  const placed = new Set(results.samples.flatMap((s) => (s.depth_m === null ? [] : [s.sample])));
  for (const { hole } of results.holes) {
    const dates = results.dates.filter((d) => d.hole === hole && placed.has(d.sample));
    if (dates.length > 0) holes.set(hole, dates.filter((d) => d.status === 'accepted').length);
  }
  return holes;
}

/** The hole with most dates: there is most to see. */
const fullest = (holes: ReadonlyMap<string, number>): string | null =>
  [...holes].sort((a, b) => b[1] - a[1])[0]?.[0] ?? null;

const words = (hole: string, model: HoleHistory | null): string =>
  `Ages against depth in ${hole}${model === null ? '' : `; the tables below say the same in numbers`}`;

const AGE = [
  { name: 'age of the layer', unit: 'cal BP', number: true },
  { name: '95 %', number: true },
];

function Ages({ age }: { age: Range }) {
  return (
    <>
      <td className="number">{printed(age.median, 0)}</td>
      <td className="number quiet">
        {printed(age.upper95, 0)} to {printed(age.lower95, 0)}
      </td>
    </>
  );
}

const unsettled = ({ diagnostics }: HoleHistory): string =>
  diagnostics.converged ? '' : ' (not converged: not to be used)';

function DatesTogether({ model, rows }: { model: HoleHistory; rows: ReadonlyMap<string, string> }) {
  const navigate = useNavigate();
  return (
    <Table
      caption={`Each date among the others${unsettled(model)}`}
      columns={[
        { name: 'date' },
        ...AGE,
        { name: 'moved', unit: 'sd', number: true },
        { name: 'out of place', number: true },
      ]}
    >
      {model.clocks.map((date) => (
        <tr key={date.id}>
          <th scope="row">
            <button type="button" onClick={() => navigate('Date', { row: rows.get(date.id) ?? '' })}>
              {date.id}
            </button>
          </th>
          <Ages age={date.age_cal_bp} />
          <td className="number">{signed(date.age_shift_sd, 1)}</td>
          <td className="number">
            {isProbableOutlier(date) ? (
              <>
                <Mark name="close" size={16} /> likely,{' '}
              </>
            ) : null}
            {date.outlier_probability < 0.005 ? 'below 0.01' : printed(date.outlier_probability, 2)}
          </td>
        </tr>
      ))}
    </Table>
  );
}

/** What nobody dated has the age of its depth. */
function Undated({ model, dated }: { model: HoleHistory; dated: ReadonlySet<string> }) {
  const undated = model.samples.filter(({ sample }) => !dated.has(sample));
  if (undated.length === 0) return null;
  return (
    <Table caption={`Samples without a date${unsettled(model)}`} columns={[{ name: 'sample' }, ...AGE]}>
      {undated.map(({ sample, age_cal_bp }) => (
        <tr key={sample}>
          <th scope="row">{sample}</th>
          <Ages age={age_cal_bp} />
        </tr>
      ))}
    </Table>
  );
}
