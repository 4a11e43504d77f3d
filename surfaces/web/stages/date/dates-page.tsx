/** The determinations: the chosen one large and as it is typed, its cells beside it, all of them below. */
import type { Problem } from '@stillstand/campaign/problems';
import { readSettings } from '@stillstand/campaign/settings';
import {
  curveNamed,
  isOfSea,
  type OwnCurves,
  offeredOffset,
  ownCurves,
  ownReservoirs,
  type Published,
} from '@stillstand/campaign/steps';
import type { LengthOptions } from '@stillstand/campaign/tables';
import { years } from '@stillstand/output/words';
import { mixedCurve } from '@stillstand/science/dating';
import { memo, useEffect, useLayoutEffect, useMemo, useRef, useState } from 'react';
import { type Computation, useComputation } from '../../compute/index.ts';
import { counted, useWidth } from '../../parts/index.ts';
import { type StageProps, useNavigate, useTheme } from '../../shell/index.ts';
import { useStore } from '../../store/index.ts';
import {
  type Age,
  ageOfCells,
  type Cells,
  isPerhapsF14C,
  isReportedAsF14C,
  readDetermination,
} from './age.ts';
import { curvesFor, curvesOfShells, useCurves } from './curves.ts';
import { DatesTable } from './dates-table.tsx';
import { DeterminationForm } from './determination-form.tsx';
import { InSequence } from './in-sequence.tsx';
import { type Calibrated, LargeAge } from './large-age.tsx';
import { grouped, span } from './rows.ts';
import { commonEra, setWords } from './set-words.ts';
import './dates-page.css';

const NO_CELLS: Cells = {};
const NO_CURVES: OwnCurves['of'] = new Map();

export function DatesPage({ params }: StageProps) {
  // The computation speaks up with every step of the curve; the page is drawn again only for what it shows.
  const { results, campaign, problems } = useComputation();
  return <Dates params={params} results={results} campaign={campaign} problems={problems} />;
}

