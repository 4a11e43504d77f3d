/** A copy each day into a folder: chosen once, what became of it, and what to do where there is none. */
import { capital } from '@stillstand/campaign/tables';
import { useState } from 'react';
import { hasFolders, pickFolder, useDaily } from '../../copies/index.ts';
import { Button, Plate } from '../../parts/index.ts';
import { deviceWords, today } from '../../store/index.ts';

export function DailyCopies() {
  const { daily, state } = useDaily();
  const { choice, last, trouble, needsPress, isWriting } = state;
  const [failure, setFailure] = useState<string | null>(null);
  const choose = async (): Promise<void> => {
    try {
      setFailure(null);
      const folder = await pickFolder();
      if (folder !== null) await daily.choose({ kind: 'folder', folder });
    } catch (error) {
      setFailure(`${capital(deviceWords(error))}. Choose another folder.`);
    }
  };
  const lastWords =
    last === null
      ? 'No daily copy of this campaign yet.'
      : `Last daily copy: ${last.name}, ${last.day === today() ? 'today' : last.day} at ${last.time}.`;
  return (
    <section className="save-part" aria-labelledby="daily-copies">
      <h3 id="daily-copies">A copy each day</h3>
      {hasFolders() || choice.kind === 'folder' ? (
        <p>
          {choice.kind === 'folder'
            ? `With the first change of a day, and when you leave the app after more changes, the campaign is written to the folder “${choice.folder.name}”. The last 14 copies are kept.`
            : 'Choose a folder, best on a memory stick or a disk that is copied elsewhere. The first change of each day writes a copy there.'}
        </p>
      ) : (
        <p>
          This browser cannot write to a folder by itself. It can remind you once a day to save or share a
          copy.
        </p>
      )}
      {choice.kind === 'off' ? null : <p>{isWriting ? 'Writing the copy…' : lastWords}</p>}
      {trouble === null && failure === null ? null : (
        <Plate state="caution" word="No daily copy">
          <p>{failure ?? `${capital(trouble ?? '')}.`}</p>
        </Plate>
      )}
      <p className="daily-acts">
        {choice.kind === 'folder' ? (
          <Button disabled={isWriting} onClick={() => void daily.writeNow()}>
            {needsPress ? 'Allow folder' : 'Write copy now'}
          </Button>
        ) : null}
        {hasFolders() ? (
          <Button disabled={isWriting} onClick={() => void choose()}>
            {choice.kind === 'folder' ? 'Change folder' : 'Choose folder'}
          </Button>
        ) : choice.kind === 'off' ? (
          <Button onClick={() => void daily.choose({ kind: 'remind' })}>Remind me daily</Button>
        ) : null}
        {choice.kind === 'off' ? null : (
          <Button disabled={isWriting} onClick={() => void daily.choose({ kind: 'off' })}>
            {choice.kind === 'folder' ? 'Stop daily copies' : 'Stop reminders'}
          </Button>
        )}
      </p>
    </section>
  );
}
