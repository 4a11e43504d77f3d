/**
 * What the device refuses to keep, what was undone or refused and why, what another window's change made necessary: where
 * nobody can miss it, until it is read or outdated.
 */
import { Button, counted, Mark } from '../../parts/index.ts';
import { useStore } from '../../store/index.ts';
import { ArrivalNewsLine } from '../arrivals/arrival-news.tsx';
import { ConflictsNotice } from '../merge/conflicts-notice.tsx';
import './store-news.css';

export function StoreNews() {
  const store = useStore();
  const news = store.news();
  return (
    <div className="store-news" role="status">
      {store.saved === 'failed' ? (
        <p className="not-kept" role="alert">
          <Mark name="stop" size={20} />
          <span>
            <b>Not saved: {store.failure}.</b>{' '}
            {store.unsaved.size === 0
              ? ''
              : `${counted(store.unsaved.size, 'row is', 'rows are')} on this screen only. `}
            Do not close the app. Free up storage and save a copy; it is tried again every two seconds.
          </span>
        </p>
      ) : null}
      <ArrivalNewsLine />
      {news === null ? null : (
        <p className={news.isRefusal ? 'refused' : undefined}>
          <Mark name={news.isRefusal ? 'close' : 'note'} size={20} />
          <span>{news.words}</span>
          <Button kind="bare" mark="cross" aria-label="Close message" onClick={store.forgetNews} />
        </p>
      )}
      <ConflictsNotice />
    </div>
  );
}
