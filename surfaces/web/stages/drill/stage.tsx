/** Drill in the open campaign: which hole, its screen under the top line, and the sheets for paper. */
import './drill.css';
import { type HoleState, holeReader } from '@stillstand/campaign/holes';
import { useMemo, useState } from 'react';
import { useComputation } from '../../compute/index.ts';
import { CallInPlate, DayPage } from '../../holes/index.ts';
import { type StageProps, useNavigate, useTheme } from '../../shell/index.ts';
import { crew, draftsOf, setCrew, timeWithOffset, useStore } from '../../store/index.ts';
import { expectedHere } from './ahead/expected-here.ts';
import { dayOf, useAwake, useMinute } from './awake.ts';
import { runDepth, sampledTo, unitsOf } from './depths.ts';
import { Drill } from './drill.tsx';
import { BlankSheet } from './sheet/blank-sheet.tsx';
import { SheetEntry } from './sheet/sheet-entry.tsx';
import { withPoints } from './tape/decimal-points.ts';
import { NoHole } from './top/hole-choice.tsx';
import { holeOfCrew, holeOfRow, stillThere } from './top/hole-of-crew.ts';
import { useTideHere } from './top/tide-here.ts';
import { TopLine } from './top/top-line.tsx';

const clock = (): Date => new Date();

export function Stage({ params }: StageProps) {
  const store = useStore();
  const navigate = useNavigate();
  const { results } = useComputation();
  const { theme } = useTheme();
  const at = useMinute(clock);
  const drafts = useMemo(() => draftsOf(store.id), [store.id]);
  const [paper, setPaper] = useState<'sheet' | 'day' | null>(null);
  useAwake();
  // The hole shown stays under the crew's hands: one that ends is left by their choice alone.
  const [shown, setShown] = useState(() => holeOfCrew(store));
  const hole =
    params['hole'] ?? holeOfRow(store, params['row']) ?? stillThere(store, shown) ?? holeOfCrew(store);
  if (hole !== shown) setShown(hole);
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
  const expected = useMemo(() => expectedHere(results, hole), [results, hole]);
  const toHole = (next: string): void => navigate('drill', { hole: next });
  const at_ms = Math.floor(at.getTime() / 60_000) * 60_000;
  const tide = useTideHere(now?.row.site ?? null, at_ms);

  if (now === null || hole === null) {
    return <NoHole store={store} onHole={toHole} onPlan={() => navigate('plan')} />;
  }
  const site = now.campaign.rows.sites.find((s) => s.site === now.row.site);
  const head = (
    <TopLine
      {...{ store, now, hole, at }}
      tide={tide.now}
      site={site?.name ?? now.row.site ?? ''}
      onHole={toHole}
    />
  );
  if (paper === 'day') {
    return (
      <>
        {head}
        <DayPage store={store} date={dayOf(at)} onClose={() => setPaper(null)} />
      </>
    );
  }
  if (paper === 'sheet') {
    return (
      <>
        {head}
        <SheetEntry
          key={hole}
          store={pointed}
          hole={hole}
          byString={now.row.method === 'string'}
          unit={now.units.tape}
          day={dayOf(at)}
          offset={timeWithOffset(at).slice(19)}
          drafts={drafts}
          time={() => timeWithOffset(new Date())}
          onDone={() => setPaper(null)}
        />
      </>
    );
  }
  return (
    <>
      {head}
      <CallInPlate store={store} />
      <Drill
        key={hole}
        store={pointed}
        now={now}
        theme={theme}
        units={units}
        sampledTo_m={sampledTo(result)}
        expected={expected}
        runDepth={(run) => runDepth(result, run)}
        resuming={isResuming(now, at)}
        replaced={store.rows('holes').some((h) => h.cells['replaces'] === hole)}
        day={dayOf(at)}
        at_ms={at_ms}
        riseSince={tide.riseSince}
        drafts={drafts}
        time={() => timeWithOffset(new Date())}
        onCrew={(by) => setCrew({ ...crew(), by })}
        onHole={toHole}
        onPlan={() => navigate('plan')}
        onSheet={() => setPaper('sheet')}
        onDayEnd={() => setPaper('day')}
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

/** A hole untouched for so long is resumed, not gone on with: what stands in the string may have moved. */
const LEFT_MS = 4 * 3600_000;

function isResuming(now: HoleState, at: Date): boolean {
  if (now.ended || now.string.length === 0 || now.run !== null) return false;
  const last = now.entries.at(-1);
  if (last?.reading.kind === 'sounding' && last.reading.purpose === 'resume') return false;
  if (now.row.state === 'suspended') return true;
  const time = last?.time == null ? Number.NaN : Date.parse(last.time);
  return Number.isFinite(time) && at.getTime() - time > LEFT_MS;
}
