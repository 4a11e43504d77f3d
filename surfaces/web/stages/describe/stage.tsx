/** Describe: the column of one hole beside its photographs, or all holes in section. */
import './describe.css';
import { memo, useState } from 'react';
import { type Computation, useComputation } from '../../compute/index.ts';
import { ImportPage } from '../../import/index.ts';
import { Button, counted } from '../../parts/index.ts';
import { HeadAside, HeadTitle, type StageProps, useNavigate } from '../../shell/index.ts';
import { useStore } from '../../store/index.ts';
import { ChainPage } from './chain/chain-page.tsx';
import { HolePage } from './hole-page.tsx';
import { LabelsPage } from './labels/labels-page.tsx';
import { hasLaboratory, LaboratoryPage } from './laboratory/laboratory-page.tsx';
import { SectionPage } from './section-page.tsx';
import { ArchivePage } from './submission/archive-page.tsx';
import { SubmissionPage } from './submission/submission-page.tsx';
import { ThroughTimePage } from './through-time/page.tsx';

/** Holes up to this many have a tab each; more are chosen from a list. */
const TABS = 8;
/** In the list of holes; no label of a hole has a slash. */
const SECTION = '/section';
const LABORATORY = '/laboratory';
const THROUGH_TIME = '/through-time';
/** Rows of these are shown in the section. */
const SECTION_TABLES = new Set(['correlations', 'section_lines', 'section_profile', 'section_boundaries']);

export function Stage({ params }: StageProps) {
  // The computation speaks up with every step of the curve; the page is drawn again only for what it shows.
  const { results } = useComputation();
  return <Describe params={params} results={results} />;
}

const Describe = memo(function Describe({ params, results }: StageProps & Pick<Computation, 'results'>) {
  const store = useStore();
  const navigate = useNavigate();
  const [last, setLast] = useState<string | null>(null);
  const row = params['row'] ?? null;
  const holes = results?.holes ?? [];
  const ofRow =
    row === null
      ? null
      : ([...store.rows('units'), ...store.rows('samples'), ...store.rows('photos')].find(
          (r) => r.row_id === row,
        )?.cells['hole'] ?? null);
  const isSection = params['view'] === 'section' || SECTION_TABLES.has(params['table'] ?? '');
  const name = params['hole'] ?? ofRow ?? last;
  const hole = holes.find((h) => h.hole === name) ?? holes.find((h) => h.runs.length > 0) ?? holes[0];
  const show = (label: string): void => {
    setLast(label);
    navigate('Describe', { hole: label });
  };

  const leave = (): void =>
    navigate('Describe', params['hole'] === undefined ? {} : { hole: params['hole'] });
  const showSection = (): void => navigate('Describe', { view: 'section' });
  const isThroughTime = params['view'] === 'through-time';
  const showThroughTime = (): void => navigate('Describe', { view: 'through-time' });
  const isAcross = isSection || isThroughTime;
  const isLaboratory =
    params['view'] === 'laboratory' && results !== null && hole !== undefined && hasLaboratory(results, hole);
  const showLaboratory = (): void =>
    navigate('Describe', { view: 'laboratory', ...(hole === undefined ? {} : { hole: hole.hole }) });
  const isMany = holes.length > TABS;

  if (params['view'] === 'import') return <ImportPage onDone={() => navigate('Describe')} />;
  if (params['view'] === 'labels')
    return (
      <LabelsPage
        hole={params['hole'] ?? null}
        which={params['of'] === 'planned' ? 'planned' : 'samples'}
        onClose={leave}
      />
    );
  if (params['view'] === 'chain')
    return (
      <ChainPage
        key={JSON.stringify(params)}
        asked={{
          hole: params['hole'] ?? '',
          sample: params['sample'] ?? null,
          run: params['run'] ?? null,
          isScanning: params['scan'] === 'yes',
        }}
        onClose={leave}
      />
    );
  if (params['view'] === 'submission')
    return <SubmissionPage parcel={params['parcel'] ?? null} onClose={leave} />;
  if (params['view'] === 'archive') return <ArchivePage onClose={leave} />;
  if (results === null) return <p role="status">Computing where the core lay…</p>;
  if (hole === undefined) {
    return (
      <p className="nothing-yet">
        There is no hole to describe. <Button onClick={() => navigate('Plan')}>Plan a hole</Button>{' '}
        {store.readOnly ? null : (
          <Button mark="open" onClick={() => navigate('Describe', { view: 'import' })}>
            Import a table
          </Button>
        )}
      </p>
    );
  }
  return (
    <>
      {isAcross ? null : (
        <HeadTitle>
          <div className="hole-title">
            <h1>{hole.hole}</h1>
            <p>
              {hole.site_name ?? hole.site}
              <br />
              <span className="quiet">
                {counted(
                  hole.runs.length,
                  hole.runs.every((r) => r.method === 'push') ? 'push' : 'run',
                  hole.runs.every((r) => r.method === 'push') ? 'pushes' : 'runs',
                )}
                , {counted(hole.units.length, 'unit')}
              </span>
            </p>
          </div>
        </HeadTitle>
      )}
      <HeadAside>
        <nav className={isMany ? 'hole-tabs' : 'hole-tabs few'} aria-label="Holes">
          <select
            aria-label="Hole"
            title="Which hole is described, or all in section or through time"
            value={isThroughTime ? THROUGH_TIME : isSection ? SECTION : isLaboratory ? LABORATORY : hole.hole}
            onChange={({ target: { value } }) =>
              value === SECTION
                ? showSection()
                : value === THROUGH_TIME
                  ? showThroughTime()
                  : value === LABORATORY
                    ? showLaboratory()
                    : show(value)
            }
          >
            {holes.map((h) => (
              <option key={h.row_id}>{h.hole}</option>
            ))}
            {hasLaboratory(results, hole) ? (
              <option value={LABORATORY}>Laboratory, {hole.hole}</option>
            ) : null}
            <option value={SECTION}>Section</option>
            <option value={THROUGH_TIME}>Through time</option>
          </select>
          {isMany
            ? null
            : holes.map((h) => (
                <button
                  key={h.row_id}
                  type="button"
                  aria-pressed={!isAcross && !isLaboratory && h === hole}
                  onClick={() => show(h.hole)}
                >
                  {h.hole}
                </button>
              ))}
          {hasLaboratory(results, hole) ? (
            <button type="button" aria-pressed={!isAcross && isLaboratory} onClick={showLaboratory}>
              Laboratory
            </button>
          ) : null}
          <button type="button" aria-pressed={isSection} onClick={showSection}>
            Section
          </button>
          <button type="button" aria-pressed={isThroughTime} onClick={showThroughTime}>
            Through time
          </button>
        </nav>
      </HeadAside>
      {isThroughTime ? (
        <ThroughTimePage results={results} />
      ) : isSection ? (
        <SectionPage results={results} onHole={show} />
      ) : isLaboratory ? (
        <LaboratoryPage key={hole.hole} results={results} hole={hole} />
      ) : (
        <HolePage key={hole.hole} results={results} hole={hole} row={row} />
      )}
    </>
  );
});
