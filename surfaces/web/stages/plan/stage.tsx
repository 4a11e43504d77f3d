/** Plan: the evening before, on one page. Where, how deep, what heights and tide, what gear, who, what could hurt. */

import './plan.css';
import { capital } from '@stillstand/campaign/tables';
import { type CSSProperties, type ReactNode, useEffect, useRef, useState } from 'react';
import { useComputation } from '../../compute/index.ts';
import { CallInPlate, DayPage } from '../../holes/index.ts';
import { ImportPage } from '../../import/index.ts';
import { ActionBar, Button, Mark } from '../../parts/index.ts';
import { type StageProps, useNavigate } from '../../shell/index.ts';
import { useStore } from '../../store/index.ts';
import { AddRow } from './add-row.tsx';
import {
  Checklist,
  Dangers,
  dayAfter,
  type FieldDay,
  People,
  useFieldDay,
  usePlannedHole,
  WhichDay,
  WhichHole,
} from './day/day.tsx';
import { voidDay } from './day/day-date.ts';
import { TideOfDay } from './day/tide-of-day.tsx';
import { HowDeep } from './deep/targets.tsx';
import { GearList } from './gear/gear-list.tsx';
import { usePacking } from './gear/use-packing.ts';
import { LevelBook } from './heights/level-book.tsx';
import { References } from './heights/references.tsx';
import { Where } from './map/where.tsx';
import { Permits } from './permits/permits.tsx';
import { Risks } from './risk/risks.tsx';
import { RowsTable } from './rows-table.tsx';
import { PlannedSamples } from './samples/planned-samples.tsx';
import { nextPart, type Part, type PartKey, readiness } from './strip/part.ts';
import { Strip } from './strip/strip.tsx';
import { useParts } from './strip/use-parts.ts';
import { GearTables } from './tables/gear-tables.tsx';
import { OTHER_TABLES, OtherTables } from './tables/other-tables.tsx';
import { TideTables } from './tables/tide-tables.tsx';

/** What planning a hole needs; the rest is entered as it is drilled. */
const ASKED_OF_A_HOLE = [
  'hole',
  'site',
  'latitude_deg',
  'position_accuracy_m',
  'target_depth',
  'method',
  'reference_point',
  'reference_elevation_m',
  'reference_datum',
  'pipe',
] as const;

/** On a narrow screen, in one column. */
const ORDER: readonly PartKey[] = ['where', 'deep', 'heights', 'tide', 'gear', 'who', 'hazards'];

export function Stage({ params }: StageProps) {
  const store = useStore();
  const navigate = useNavigate();
  const { results } = useComputation();
  const field = useFieldDay();
  const { day, days } = field;
  const [isEnding, setEnding] = useState(false);
  const [planning, setPlanning] = useState<Record<string, string> | null>(null);
  const [chosenHole, chooseHole] = useState<string | null>(null);
  const { hole, holes, site } = usePlannedHole(field, chosenHole);
  // Without a day, permits and gear are those of today.
  const date = day?.cells['date']?.trim() || field.today;
  const packing = usePacking(date);
  const others = Math.max(0, holes.length - 1);
  const parts = useParts({ field, hole, site: site || null, others, packing });
  const [chosen, choose] = useChosenPart(parts, results !== null);
  const planHole = (place: Readonly<Record<string, string>>): void =>
    setPlanning({ state: 'planned', method: 'string', site, ...place });

  if (params['view'] === 'import') return <ImportPage onDone={() => navigate('Plan')} />;
  if (isEnding && day !== null)
    return <DayPage store={store} date={day.cells['date']?.trim() ?? ''} onClose={() => setEnding(false)} />;

  const sections: Readonly<Record<PartKey, ReactNode>> = {
    where: <Where chosen={params['row'] ?? null} onPlanHole={planHole} />,
    deep: (
      <>
        <HowDeep />
        <PlannedSamples />
      </>
    ),
    heights: (
      <>
        <LevelBook />
        <References />
        <RowsTable
          table="benchmarks"
          caption="Bench marks"
          columns={['benchmark', 'elevation_m', 'sigma_m', 'datum', 'source']}
          add="Add a bench mark"
        />
      </>
    ),
    tide: (
      <>
        <section className="tide-day" aria-labelledby="tide-day-title">
          <h2 id="tide-day-title">Tide and access</h2>
          {day === null ? (
            <p className="quiet">Choose the day above: its tide, access and leave-by time are here.</p>
          ) : (
            <TideOfDay key={day.row_id} day={day} days={days} site={site || null} />
          )}
        </section>
        <TideTables site={site} />
      </>
    ),
    gear: (
      <>
        <GearList lines={packing} date={date} />
        <GearTables />
      </>
    ),
    who: day === null ? <NoDay name="Who" /> : <People key={day.row_id} day={day} days={days} />,
    hazards: (
      <>
        {day === null ? <NoDay name="Hazards" /> : <Checklist key={day.row_id} day={day} hole={hole} />}
        <Permits date={date} />
        <Risks date={date} />
      </>
    ),
  };
  const column = (keys: readonly PartKey[]): ReactNode =>
    [...keys]
      .sort((a, b) => Number(b === chosen) - Number(a === chosen))
      .map((key) => (
        <div
          key={key}
          id={`plan-${key}`}
          className="plan-part"
          data-chosen={key === chosen}
          style={{ '--order': ORDER.indexOf(key) } as CSSProperties}
          tabIndex={-1}
        >
          {sections[key]}
        </div>
      ));

  return (
    <div className="plan">
      <CallInPlate store={store} />
      <Dangers field={field} onHole={chooseHole} />
      <header className="plan-head">
        <WhichDay {...field} />
        <WhichHole hole={hole} holes={holes} onHole={chooseHole} />
        <Ready parts={parts} hole={hole} />
        {day === null ? null : <Button onClick={() => setEnding(true)}>Show the day sheet</Button>}
        {store.readOnly ? null : (
          <NextAct
            parts={parts}
            field={field}
            onPart={(key) => (key === 'where' && hole === null ? planHole({}) : choose(key))}
            onDrill={() => navigate('Drill', hole === null ? {} : { hole })}
          />
        )}
      </header>
      <Strip parts={parts} chosen={chosen} onChoose={choose} />
      <div className="plan-columns">
        <div className="plan-wide">{column(['where', 'heights', 'tide', 'gear'])}</div>
        <div className="plan-side">{column(['hazards', 'who', 'deep'])}</div>
      </div>
      <OtherTables isOpen={OTHER_TABLES.includes(params['table'] ?? '')} />
      {planning === null ? null : (
        <AddRow
          table="holes"
          title="Plan a hole"
          prefill={planning}
          first={ASKED_OF_A_HOLE}
          more="More about the hole"
          onClose={() => setPlanning(null)}
        />
      )}
    </div>
  );
}

