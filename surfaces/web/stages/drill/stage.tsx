/** Drill in the open campaign: which hole, what is around it, and the page head. Long because it is all of these. */
import { type HoleOfCrew, type HoleState, holeReader, workingHole } from '@stillstand/campaign/holes';
import type { HoleResult } from '@stillstand/campaign/results';
import type { HoleViewUnit } from '@stillstand/output/figures';
import { useMemo, useState } from 'react';
import { useComputation } from '../../compute/index.ts';
import { Button, Mark, Sheet } from '../../parts/index.ts';
import { HeadAside, HeadTitle, type StageProps, useNavigate, useTheme } from '../../shell/index.ts';
import { crew, type Store, setCrew, timeWithOffset, useStore } from '../../store/index.ts';
import { dayOf, hourMinute, useAwake, useMinute } from './awake.ts';
import { BOOK_TABLES, clockOf } from './book/book.ts';
import { Drill } from './drill.tsx';
import { BlankSheet } from './sheet/blank-sheet.tsx';
import { SheetEntry } from './sheet/sheet-entry.tsx';
import { withPoints } from './tape/decimal-points.ts';
import { m2 } from './tape/lengths.ts';

/** A hole untouched for so long is resumed, not gone on with: what stands in the string may have moved. */
const LEFT_MS = 4 * 3600_000;

const clock = (): Date => new Date();

export function Stage({ params }: StageProps) {
  const store = useStore();
  const navigate = useNavigate();
  const { results } = useComputation();
  const { theme } = useTheme();
  const at = useMinute(clock);
  const [choosing, setChoosing] = useState(false);
  const [sheet, setSheet] = useState(false);
  useAwake();
  // the hole stays under the crew's hands: one that ends is left by their choice alone
  const [opened] = useState(() => holeOfCrew(store));
  const hole =
    params['hole'] ?? holeOfRow(store, params['row']) ?? stillThere(store, opened) ?? holeOfCrew(store);
  const read = useMemo(() => (hole === null ? null : holeReader()), [hole]);
  const dialects = useMemo(
    () => new Map([...store.document().tables].map(([name, t]) => [name, t.dialect])),
    [store],
  );
  const source = { rows: store.rows, dialect: (table: string) => dialects.get(table) };
  const pointed = useMemo(() => withPoints(store, (table) => dialects.get(table)), [store, dialects]);
  const now = hole === null || read === null ? null : read(source, hole);
  const result = results?.holes.find((h) => h.hole === hole) ?? null;
  const units = useMemo(() => unitsOf(result), [result]);
  const toHole = (next: string): void => {
    setChoosing(false);
    navigate('drill', { hole: next });
  };

  if (now === null || hole === null) {
    return <NoHole store={store} onHole={toHole} onPlan={() => navigate('plan')} />;
  }
  const site = now.campaign.rows.sites.find((s) => s.site === now.row.site);
  const head = (
    <>
      <HeadTitle>
        <div className="drill-title">
          <button
            type="button"
            className="hole-name"
            aria-haspopup="dialog"
            onClick={() => setChoosing(true)}
          >
            <h1>{hole}</h1>
            <Mark name="down" size={16} label="another hole" />
          </button>
          <p>
            <span className="site">
              {site?.name ?? now.row.site ?? ''}
              <br />
            </span>
            <span className="quiet">
              {standing(now)}
              {now.fold.deepest_m === null || now.run !== null ? null : (
                <span className="deep">, down to {m2(now.fold.deepest_m)} m</span>
              )}
            </span>
          </p>
        </div>
      </HeadTitle>
      <HeadAside>
        <LeaveBy store={store} at={at} />
        <time className="drill-clock">{hourMinute(at)}</time>
      </HeadAside>
      {choosing ? (
        <Sheet title="Holes" onClose={() => setChoosing(false)}>
          <HoleList store={store} current={hole} onHole={toHole} />
          <StartHole store={store} onHole={toHole} />
        </Sheet>
      ) : null}
    </>
  );
  if (sheet) {
    return (
      <>
        {head}
        <SheetEntry
          store={pointed}
          hole={hole}
          byString={now.row.method === 'string'}
          unit={now.units.tape}
          day={dayOf(at)}
          offset={timeWithOffset(at).slice(19)}
          onDone={() => setSheet(false)}
        />
      </>
    );
  }
  return (
    <>
      {head}
      <Drill
        key={hole}
        store={pointed}
        now={now}
        theme={theme}
        units={units}
        sampledTo_m={sampledTo(result)}
        runDepth={(run) => runDepth(result, run)}
        resuming={isResuming(now, at)}
        replaced={store.rows('holes').some((h) => h.cells['replaces'] === hole)}
        day={dayOf(at)}
        time={() => timeWithOffset(new Date())}
        onCrew={(by) => setCrew({ ...crew(), by })}
        onHole={toHole}
        onPlan={() => navigate('plan')}
        onSheet={() => setSheet(true)}
        row={params['row']}
      />
      <BlankSheet
        hole={hole}
        site={site?.name ?? ''}
        byString={now.row.method === 'string'}
        margin_m={now.settings.margin_m}
      />
    </>
  );
}

