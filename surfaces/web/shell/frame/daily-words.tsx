/** Next to *saved*: the last daily copy, or why there is none today. */
import { useDaily } from '../../copies/index.ts';
import { t } from '../../language/index.ts';
import { download, fileName, Mark } from '../../parts/index.ts';
import { today, useStore } from '../../store/index.ts';

export function DailyWords({ onSave }: { onSave: () => void }) {
  const store = useStore();
  const { daily, state } = useDaily();
  const { choice, last, trouble, needsPress, isDue, isWriting } = state;
  const when = last === null ? t`none yet` : last.day === today() ? last.time : last.day;
  if (choice.kind === 'off') return null;
  if (isWriting) return <p>{t`Writing the daily copy…`}</p>;
  if (trouble !== null)
    return (
      <button
        type="button"
        className="copy-due"
        onClick={needsPress ? () => void daily.writeNow() : onSave}
        title={trouble}
      >
        <Mark name="close" size={16} />{' '}
        {needsPress
          ? t`No daily copy: allow the folder. Last copy: ${when}`
          : t`No daily copy: see why. Last copy: ${when}`}
      </button>
    );
  if (isDue)
    return (
      <button
        type="button"
        className="copy-due"
        onClick={() => {
          const name = `${fileName(store.name())}.zip`;
          void store.exportZip().then((zip) => {
            download(zip, name);
            return daily.noteSaved(name);
          }, onSave);
        }}
      >
        <Mark name="close" size={16} /> {t`No copy today: save one now. Last copy: ${when}`}
      </button>
    );
  return <p>{t`Daily copy: ${when}`}</p>;
}
