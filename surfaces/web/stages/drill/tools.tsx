/** What is always within one press: the stroke of the run in hand, the usual readings, a photo, the log. */

import type { HoleState } from '@stillstand/campaign/holes';
import { type ComponentProps, useRef, useState } from 'react';
import { t } from '../../language/index.ts';
import { Mark, type MarkName } from '../../parts/index.ts';
import { deviceWords } from '../../store/index.ts';
import { stroke } from './book/record.ts';
import { FORM_OF, MARK_OF, TOOL_WORDS, toolsOf } from './next/action-words.ts';
import type { Push } from './numbers/push-hole.ts';
import type { Opened } from './opened.ts';
import type { Shown } from './shown.ts';
import type { DrillStore } from './tape/decimal-points.ts';
import './tools.css';

export function Tools({
  store,
  now,
  shown,
  opened,
}: {
  store: DrillStore;
  now: HoleState;
  shown: Shown;
  opened: Opened;
}) {
  const { byString, next, tape, pushes } = shown;
  const hole = now.row.hole;
  /** Why a photo was not kept. */
  const [lost, setLost] = useState('');
  const photo = useRef<HTMLInputElement>(null);
  const pictured = photoOf(now, pushes);
  const photos = store
    .rows('photos')
    .filter((r) => r.cells['hole'] === hole && (r.cells['run'] ?? '') === (pictured.run ?? '')).length;
  const takePhoto = async (file: File): Promise<void> => {
    try {
      const path = await store.addFile(new Uint8Array(await file.arrayBuffer()), file.type || 'image/jpeg');
      store.addRow('photos', { hole, file: path, ...pictured });
      setLost('');
      opened.say(t`Photo kept.`);
    } catch (error) {
      setLost(deviceWords(error));
    }
  };
  return (
    <>
      <nav className="drill-tools" aria-label={t`other entries`} data-by={byString ? 'string' : 'push'}>
        {byString ? (
          <Key
            mark="stroke"
            className="stroke"
            count={now.run === null ? null : `${now.run.strokes ?? 0} +1`}
            held={now.run === null ? t`Strokes are counted during a run` : null}
            onClick={() => (now.run === null ? opened.openForm('run') : stroke(store, now))}
            disabled={store.readOnly}
          >{t`Stroke`}</Key>
        ) : null}
        <div className="rest">
          {(byString ? toolsOf(now, next.name, tape.length > 1) : []).map(({ name, held }) => (
            <Key
              key={name}
              mark={MARK_OF[name]}
              held={held}
              onClick={() => opened.openForm(FORM_OF[name]!)}
              disabled={store.readOnly}
            >
              {TOOL_WORDS[name]}
            </Key>
          ))}
          <Key
            mark="photo"
            count={photos === 0 ? null : String(photos)}
            onClick={() => photo.current?.click()}
            disabled={store.readOnly}
          >{t`Photo`}</Key>
          <Key
            mark="amended"
            aria-pressed={opened.below?.kind === 'book'}
            onClick={() => opened.turn('book')}
          >{t`Log`}</Key>
        </div>
        <input
          ref={photo}
          className="unseen"
          tabIndex={-1}
          type="file"
          accept="image/*"
          capture="environment"
          aria-label={t`Take a photo`}
          onChange={(event) => {
            const file = event.target.files?.[0];
            if (file !== undefined) void takePhoto(file);
            event.target.value = '';
          }}
        />
      </nav>

      {lost === '' ? null : (
        <p className="photo-lost" role="alert">
          <Mark name="stop" size={20} /> {t`Photo not saved (${lost}). Free up storage, then take it again.`}
        </p>
      )}
    </>
  );
}

/** A key of the row; one that is held keeps its place, its edge broken and its word quiet, and can be pressed. */
function Key({
  mark,
  count = null,
  held = null,
  children,
  ...rest
}: ComponentProps<'button'> & { mark: MarkName; count?: string | null; held?: string | null }) {
  return (
    <button type="button" {...rest} data-held={held !== null} title={held ?? undefined}>
      <span className="word">{children}</span>{' '}
      <span className="sign">
        <Mark name={mark} />
        {count === null ? null : <strong>{count}</strong>}
      </span>
    </button>
  );
}

/** What a picture taken now is of: the last run or push, else the hole. */
function photoOf(now: HoleState, pushes: readonly Push[]): { depth_basis?: string; run?: string } {
  const run = now.readings.findLast((r) => r.kind === 'run');
  if (run?.kind === 'run') return { depth_basis: 'run', run: run.run };
  const push = pushes.at(-1);
  return push === undefined ? {} : { depth_basis: 'push', run: push.label };
}