function holeOfRow(store: Store, row_id: string | undefined): string | null {
  if (row_id === undefined) return null;
  for (const table of [...BOOK_TABLES, 'holes', 'sections'] as const) {
    const row = store.rows(table).find((r) => r.row_id === row_id);
    if (row !== undefined) return row.cells['hole'] ?? null;
  }
  return null;
}

const stillThere = (store: Store, hole: string | null): string | null =>
  hole !== null && store.rows('holes').some((h) => h.cells['hole']?.trim() === hole) ? hole : null;

/** The hole the crew is at; by the newest reading where more than one could be meant. */
function holeOfCrew(store: Store): string | null {
  const holes = store.rows('holes').flatMap(({ cells }): HoleOfCrew[] => {
    const { hole = '', state = '', method = '', replaces = '' } = cells;
    const known = (cell: string): string | null => (cell.trim() === '' ? null : cell.trim());
    return hole.trim() === ''
      ? []
      : [{ hole: hole.trim(), state: known(state), method: known(method), replaces: known(replaces) }];
  });
  const newest = { time: Number.NEGATIVE_INFINITY, hole: null as string | null };
  for (const table of BOOK_TABLES) {
    for (const { cells } of store.rows(table)) {
      const time = Date.parse(cells['time'] ?? '');
      const hole = cells['hole']?.trim() ?? '';
      if (hole !== '' && time > newest.time) Object.assign(newest, { time, hole });
    }
  }
  return workingHole(holes, newest.hole);
}

function standing(now: HoleState): string {
  const { fold, run, row } = now;
  if (now.ended) return row.state ?? '';
  if (row.method !== 'string') return row.method === 'hand' ? 'hand-cored' : `cored by ${row.method}`;
  const joints =
    fold.joints_in === 0
      ? 'no joint in string'
      : `${fold.joints_in} ${fold.joints_in === 1 ? 'joint' : 'joints'} in string`;
  if (run !== null) return `${joints}, run ${run.run} in progress`;
  if (row.state !== null && row.state !== 'open') return `${joints}, ${row.state}`;
  return joints;
}

function isResuming(now: HoleState, at: Date): boolean {
  if (now.ended || now.string.length === 0 || now.run !== null) return false;
  const last = now.entries.at(-1);
  if (last?.reading.kind === 'sounding' && last.reading.purpose === 'resume') return false;
  if (now.row.state === 'suspended') return true;
  const time = last?.time == null ? Number.NaN : Date.parse(last.time);
  return Number.isFinite(time) && at.getTime() - time > LEFT_MS;
}

function unitsOf(result: HoleResult | null): HoleViewUnit[] {
  return (result?.units ?? []).map((u) => ({
    top_m: u.depth_top_m.value,
    bottom_m: u.depth_bottom_m.value,
    sediment: u.sediment,
    secondary_sediment: u.secondary_sediment,
    contact_below: u.contact_below,
  }));
}

function sampledTo(result: HoleResult | null): number | null {
  const bottoms = (result?.runs ?? []).filter((r) => r.removed_m > 0).map((r) => r.depth_bottom_m.value);
  return bottoms.length === 0 ? null : Math.max(...bottoms);
}

function runDepth(result: HoleResult | null, run: string): string | null {
  const of = result?.runs.find((r) => r.run === run);
  if (of === undefined || of.removed_m <= 0) return null;
  return `${m2(of.depth_top_m.value)} to ${m2(of.depth_bottom_m.value)} m`;
}

