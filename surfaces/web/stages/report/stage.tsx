/** Report: the page as it will print, what is missing flagged beside it, and one action that computes it all anew. */
import type { CampaignDocument } from '@stillstand/campaign/document';
import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import { useComputation, useProgress } from '../../compute/index.ts';
import { ActionBar, Button, counted, Mark, Plate } from '../../parts/index.ts';
import { type StageProps, useNavigate, useTheme } from '../../shell/index.ts';
import { useStore } from '../../store/index.ts';
import { type Flag, flagsOf } from './flags.ts';
import { type Maker, maker } from './maker.ts';
import { ReportPage } from './page.tsx';
import type { Listed, Made } from './protocol.ts';
import './report.css';
import { TakeAway } from './take-away.tsx';

/** Of the tables that can be left out; the report itself always has them all. */
const TABLES = [
  ['holes.csv', 'Holes'],
  ['runs.csv', 'Runs'],
  ['units.csv', 'Units'],
  ['samples.csv', 'Samples'],
  ['dates.csv', 'Dates'],
  ['points.csv', 'Points, the sea-level table'],
  ['curve.csv', 'Curve'],
  ['intervals.csv', 'Rates over intervals'],
  ['problems.csv', 'Problems'],
  ['settings.csv', 'Settings'],
  ['account.csv', 'Account of pipe'],
] as const;

type Making = { kind: 'no' } | { kind: 'making'; share: number } | { kind: 'failed'; words: string };

export function Stage(_: StageProps) {
  const store = useStore();
  const { theme } = useTheme();
  const { results, state } = useComputation();
  const [page, setPage] = useState<string | null>(null);
  const [figures, setFigures] = useState<readonly Listed[]>([]);
  const [making, setMaking] = useState<Making>({ kind: 'no' });
  const [made, setMade] = useState<{ made: Made; of: CampaignDocument; choice: string } | null>(null);
  const [leftOut, setLeftOut] = useChoice(`stillstand.report.${store.id}.figures`);
  const [leftOutTables, setLeftOutTables] = useChoice(`stillstand.report.${store.id}.tables`);
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
    if (results !== null && !isMaking) work.current?.look(results, leftOut, theme);
  }, [results, leftOut, theme, isMaking]);

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
          <ReportPage html={made.made.page} theme="print" />
        </div>
      )}
    </div>
  );
}

/** Names left out, kept on this device. */
function useChoice(key: string): [readonly string[], (names: readonly string[]) => void] {
  const [names, setNames] = useState<readonly string[]>(() => {
    const kept = localStorage.getItem(key);
    return kept === null || kept === '' ? [] : kept.split('\n');
  });
  const set = useCallback(
    (next: readonly string[]) => {
      localStorage.setItem(key, next.join('\n'));
      setNames(next);
    },
    [key],
  );
  return [names, set];
}

/** The page's own contents, each section with the gravest of its flags. */
function Sections({ html, flags }: { html: string | null; flags: readonly Flag[] }) {
  const sections = useMemo(() => {
    const nav = /<nav class="contents">([\s\S]*?)<\/nav>/.exec(html ?? '')?.[1] ?? '';
    return [...nav.matchAll(/href="#([^"]+)">([^<]*)</g)].map(([, id = '', words = '']) => ({ id, words }));
  }, [html]);
  if (sections.length === 0) return null;
  return (
    <section className="sections" aria-labelledby="page-contents">
      <h2 id="page-contents">On the page</h2>
      <ul>
        {sections.map(({ id, words }) => {
          const own = flags.filter((flag) => flag.section === id);
          const first = own[0];
          return (
            <li key={id}>
              <button
                type="button"
                onClick={() =>
                  document
                    .querySelector('.desk .report-page')
                    ?.shadowRoot?.getElementById(id)
                    ?.scrollIntoView()
                }
              >
                <span>{words}</span>
                {first === undefined ? null : (
                  <span className={`flagged ${first.kind}`}>
                    <Mark name={first.kind} size={16} label={MARK_WORDS[first.kind]} />
                    {own.length > 1 ? own.length : ''}
                  </span>
                )}
              </button>
            </li>
          );
        })}
      </ul>
    </section>
  );
}

function Choose({
  title,
  items,
  leftOut,
  onChange,
}: {
  title: string;
  items: readonly { name: string; words: string; warns: boolean }[];
  leftOut: readonly string[];
  onChange: (leftOut: readonly string[]) => void;
}) {
  const taken = items.filter((item) => !leftOut.includes(item.name)).length;
  return (
    <details className="choose-parts">
      <summary>
        <h2>{title}</h2>{' '}
        <span className="quiet">
          {taken} of {items.length}
        </span>
      </summary>
      <ul>
        {items.map(({ name, words, warns }) => (
          <li key={name}>
            <label>
              <input
                type="checkbox"
                checked={!leftOut.includes(name)}
                onChange={(event) =>
                  onChange(
                    event.target.checked ? leftOut.filter((each) => each !== name) : [...leftOut, name],
                  )
                }
              />
              <span>{words}</span>
              {warns ? <Mark name="close" size={15} label="warns" /> : null}
            </label>
          </li>
        ))}
      </ul>
    </details>
  );
}

/** The page with its flags beside it, each at the height of its section. */
function Sheet({ html, theme, flags }: { html: string; theme: 'day' | 'night'; flags: readonly Flag[] }) {
  const [tops, setTops] = useState<ReadonlyMap<string, number>>(new Map());
  const list = useRef<HTMLUListElement>(null);
  const [places, setPlaces] = useState<readonly number[]>([]);
  useEffect(() => {
    const items = [...(list.current?.children ?? [])];
    // In the order of the page, none over another.
    let free = 0;
    setPlaces(
      items.map((item, i) => {
        const at = Math.max(free, tops.get(flags[i]!.section) ?? 0);
        free = at + item.getBoundingClientRect().height + 6;
        return at;
      }),
    );
  }, [tops, flags]);
  return (
    <div className="sheet-and-margin">
      <ReportPage html={html} theme={theme} onSections={setTops} />
      <ul ref={list} className="margin" aria-label="Missing or not to be trusted">
        {flags.map((flag, i) => (
          <li key={flag.section + flag.words} style={{ top: places[i] ?? 0 }} className={flag.kind}>
            <FlagNote flag={flag} />
          </li>
        ))}
      </ul>
    </div>
  );
}

const MARK_WORDS = { unconverged: 'not converged', stop: 'missing', close: 'caution', note: 'note' } as const;

function FlagNote({ flag }: { flag: Flag }) {
  const navigate = useNavigate();
  const words = (
    <>
      <Mark name={flag.kind} size={18} label={MARK_WORDS[flag.kind]} />
      <span>{flag.words}</span>
    </>
  );
  const { to } = flag;
  if (to === null) return <div>{words}</div>;
  return (
    <button type="button" onClick={() => navigate(to.stage, to.params)} title={`Open in ${to.stage}`}>
      {words}
    </button>
  );
}

function SoFar() {
  const progress = useProgress();
  return progress === null ? '.' : ` (${Math.floor(100 * progress)} %).`;
}
