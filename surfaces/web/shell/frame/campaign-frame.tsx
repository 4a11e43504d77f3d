/** One open campaign: its store, its computation, and the stage that is shown. */
import type { TraceId } from '@stillstand/campaign/results';
import { Component, lazy, type ReactNode, Suspense, useEffect, useMemo, useState } from 'react';
import { type Computing, ComputingContext, computing, useCurveWanted } from '../../compute/index.ts';
import { DailyContext, dailyCopiesOf } from '../../copies/index.ts';
import { Button, ChangedContext, Plate, TraceContext } from '../../parts/index.ts';
import { type CampaignRecord, campaigns, openAny, type Store, StoreContext } from '../../store/index.ts';
import { ArrivalsContext } from '../arrivals/arrival-news.tsx';
import { type Arrivals, arrivals } from '../arrivals/changed-numbers.ts';
import { MERGE_PAGE } from '../merge/copy.ts';
import { useNavigate, useRoute, writeRoute } from '../route.ts';
import { PLACES, type RowPlace } from '../rows/places.ts';
import { OpenRowContext, RowDialog } from '../rows/row-dialog.tsx';
import { TracePanel } from '../rows/trace-panel.tsx';
import type { Stage, StageProps } from '../stage.ts';
import { FirstSteps } from './first-steps.tsx';
import { Frame } from './frame.tsx';
import { HeadContext } from './head-slot.tsx';
import { HistoryStage } from './history-stage.tsx';

const MergePage = lazy(async () => ({ default: (await import('../merge/merge-page.tsx')).MergePage }));

/** What is there while a campaign is open. */
type Opened = { store: Store; computing: Computing; arrived: Arrivals } & ReturnType<typeof dailyCopiesOf>;

export function CampaignFrame({ id, stages }: { id: string; stages: readonly Stage[] }) {
  const [open, setOpen] = useState<Opened | 'opening' | 'gone' | { failure: string }>('opening');
  /** What is said once it is opened again, after it was put back to before a merge. */
  const [said, setSaid] = useState<{ words: string } | null>(null);
  useEffect(() => {
    let opened: Opened | null = null;
    let isOver = false;
    const close = ({ store, computing, arrived, leave }: Opened): void => {
      arrived.stop();
      computing.stop();
      void leave();
      void store.close();
    };
    void openAny(id).then(
      (store) => {
        if (store === null) {
          if (!isOver) setOpen('gone');
          return;
        }
        const computed = computing(store);
        opened = {
          store,
          computing: computed,
          arrived: arrivals(store, computed),
          ...dailyCopiesOf(store),
        };
        if (isOver) {
          close(opened);
          return;
        }
        if (said !== null) store.say(said.words);
        store.subscribe(() => {
          if (store.isOver !== null) setSaid({ words: store.isOver });
        });
        setOpen(opened);
      },
      (error: unknown) => {
        if (!isOver) setOpen({ failure: error instanceof Error ? error.message : String(error) });
      },
    );
    return () => {
      isOver = true;
      if (opened !== null) close(opened);
    };
  }, [id, said]);

  if (open === 'opening') {
    return (
      <p className="page-words" role="status">
        Opening the campaign…
      </p>
    );
  }
  if (open !== 'gone' && 'failure' in open) {
    return (
      <div className="page-words">
        <Plate state="danger" word="The campaign does not open">
          <p>What the device said: {open.failure}. Nothing was changed.</p>
        </Plate>
        <p>
          <Button onClick={() => location.reload()}>Try again</Button>
        </p>
      </div>
    );
  }
  if (open === 'gone') return <NoCampaign />;
  return (
    <StoreContext value={open.store}>
      <ComputingContext value={open.computing}>
        <DailyContext value={open.daily}>
          <ArrivalsContext value={open.arrived}>
            <ChangedContext value={open.arrived}>
              <OpenCampaign stages={stages} />
            </ChangedContext>
          </ArrivalsContext>
        </DailyContext>
      </ComputingContext>
    </StoreContext>
  );
}

/** An address that names no campaign of this device. */
function NoCampaign() {
  const [kept, setKept] = useState<readonly CampaignRecord[]>([]);
  useEffect(() => {
    // Home says why, where the device does not answer.
    campaigns().then(setKept, () => undefined);
  }, []);
  return (
    <main className="page-words">
      <h1 className="unseen">Stillstand</h1>
      <Plate state="caution" word="This campaign is not on this device">
        <p>
          It was removed here, or the address belongs to another device. A copy saved as a zip can be opened
          at home.
        </p>
      </Plate>
      <nav className="stage-list" aria-label="Campaigns on this device">
        {kept.map(({ id, name }) => (
          <a key={id} href={writeRoute({ campaign: id, stage: null, params: {} })}>
            {name === '' ? 'Campaign without a name' : name}
          </a>
        ))}
        <a href="#/">Home</a>
      </nav>
    </main>
  );
}

