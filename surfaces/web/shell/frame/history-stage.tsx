/** The history in the frame: its list, or an earlier state compared with now. */
import { lazy, Suspense, useContext } from 'react';
import { actCalled, actName, earlierId, useStore } from '../../store/index.ts';
import { go, useNavigate } from '../route.ts';
import { OpenRowContext } from '../rows/row-dialog.tsx';
import type { StageProps } from '../stage.ts';
import { HeadTitle } from './head-slot.tsx';

const HistoryPage = lazy(() =>
  import('../../history/index.ts').then((room) => ({ default: room.HistoryPage })),
);
const ComparePage = lazy(() =>
  import('../../history/index.ts').then((room) => ({ default: room.ComparePage })),
);

export function HistoryStage({ params }: StageProps) {
  const store = useStore();
  const navigate = useNavigate();
  const onOpenRow = useContext(OpenRowContext);
  const { compare } = params;
  const act = compare === undefined ? undefined : actCalled(store.acts(), compare);
  const onShow = (at: typeof act = null): void =>
    go({ campaign: earlierId(store.id, at), stage: null, params: {} });
  return (
    <Suspense fallback={<p role="status">Opening the history…</p>}>
      <HeadTitle>
        <h1>{act === undefined ? 'History' : 'Compared with now'}</h1>
      </HeadTitle>
      {act === undefined ? (
        <HistoryPage
          onOpenRow={onOpenRow}
          onShow={onShow}
          onCompare={(at) => navigate('history', { compare: actName(at) })}
        />
      ) : (
        <ComparePage act={act} onOpenRow={onOpenRow} onShow={onShow} onBack={() => navigate('history')} />
      )}
    </Suspense>
  );
}