const Dates = memo(function Dates({
  params,
  results,
  campaign,
  problems,
}: StageProps & Pick<Computation, 'results' | 'campaign' | 'problems'>) {
  const store = useStore();
  const { theme } = useTheme();
  const navigate = useNavigate();
  const rows = store.rows('determinations');
  const sampleRows = store.rows('samples');
  const groups = useMemo(() => grouped(rows, sampleRows, results), [rows, sampleRows, results]);
  const first = groups[0]?.rows[0]?.row ?? null;
  const wanted =
    rows.find((r) => r.row_id === params['row']) ??
    rows.find((r) => params['sample'] !== undefined && r.cells['sample']?.trim() === params['sample']) ??
    first;
  const [draft, setDraft] = useState<{ row_id: string; cells: Cells }>({ row_id: '', cells: NO_CELLS });
  const chosen = wanted;
  const typed = chosen !== null && draft.row_id === chosen.row_id ? draft.cells : NO_CELLS;
  const cells: Cells = { ...chosen?.cells, ...typed };
  const sampleName = cells['sample']?.trim() ?? '';
  const sample = campaign?.rows.samples.find((s) => s.sample === sampleName) ?? null;
  const decimal_comma = store.document().tables.get('determinations')?.dialect.decimal_comma ?? false;
  const options: LengthOptions = { decimal_comma };
  const published = useCurves([...curvesFor(cells), ...curvesOfShells(rows)]);
  const range = useMemo(
    () => readSettings(campaign?.rows.settings ?? []).settings.curve.age_range_cal_bp,
    [campaign],
  );
  const own = useMemo(() => (campaign === null ? NO_CURVES : ownCurves(campaign).of), [campaign]);
  const densities = useMemo(
    () => [...new Set(campaign?.rows.age_densities.map(({ density }) => density) ?? [])],
    [campaign],
  );
  const waters = useMemo(
    () => (campaign === null ? [] : ownReservoirs(campaign, published)),
    [campaign, published],
  );
  const age: Age | null =
    chosen === null ? null : ageOfCells(cells, options, published, own, sample, range, campaign);
  const on = age?.kind === 'dated' ? curveOf(cells, options, published, own) : null;

  const [agePlace, ageWidth] = useWidth(0);
  const [tablePlace, tableWidth] = useWidth(0);
  const page = useRef<HTMLDivElement>(null);
  const ofRow = useMemo(() => firstProblems(problems), [problems]);
  const choose = (row_id: string): void => {
    navigate('Date', { row: row_id });
    if (innerWidth < 700) document.getElementById('chosen-age')?.scrollIntoView({ block: 'start' });
  };
  // What was typed and written is typed no more.
  useEffect(() => {
    setDraft((before) => {
      const row = rows.find((r) => r.row_id === before.row_id);
      const still = Object.entries(before.cells).filter(
        ([column, cell]) => (row?.cells[column] ?? '') !== cell,
      );
      return still.length === Object.keys(before.cells).length
        ? before
        : { ...before, cells: Object.fromEntries(still) };
    });
  }, [rows]);

  // The form comes to rest under the age, however many lines its sets take.
  useLayoutEffect(() => {
    const tall = `${document.getElementById('chosen-age')?.offsetHeight ?? 0}px`;
    const style = page.current?.style;
    // Every row looks at it: said again, all of them would be laid out again.
    if (style !== undefined && style.getPropertyValue('--age-height') !== tall)
      style.setProperty('--age-height', tall);
  });

  if (chosen === null) {
    return (
      <div className="no-dates">
        <p>No determination yet. Add one by hand, or import the laboratory’s table.</p>
      </div>
    );
  }
  const height = ageWidth < 500 ? 250 : 316;
  const form = (
    <DeterminationForm
      key={chosen.row_id}
      row={chosen}
      draft={cells}
      curves={[...own.keys()]}
      densities={densities}
      samples={sampleRows.map((r) => r.cells['sample']?.trim() ?? '').filter(Boolean)}
      sampleRow={sampleRows.find((r) => r.cells['sample']?.trim() === sampleName)?.row_id ?? null}
      material={sample?.material ?? ''}
      isPerhapsF14C={isPerhapsF14C(cells, options)}
      offsets={waters
        .filter(({ curve }) => curve === cells['calibration_curve']?.trim())
        .map((water) => ({ group: water.group, n: water.n, ...offeredOffset(water) }))}
      codes={rows.map((r) => r.cells['lab_code']?.trim() ?? '').filter(Boolean)}
      isReadOnly={store.readOnly}
      onType={(column, text) =>
        setDraft((before) => ({
          row_id: chosen.row_id,
          cells: { ...(before.row_id === chosen.row_id ? before.cells : NO_CELLS), [column]: text },
        }))
      }
      onCommit={(changed) => store.editRow('determinations', chosen.row_id, changed)}
      kept={store.whyKept('determinations', chosen.row_id)}
      onRemove={() => {
        if (store.removeRow('determinations', chosen.row_id)) navigate('Date');
      }}
    />
  );
  return (
    <div className="date-stage" ref={page}>
      <div className="age-place" id="chosen-age" ref={agePlace}>
        {age === null || age.kind !== 'dated' ? (
          <div className="no-large-age" style={{ minHeight: height }}>
            <p role="status">{age?.kind === 'undated' ? age.why : 'Reading the curve…'}</p>
          </div>
        ) : (
          <>
            <div className="age-answer">
              <p className="median">
                {years(age.date.median_cal_bp)}{' '}
                <span className="unit">cal BP, median {commonEra(age.date.median_cal_bp)}</span>
              </p>
              <dl>
                <div>
                  <dt>68 %</dt>
                  <dd>
                    {age.date.sets_68.map((set) => setWords(set, age.date.sets_68.length > 1)).join(', ')}
                  </dd>
                </div>
                <div>
                  <dt>95 %</dt>
                  <dd>
                    {age.date.sets_95.map((set) => setWords(set, age.date.sets_95.length > 1)).join(', ')}
                  </dd>
                </div>
              </dl>
              <InSequence labCode={cells['lab_code']?.trim() ?? ''} results={results} />
            </div>
            {ageWidth === 0 ? null : (
              <LargeAge
                date={age.date}
                on={on}
                isF14C={isReportedAsF14C(cells)}
                theme={theme}
                width={ageWidth}
                height={height}
              />
            )}
          </>
        )}
      </div>
      <div className="form-place">
        {ageWidth < 500 ? (
          <details key={chosen.row_id} open={cells['lab_code'] === undefined || cells['lab_code'] === ''}>
            <summary>All fields, and rejecting it</summary>
            {form}
          </details>
        ) : (
          form
        )}
      </div>
      <div className="table-place" ref={tablePlace}>
        {tableWidth === 0 ? null : (
          <DatesTable
            groups={groups}
            span={span(groups)}
            chosen={chosen.row_id}
            asked={params['row'] ?? params['sample']}
            drafted={age?.kind === 'dated' && typed !== NO_CELLS ? age.date : null}
            problems={ofRow}
            width={tableWidth}
            theme={theme}
            onChoose={choose}
          />
        )}
        <p className="quiet below">
          {counted(rows.length, 'determination')}. Filled within 95.4 %, darker within 68.3 %, gaps left open.
          Marine ages are ruled on a wave, in the sea’s colour; rejected ones dotted and struck.
        </p>
      </div>
    </div>
  );
});

/** The gravest of each row of the determinations; errors alone keep a row from its age. */
function firstProblems(problems: readonly Problem[]): ReadonlyMap<string, Problem> {
  const found = new Map<string, Problem>();
  for (const p of problems) {
    if (p.table === 'determinations' && p.row_id !== null && p.severity === 'error' && !found.has(p.row_id)) {
      found.set(p.row_id, p);
    }
  }
  return found;
}

/** The curve the age is calibrated on, with its offset; null for calendar ages. */
function curveOf(
  cells: Cells,
  options: LengthOptions,
  published: Published,
  own: OwnCurves['of'],
): Calibrated | null {
  const { row } = readDetermination(cells, options);
  if (row.method !== 'radiocarbon') return null;
  const curve = curveNamed(row.calibration_curve, published, own);
  if (curve === undefined) return null;
  const [offset_yr, offset_sd_yr] = [row.delta_r ?? 0, row.delta_r_error ?? 0];
  const sea = published.curves.marine20;
  const share = row.marine_fraction ?? 0;
  const share_sd = row.marine_fraction_error ?? 0;
  if (!isOfSea(row.calibration_curve, own) && share + share_sd > 0 && sea !== undefined) {
    return {
      curve: mixedCurve(curve, sea, share, share_sd, offset_yr, offset_sd_yr),
      offset_yr: 0,
      offset_sd_yr: 0,
    };
  }
  return { curve, offset_yr, offset_sd_yr };
}
