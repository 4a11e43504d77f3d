/** What was undone, what was refused and why, what another window's change made necessary: until it is read or outdated. */
import { Button, Mark } from '../parts/index.ts';
import { useStore } from '../store/index.ts';
import './store-news.css';

export function StoreNews() {
  const store = useStore();
  const news = store.news();
  return (
    <div className="store-news" role="status">
      {news === null ? null : (
        <p className={news.isRefusal ? 'refused' : undefined}>
          <Mark name={news.isRefusal ? 'close' : 'note'} size={20} />
          <span>{news.words}</span>
          <Button kind="bare" mark="cross" aria-label="Close message" onClick={store.forgetNews} />
        </p>
      )}
    </div>
  );
}
