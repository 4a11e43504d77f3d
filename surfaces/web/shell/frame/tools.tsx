/** Tools of the whole campaign: as marks in the rail, with words in the menu. */

import { useEffect, useRef, useState } from 'react';
import { useAgesProgress, useComputation, useProgress } from '../../compute/index.ts';
import { t } from '../../language/index.ts';
import { Button, Mark, type MarkName } from '../../parts/index.ts';
import { useStore } from '../../store/index.ts';
import { useTheme } from '../theme.ts';
import { DailyWords } from './daily-words.tsx';
import './tools.css';

export type ToolName = 'problems' | 'history' | 'help' | 'save';

/** So many changes, or days, that are nowhere else, call for a copy. */
const CHANGES_WITHOUT_COPY = 40;

export function ToolList({
  compact = false,
  grave,
  count,
  onOpen,
}: {
  compact?: boolean;
  /** Problems that stop something. */
  grave: number;
  count: number;
  onOpen: (tool: ToolName) => void;
}) {
  const store = useStore();
  const { theme, setTheme } = useTheme();
  const tool = (mark: MarkName, word: string, act: () => void, disabled = false, badge = '') => (
    <Button
      kind={compact ? 'bare' : 'plain'}
      mark={mark}
      title={word}
      disabled={disabled}
      onClick={act}
      {...(compact ? { 'aria-label': word } : {})}
      className={grave > 0 && badge !== '' ? 'grave' : ''}
    >
      {compact ? badge : word}
    </Button>
  );
  return (
    <div className={compact ? 'tools compact' : 'tools'}>
      {tool('undo', named(t`Undo`, store.undoes()), store.undo, store.readOnly || store.undoes() === null)}
      {tool('redo', named(t`Redo`, store.redoes()), store.redo, store.readOnly || store.redoes() === null)}
      {tool(
        grave > 0 ? 'stop' : count > 0 ? 'note' : 'tick',
        count === 0 ? t`No problems` : count === 1 ? t`1 problem` : t`${count} problems`,
        () => onOpen('problems'),
        false,
        count === 0 ? '' : String(count),
      )}
      {tool('history', t`History`, () => onOpen('history'), store.earlier !== null)}
      {tool('save', t`Save a copy`, () => onOpen('save'), store.earlier !== null)}
      {tool(theme === 'day' ? 'night' : 'day', theme === 'day' ? t`Night` : t`Day`, () =>
        setTheme(theme === 'day' ? 'night' : 'day'),
      )}
      {tool('help', t`Help`, () => onOpen('help'))}
    </div>
  );
}

/** "Undo: add hole H3": what it will take back is said before it is pressed. */
const named = (word: string, what: string | null): string => (what === null ? word : `${word}: ${what}`);

/** Whether the device has everything, what is being computed, and whether a copy is due. */
export function KeptWords({ onSave }: { onSave: () => void }) {
  const store = useStore();
  const at = useSavedAt(store.saved);
  const { changes } = store.keptElsewhere();
  // An earlier state is kept nowhere: the campaign is.
  if (store.earlier !== null)
    return (
      <div className="kept">
        <Computed />
      </div>
    );
  return (
    <div className="kept">
      {store.saved === 'failed' ? (
        <p className="not-kept">
          <Mark name="stop" size={18} /> {t`Not saved: ${store.failure ?? ''}. Save a copy now.`}
        </p>
      ) : (
        <p data-saved={store.saved}>
          {store.saved === 'saving'
            ? t`Saving…`
            : at === null
              ? t`On this device`
              : t`On this device, saved ${at}`}
        </p>
      )}
      <Computed />
      {changes >= CHANGES_WITHOUT_COPY ? (
        <button type="button" className="copy-due" onClick={onSave}>
          <Mark name="close" size={16} /> {t`${changes} changes only here: save a copy`}
        </button>
      ) : null}
      <DailyWords onSave={onSave} />
    </div>
  );
}

function Computed() {
  const { state } = useComputation();
  const progress = useProgress();
  const ages = useAgesProgress();
  const words = {
    final: t`Computed`,
    failed: t`Computing stopped`,
    computing: t`Computing`,
    provisional: t`Computed, without the curve`,
  }[state];
  const isOnWay = state === 'computing' || state === 'provisional';
  const percent = (share: number): number => Math.min(99, Math.floor(share * 100));
  return (
    <p aria-live="polite" data-computed={state}>
      {isOnWay && progress !== null
        ? t`Curve ${percent(progress)} %`
        : isOnWay && ages !== null
          ? t`Ages ${percent(ages.share)} %`
          : words}
    </p>
  );
}

/** The time of day of the last change that reached the device while this page was open. */
function useSavedAt(saved: 'saved' | 'saving' | 'failed'): string | null {
  const [at, setAt] = useState<string | null>(null);
  const before = useRef(saved);
  useEffect(() => {
    if (saved === 'saved' && before.current !== 'saved') {
      const now = new Date();
      setAt(`${String(now.getHours()).padStart(2, '0')}:${String(now.getMinutes()).padStart(2, '0')}`);
    }
    before.current = saved;
  }, [saved]);
  return at;
}