function OpenCampaign({ stages }: { stages: readonly Stage[] }) {
  const route = useRoute();
  const navigate = useNavigate();
  const [traced, setTraced] = useState<TraceId | null>(null);
  const [row, setRow] = useState<RowPlace | null>(null);
  const [title, setTitle] = useState<HTMLElement | null>(null);
  const [aside, setAside] = useState<HTMLElement | null>(null);
  const [hasOwnTitle, setOwnTitle] = useState(false);
  const places = useMemo(() => ({ title, aside, setOwnTitle }), [title, aside]);
  const inAddress = (address: string): Stage | undefined =>
    stages.find(({ name }) => name.toLowerCase() === address);
  const isHistory = route.stage === 'history';
  const shown = route.stage === null ? stages[0] : inAddress(route.stage);
  const openStage = (place: RowPlace): (() => void) | null => {
    const stage = PLACES[place.table];
    if (inAddress(stage.toLowerCase()) === undefined) return null;
    return () => {
      setRow(null);
      setTraced(null);
      navigate(stage, { table: place.table, row: place.row_id });
    };
  };
  return (
    <HeadContext value={places}>
      <OpenRowContext value={setRow}>
        <TraceContext value={setTraced}>
          <Frame
            stages={stages}
            current={shown ?? null}
            titlePlace={setTitle}
            asidePlace={setAside}
            hasOwnTitle={hasOwnTitle}
            onOpenRow={setRow}
          >
            <FirstSteps stages={stages} current={shown?.name ?? null} />
            {route.stage === MERGE_PAGE ? (
              <Guard key="merge" name="The merge">
                <Suspense fallback={<p role="status">Opening the copy…</p>}>
                  <MergePage />
                </Suspense>
              </Guard>
            ) : isHistory ? (
              <Guard key="history" name="The history">
                <HistoryStage params={route.params} />
              </Guard>
            ) : shown === undefined ? (
              <NoStage asked={route.stage ?? ''} stages={stages} />
            ) : (
              <Guard key={shown.name} name={shown.name}>
                <Suspense fallback={<p role="status">Opening {shown.name}…</p>}>
                  <Shown stage={shown} params={route.params} />
                </Suspense>
              </Guard>
            )}
          </Frame>
          {traced === null ? null : (
            <TracePanel key={traced} id={traced} onOpen={setRow} onClose={() => setTraced(null)} />
          )}
          {row === null ? null : (
            <RowDialog
              key={`${row.table}/${row.row_id}`}
              place={row}
              stage={openStage(row)}
              onClose={() => setRow(null)}
            />
          )}
        </TraceContext>
      </OpenRowContext>
    </HeadContext>
  );
}

/** An address that names no stage: mistyped, or of another version. */
function NoStage({ asked, stages }: { asked: string; stages: readonly Stage[] }) {
  const { campaign } = useRoute();
  return (
    <div className="page-words">
      <Plate state="caution" word="There is no such stage">
        <p>
          Found “{asked}” in the address; expected one of these. The campaign is open and nothing was changed.
        </p>
      </Plate>
      <nav className="stage-list" aria-label="Stages there are">
        {stages.map(({ name }) => (
          <a key={name} href={writeRoute({ campaign, stage: name.toLowerCase(), params: {} })}>
            {name}
          </a>
        ))}
      </nav>
    </div>
  );
}

function Shown({ stage, params }: { stage: Stage; params: StageProps['params'] }) {
  useCurveWanted(stage.withoutCurve !== true);
  return <stage.Page params={params} />;
}

/** A fault in one stage's drawing leaves the rest, and all that was entered, untouched. */
class Guard extends Component<{ name: string; children: ReactNode }, { fault: Error | null }> {
  override state: { fault: Error | null } = { fault: null };
  static getDerivedStateFromError(fault: Error): { fault: Error } {
    return { fault };
  }
  override render(): ReactNode {
    const { fault } = this.state;
    if (fault === null) return this.props.children;
    return (
      <Plate state="danger" word={`${this.props.name} cannot be shown`}>
        <p>Everything entered is kept; the other stages work. What the program said: {fault.message}</p>
        <p>
          <Button onClick={() => this.setState({ fault: null })}>Show it again</Button>
        </p>
      </Plate>
    );
  }
}
