/** Points: one sample's claim on the sea at a time, how it comes about and what it is worth. */
import type { Campaign } from '@stillstand/campaign/document';
import { type PointResult, type Results, traceId } from '@stillstand/campaign/results';
import { useCallback, useMemo, useState } from 'react';
import { useComputation } from '../../compute/index.ts';
import { ImportPage } from '../../import/index.ts';
import { Button, counted, Mark, Plate, printed, Quantity, Sheet, signed, Traced } from '../../parts/index.ts';
import { type StageProps, useNavigate, useOpenRow } from '../../shell/index.ts';
import { type DocRow, useStore } from '../../store/index.ts';
import { AllPoints } from './all-points.tsx';
import { MeaningFields, Standing } from './meaning-fields.tsx';
import { NewPoint, samplesWithout } from './new-point.tsx';
import type { ListedPoint } from './point-list.tsx';
import './points.css';
import { useClaim } from '../../claim/index.ts';
import { Slide } from './slide/slide.tsx';

export function Stage({ params }: StageProps) {
  const store = useStore();
  const { results, campaign } = useComputation();
  const navigate = useNavigate();
  const [isMaking, setMaking] = useState(false);
  const [isListing, setListing] = useState(false);
  const rows = store.rows('points').filter((row) => labelOf(row) !== '');
  const byRow = useMemo(() => new Map(results?.points.map((point) => [point.row_id, point])), [results]);
  const listed: ListedPoint[] = rows.map((row) => ({
    label: labelOf(row),
    result: byRow.get(row.row_id) ?? null,
  }));
  const chosen = rows.findIndex((row) => isAsked(row, params, store.rows('point_errors')));
  const at = chosen === -1 ? 0 : chosen;
  const row = rows[at];
  const choose = useCallback(
    (label: string): void => {
      setListing(false);
      navigate('Points', { point: label });
    },
    [navigate],
  );
  if (params['view'] === 'import') return <ImportPage onDone={() => navigate('Points')} />;
  const waiting = results === null ? 0 : samplesWithout(results, store).length;
  const make = store.readOnly ? null : (
    <>
      <Button mark="open" onClick={() => navigate('Points', { view: 'import' })}>
        Import a table
      </Button>
      <Button mark="plus" onClick={() => setMaking(true)} disabled={results === null}>
        New point{waiting > 0 ? `, ${counted(waiting, 'sample')} waiting` : ''}
      </Button>
    </>
  );
  return (
    <div className="points">
      <nav className="all" aria-label="All points">
        {make}
        <AllPoints
          points={listed}
          current={row === undefined ? null : labelOf(row)}
          results={results}
          onChoose={choose}
        />
      </nav>
      <div className="walk">
        <Button
          kind="bare"
          mark="up"
          aria-label="Point before"
          disabled={at === 0}
          onClick={() => choose(labelOf(rows[at - 1]!))}
        />
        <Button aria-haspopup="dialog" onClick={() => setListing(true)}>
          {row === undefined ? 'No points' : `${labelOf(row)}, ${at + 1} of ${rows.length}`}
        </Button>
        <Button
          kind="bare"
          mark="down"
          aria-label="Point after"
          disabled={at >= rows.length - 1}
          onClick={() => choose(labelOf(rows[at + 1]!))}
        />
        {make}
      </div>
      {row === undefined ? (
        <div className="none">
          <h2>No points yet</h2>
          <p>
            A point is what one dated sample says of the sea: that it stood at a height, below one, or above
            one.
            {waiting > 0 ? ` ${counted(waiting, 'dated sample')} can make one.` : ' Date a sample first.'}
          </p>
        </div>
      ) : (
        <OnePoint
          key={row.row_id}
          row={row}
          point={byRow.get(row.row_id) ?? null}
          results={results}
          campaign={campaign}
        />
      )}
      {isListing ? (
        <Sheet title={counted(rows.length, 'point')} onClose={() => setListing(false)}>
          <AllPoints
            points={listed}
            current={row === undefined ? null : labelOf(row)}
            results={results}
            onChoose={choose}
          />
        </Sheet>
      ) : null}
      {isMaking && results !== null ? (
        <NewPoint
          results={results}
          onClose={() => setMaking(false)}
          onMade={(label) => {
            setMaking(false);
            choose(label);
          }}
        />
      ) : null}
    </div>
  );
}

const labelOf = (row: DocRow): string => row.cells['point']?.trim() ?? '';

/** Whether the address asks for this point: by its label, its row, or the row of one of its errors. */
function isAsked(row: DocRow, params: StageProps['params'], errors: readonly DocRow[]): boolean {
  if (params['point'] !== undefined) return labelOf(row) === params['point'];
  if (params['table'] === 'points') return row.row_id === params['row'];
  if (params['table'] !== 'point_errors') return false;
  const error = errors.find((each) => each.row_id === params['row']);
  return error?.cells['point']?.trim() === labelOf(row);
}