/** When the place must be left today, with the state it puts people in as the hour comes near. */
function LeaveBy({ store, at }: { store: Store; at: Date }) {
  const today = store.rows('field_days').find((d) => d.cells['date'] === dayOf(at));
  const leave = today?.cells['leave_by'] ?? '';
  const moment = Date.parse(leave);
  if (leave === '' || !Number.isFinite(moment)) return null;
  const minutes = Math.floor((moment - at.getTime()) / 60_000);
  const level = minutes < 0 ? 'danger' : minutes < 60 ? 'caution' : 'normal';
  return (
    <p className="leave-by" data-level={level} role={level === 'danger' ? 'alert' : undefined}>
      {level === 'normal' ? null : <Mark name={level === 'danger' ? 'stop' : 'close'} size={20} />}
      <strong>
        {level === 'danger' ? `Leave now: it was ${clockOf(leave)}` : `leave by ${clockOf(leave)}`}
      </strong>
      {level === 'caution' ? <span> in {minutes} min</span> : null}
    </p>
  );
}

function HoleList({
  store,
  current,
  onHole,
}: {
  store: Store;
  current: string | null;
  onHole: (hole: string) => void;
}) {
  return (
    <ul className="hole-list">
      {store
        .rows('holes')
        .filter((h) => (h.cells['hole'] ?? '') !== '')
        .map((h) => (
          <li key={h.row_id}>
            <button
              type="button"
              aria-current={h.cells['hole'] === current}
              onClick={() => onHole(h.cells['hole']!)}
            >
              <strong>{h.cells['hole']}</strong>
              <span>
                {h.cells['state'] ?? 'planned'}
                {h.cells['replaces'] ? `, replaces ${h.cells['replaces']}` : ''}
                {h.cells['method'] && h.cells['method'] !== 'string' ? `, ${h.cells['method']}` : ''}
              </span>
            </button>
          </li>
        ))}
    </ul>
  );
}

function NoHole({
  store,
  onHole,
  onPlan,
}: {
  store: Store;
  onHole: (hole: string) => void;
  onPlan: () => void;
}) {
  return (
    <section className="no-hole">
      <h2>No hole yet</h2>
      <p>Drill needs a hole with a label. Site, reference and pipe can be added in Plan, now or later.</p>
      <StartHole store={store} onHole={onHole} />
      <p>
        <Button onClick={onPlan}>Go to Plan</Button>
      </p>
      {store.rows('holes').length > 0 ? <HoleList store={store} current={null} onHole={onHole} /> : null}
    </section>
  );
}

/** A hole needs no more than a label; pipe and site are those used last. */
const METHODS = {
  string: 'a string of pipe',
  tube: 'a tube',
  chamber: 'a chamber',
  gouge: 'a gouge',
  hand: 'by hand',
};

function StartHole({ store, onHole }: { store: Store; onHole: (hole: string) => void }) {
  const [method, setMethod] = useState('string');
  const labels = new Set(store.rows('holes').map((h) => h.cells['hole']?.trim() ?? ''));
  const [label, setLabel] = useState(() => {
    for (let i = labels.size + 1; ; i++) if (!labels.has(`H${i}`)) return `H${i}`;
  });
  const last = (table: 'pipes' | 'sites', column: string) => store.rows(table).at(-1)?.cells[column];
  const pipe = store.rows('holes').findLast((h) => h.cells['pipe'])?.cells['pipe'] ?? last('pipes', 'pipe');
  const site = store.rows('holes').findLast((h) => h.cells['site'])?.cells['site'] ?? last('sites', 'site');
  const hole = label.trim();
  const taken = labels.has(hole);
  return (
    <p className="start-hole">
      <label htmlFor="new-hole">Label of a new hole</label>
      <input id="new-hole" value={label} autoComplete="off" onChange={(e) => setLabel(e.target.value)} />
      <label htmlFor="new-method">made with</label>
      <select id="new-method" value={method} onChange={(e) => setMethod(e.target.value)}>
        {Object.entries(METHODS).map(([value, word]) => (
          <option key={value} value={value}>
            {word}
          </option>
        ))}
      </select>
      <Button
        mark="plus"
        disabled={hole === '' || taken || store.readOnly}
        onClick={() => {
          store.addRow('holes', {
            hole,
            method,
            state: 'planned',
            ...(pipe === undefined || method !== 'string' ? {} : { pipe }),
            ...(site === undefined ? {} : { site }),
          });
          onHole(hole);
        }}
      >
        {taken ? `${hole} is taken` : 'Start a hole'}
      </Button>
    </p>
  );
}