/**
 * The part that comes first on the page: what is missing when the page opens, and from then on what was pressed. It does
 * not change as gaps are closed: nothing moves from under a hand that types.
 */
function useChosenPart(parts: readonly Part[], isKnown: boolean): [PartKey, (part: PartKey) => void] {
  const [pressed, setPressed] = useState<PartKey | null>(null);
  const first = useRef<PartKey | null>(null);
  if (first.current === null && isKnown) first.current = nextPart(parts)?.key ?? null;
  const moved = useRef(false);
  useEffect(() => {
    if (!moved.current || pressed === null) return;
    moved.current = false;
    const part = document.getElementById(`plan-${pressed}`);
    part?.scrollIntoView({ block: 'start' });
    part?.focus({ preventScroll: true });
  });
  return [
    pressed ?? first.current ?? 'where',
    (part) => {
      moved.current = true;
      setPressed(part);
    },
  ];
}

function NoDay({ name }: { name: string }) {
  return (
    <section className="day">
      <h2>{name}</h2>
      <p className="quiet">
        Choose the day above: crew, contacts, permits and safety questions are a day’s own.
      </p>
    </section>
  );
}

function Ready({ parts, hole }: { parts: readonly Part[]; hole: string | null }) {
  const { isReady, isStopped, words } = readiness(parts, hole);
  return (
    <p className="readiness" role="status" data-state={isStopped ? 'stop' : isReady ? 'ready' : 'open'}>
      <Mark name={isStopped ? 'stop' : isReady ? 'tick' : 'close'} size={18} /> {words}
    </p>
  );
}

/** Parts that are a day's own. */
const OF_A_DAY: readonly PartKey[] = ['tide', 'who', 'hazards'];

/** The next gap as one key; what else is missing follows on it. */
function NextAct({
  parts,
  field,
  onPart,
  onDrill,
}: {
  parts: readonly Part[];
  field: FieldDay;
  onPart: (part: PartKey) => void;
  onDrill: () => void;
}) {
  const next = nextPart(parts);
  if (next === null) return <ActionBar mark="on" does="Go to Drill" onClick={onDrill} />;
  const isPast = voidDay(field.day?.cells['date']?.trim() || field.today, field.today) !== null;
  if ((field.day === null || isPast) && OF_A_DAY.includes(next.key)) {
    const tomorrow = dayAfter(field.today);
    return (
      <ActionBar
        mark="plus"
        does="Start the next day"
        says={tomorrow}
        then="or choose another above"
        onClick={() => field.begin(tomorrow)}
      />
    );
  }
  const others = parts
    .filter(({ key, state }) => key !== next.key && (state === 'open' || state === 'stop'))
    .flatMap(({ gaps }) => gaps.slice(0, 1));
  return (
    <ActionBar
      mark={next.state === 'stop' ? 'stop' : 'reading'}
      does={capital(next.says)}
      then={others.length === 0 ? undefined : `then ${others.slice(0, 3).join(', ')}`}
      onClick={() => onPart(next.key)}
    />
  );
}