function OnePoint({
  row,
  point,
  results,
  campaign,
}: {
  row: DocRow;
  point: PointResult | null;
  results: Results | null;
  campaign: Campaign | null;
}) {
  const { problems } = useComputation();
  const openRow = useOpenRow();
  const navigate = useNavigate();
  const own = problems.filter((problem) => problem.row_id === row.row_id);
  return (
    <article className="one-point" aria-label={`Point ${labelOf(row)}`}>
      <header>
        <h2>{labelOf(row)}</h2>
        <Words row={row} point={point} results={results} />
      </header>
      {point === null || results === null || campaign === null ? (
        <NotMade
          isComputed={results !== null}
          isByDepth={row.cells['age_from']?.trim() === 'age_depth'}
          problems={own}
        />
      ) : (
        <Shown key={point.point} row={row} point={point} results={results} campaign={campaign} />
      )}
      <Standing row={row} />
      <MeaningFields row={row} />
      <p className="acts">
        <Button mark="open" onClick={() => openRow({ table: 'points', row_id: row.row_id })}>
          All fields, note, delete
        </Button>
        <Button mark="on" onClick={() => navigate('Curve', { point: labelOf(row) })}>
          See it on the curve
        </Button>
      </p>
    </article>
  );
}

function Words({ row, point, results }: { row: DocRow; point: PointResult | null; results: Results | null }) {
  const sample = row.cells['sample'] ?? '';
  if (point === null) return <p className="quiet">Sample {sample}</p>;
  const { older95_cal_bp: older, younger95_cal_bp: younger, median_cal_bp: median } = point.age;
  return (
    <p className="quiet">
      Sample {sample}
      {point.hole === null ? '' : `, hole ${point.hole}`}
      {point.lab_code === null ? (
        ''
      ) : (
        <>
          ;{' '}
          <Traced id={dateOf(row, point, point.lab_code, results)}>
            {printed(median, 0)} cal BP ({printed(older, 0)} to {printed(younger, 0)})
          </Traced>{' '}
          {point.by_depth ? (
            'by its depth'
          ) : (
            <>
              by <span className="code">{point.lab_code}</span>
              {row.cells['age_from']?.trim() === 'age_depth' ? ' for now' : ''}
            </>
          )}
        </>
      )}
    </p>
  );
}

/** Depths, events and pooled dates have ages of their own, under their names; every other age is that of a date or of two. */
function dateOf(row: DocRow, point: PointResult, code: string, results: Results | null) {
  if (point.by_depth) return traceId.date(`${point.sample} by depth`);
  const source = row.cells['age_from']?.trim();
  if (results?.dates.some(({ lab_code }) => lab_code === code)) return traceId.date(code);
  if (source === 'event') return traceId.event(code);
  return source === 'pooled' ? traceId.pooled(code) : traceId.date(code);
}

function NotMade({
  isComputed,
  isByDepth,
  problems,
}: {
  isComputed: boolean;
  isByDepth: boolean;
  problems: readonly { found: string; expected: string; fix: string }[];
}) {
  if (!isComputed) return <p role="status">Computing what it says of the sea.</p>;
  return (
    <Plate state="caution" word="Not made">
      {problems.length === 0 ? (
        <p>
          {isByDepth
            ? 'Its age waits for those of its hole against depth, which are computed with the curve.'
            : 'It is computed as soon as its meaning is stated.'}
        </p>
      ) : (
        problems.map((problem) => (
          <p key={problem.expected + problem.found}>
            Found {problem.found === '' ? 'nothing' : `“${problem.found}”`}; expected {problem.expected}.{' '}
            {problem.fix}
          </p>
        ))
      )}
    </Plate>
  );
}

/** A point that is made: its number, its drawing and its budget, all following an edit in hand. */
function Shown({
  row,
  point,
  results,
  campaign,
}: {
  row: DocRow;
  point: PointResult;
  results: Results;
  campaign: Campaign;
}) {
  const { claim, meaning, tide, site, budget } = useClaim(row, point, results, campaign);
  return (
    <>
      <p className="answer" aria-live="polite">
        <span className="relation">
          {claim.ok && claim.kind !== 'index'
            ? `sea was ${claim.kind === 'terrestrial' ? 'below' : 'above'}`
            : ''}
        </span>
        <Quantity
          value={claim.ok ? claim.rsl_m : null}
          sigma={claim.ok ? claim.sigma_m : null}
          unit="m"
          sign
          id={traceId.point(point.point).rsl}
        />
        <span className="quiet once">
          elevation {signed(point.elevation_m, 2)} −{' '}
          {claim.ok && claim.kind === 'index' ? 'reference water level' : 'tide level'}{' '}
          {claim.ok ? signed(claim.reference_water_level_m, 2) : '–'}
          {point.tidal_range === null ? null : (
            <>
              {' '}
              (tidal range then ×{' '}
              <Traced id={traceId.point(point.point).tidalRange}>
                {printed(point.tidal_range.factor, 2)}
              </Traced>
              )
            </>
          )}
          ; ± is 2 sd, here and at the side
        </span>
      </p>
      {claim.ok ? null : (
        <p className="fault">
          <Mark name="stop" size={16} /> Found “{claim.found}”; expected {claim.expected}. {claim.fix}
        </p>
      )}
      <Slide point={point} claim={claim} meaning={meaning} tide={tide} site={site} />
      <aside className="worth">{budget}</aside>
    </>
  );
}
