/** Report: the page as it will print, what is missing flagged beside it, and one action that computes it all anew. */
import './report.css';
import { datingOf } from '@stillstand/campaign/budget';
import type { CampaignDocument } from '@stillstand/campaign/document';
import { reconcileCampaign } from '@stillstand/campaign/holes';
import { useEffect, useMemo, useRef, useState } from 'react';
import { useComputation, useProgress } from '../../compute/index.ts';
import { ActionBar, Button, counted, Mark, PaperPage, Plate } from '../../parts/index.ts';
import { type StageProps, useTheme } from '../../shell/index.ts';
import { useStore } from '../../store/index.ts';
import { Choose, TABLES, useChoice } from './choose.tsx';
import { ExportFigures } from './export/export-figures.tsx';
import { flagsOf } from './flags.ts';
import { type Maker, maker } from './maker.ts';
import type { Listed, Made } from './protocol.ts';
import { Sections } from './sections.tsx';
import { Sheet } from './sheet.tsx';
import { TakeAway } from './take-away.tsx';

type Making = { kind: 'no' } | { kind: 'making'; share: number } | { kind: 'failed'; words: string };

export function Stage(_: StageProps) {
  const store = useStore();
  const { theme } = useTheme();
  const { campaign, results, state } = useComputation();
  const [page, setPage] = useState<string | null>(null);
  const [figures, setFigures] = useState<readonly Listed[]>([]);
  const [making, setMaking] = useState<Making>({ kind: 'no' });
  const [made, setMade] = useState<{ made: Made; of: CampaignDocument; choice: string } | null>(null);
  const [leftOut, setLeftOut] = useChoice(`stillstand.report.${store.id}.figures`);
  const [leftOutTables, setLeftOutTables] = useChoice(`stillstand.report.${store.id}.tables`);
  const [isExporting, setExporting] = useState(false);
  const work = useRef<Maker | null>(null);
  const asked = useRef<{ of: CampaignDocument; choice: string } | null>(null);
  const choice = leftOut.join('\n');

  useEffect(() => {
    const begun = maker({
      looked: (html, listed) => {
        setPage(html);
        setFigures(listed);
      },
      progress: (share) => setMaking({ kind: 'making', share }),
      made: (it) => {
        setMaking({ kind: 'no' });
        if (asked.current !== null) setMade({ made: it, ...asked.current });
      },
      failed: (words) => setMaking({ kind: 'failed', words }),
    });
    work.current = begun;
    return () => {
      work.current = null;
      begun.end();
    };
  }, []);
  const isMaking = making.kind === 'making';
  useEffect(() => {
    // While the report is made the worker has its hands full.
    if (campaign !== null && results !== null && !isMaking)
      work.current?.look(store, {
        results,
        pipe: reconcileCampaign(campaign),
        dating: datingOf(campaign, results.settings),
        leftOut,
        theme,
      });
  }, [store, campaign, results, leftOut, theme, isMaking]);

  const make = (): void => {
    asked.current = { of: store.document(), choice };
    setMaking({ kind: 'making', share: 0 });
    work.current?.make(store, leftOut);
  };
  const isFresh = made !== null && made.of === store.document() && made.choice === choice;
  const flags = useMemo(() => (results === null ? [] : flagsOf(results)), [results]);

  return (
    <div className="report">
      <nav className="contents" aria-label="Contents of the report">
        <div className="making">
          {making.kind === 'making' ? (
            <div role="status">
              <p>
                <b>Computing from nothing, {Math.floor(100 * making.share)} %</b>
              </p>
              <progress max={1} value={making.share} aria-label="Computed of the report" />
              <Button
                onClick={() => {
                  work.current?.stop();
                  setMaking({ kind: 'no' });
                }}
              >
                Stop
              </Button>
            </div>
          ) : isFresh ? null : (
            <ActionBar
              mark="tick"
              does={made === null ? 'Make the report' : 'Make it again'}
              says={
                made === null
                  ? 'Computed from nothing, with the seed of the settings'
                  : 'The campaign or the choice has changed since'
              }
              onClick={make}
              disabled={results === null}
            />
          )}
          {making.kind === 'failed' ? (
            <Plate state="danger" word="The report was not made">
              <p>{making.words}</p>
            </Plate>
          ) : null}
        </div>
        {made === null ? null : (
          <section aria-labelledby="take-away">
            <h2 id="take-away">
              {isFresh ? (
                <>
                  <Mark name="tick" size={20} /> Made
                </>
              ) : (
                'As it was made before'
              )}
            </h2>
            <TakeAway
              made={made.made}
              store={store}
              leftOutTables={leftOutTables}
              onPrint={() => globalThis.print()}
            />
          </section>
        )}
        <Button mark="save" disabled={results === null} onClick={() => setExporting(true)}>
          Export figures
        </Button>
        {!isExporting || results === null ? null : (
          <ExportFigures
            store={store}
            results={results}
            isFinal={state === 'final'}
            onClose={() => setExporting(false)}
          />
        )}
        <Sections html={page} flags={flags} />
        <Choose
          title="Figures"
          items={figures.map(({ name, words, warnings }) => ({ name, words, warns: warnings.length > 0 }))}
          leftOut={leftOut}
          onChange={setLeftOut}
        />
        <Choose
          title="Tables"
          items={TABLES.map(([name, words]) => ({ name, words, warns: false }))}
          leftOut={leftOutTables}
          onChange={setLeftOutTables}
        />
      </nav>
      <div className="desk">
        <p className="desk-head" role="status">
          {isFresh
            ? 'As made; it prints like this.'
            : state === 'final'
              ? 'As it will be made.'
              : 'As it will be made; the curve is not final yet'}
          {isFresh || state === 'final' ? null : <SoFar />}
          <span className="quiet">
            {' '}
            {flags.length === 0 ? 'Nothing is missing.' : `${counted(flags.length, 'flag')} in the margin.`}
          </span>
        </p>
        {page === null ? (
          <p role="status">Drawing the page.</p>
        ) : (
          <Sheet html={page} theme={theme} flags={flags} />
        )}
      </div>
      {made === null ? null : (
        <div className="for-paper" aria-hidden="true">
          <PaperPage html={made.made.page} theme="print" />
        </div>
      )}
    </div>
  );
}

function SoFar() {
  const progress = useProgress();
  return progress === null ? '.' : ` (${Math.floor(100 * progress)} %).`;
}
