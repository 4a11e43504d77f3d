/** Campaigns on this device, and the ways to a first one. */
import { capital } from '@stillstand/campaign/tables';
import { useCallback, useEffect, useRef, useState } from 'react';
import { Button, counted, Dialog, Field, FormDialog, Mark, printed } from '../../parts/index.ts';
import { beginFirstSteps, DirectLink, go, type HomeProps, useTheme, writeRoute } from '../../shell/index.ts';
import {
  askToPersist,
  beginCampaign,
  type CampaignRecord,
  campaigns,
  deviceWords,
  type Space,
  space,
  takeAway,
  useUnwritten,
} from '../../store/index.ts';
import './home.css';

const DEMO_KEY = 'stillstand.demo';

export function Home({ bring }: HomeProps) {
  const [list, setList] = useState<readonly CampaignRecord[] | null>(null);
  const [failure, setFailure] = useState<string | null>(null);
  const [asked, setAsked] = useState<'new' | CampaignRecord | null>(null);
  const [room, setRoom] = useState<Space | null>(null);
  const [isLinking, setLinking] = useState(false);
  const { theme, setTheme } = useTheme();
  const unwritten = useUnwritten();
  const chooser = useRef<HTMLInputElement>(null);
  const look = useCallback((): void => {
    campaigns().then(setList, (error: unknown) => setFailure(capital(deviceWords(error))));
  }, []);
  useEffect(() => {
    document.title = 'Stillstand';
    look();
    void space().then(setRoom);
    // Campaigns begun or removed in another window show when this one is looked at.
    addEventListener('focus', look);
    return () => removeEventListener('focus', look);
  }, [look]);

  const openDemo = async (): Promise<void> => {
    const kept = localStorage.getItem(DEMO_KEY);
    if (kept !== null && list?.some((record) => record.id === kept) === true) {
      beginFirstSteps(kept);
      go({ campaign: kept, stage: null, params: {} });
      return;
    }
    try {
      const answer = await fetch('./demo.zip');
      if (!answer.ok) throw new Error(`demo.zip: ${answer.status}`);
      const id = await bring(await answer.blob());
      if (id === null) return;
      localStorage.setItem(DEMO_KEY, id);
      beginFirstSteps(id);
    } catch (error) {
      setFailure(`The demo campaign did not arrive (${error instanceof Error ? error.message : error}).`);
    }
  };
  const isFirst = list?.length === 0;

  return (
    <div className="home">
      <header>
        <h1>Stillstand</h1>
        <p>From the first reading on the rig to the sea-level curve.</p>
        <Button
          kind="bare"
          mark={theme === 'day' ? 'night' : 'day'}
          aria-label={theme === 'day' ? 'Night theme' : 'Day theme'}
          onClick={() => setTheme(theme === 'day' ? 'night' : 'day')}
        />
      </header>
      <main>
        {failure === null ? null : (
          <p className="failure" role="alert">
            <Mark name="stop" size={20} /> {failure}
          </p>
        )}
        {isFirst ? <FirstRun onDemo={() => void openDemo()} /> : null}
        {list === null || isFirst ? null : (
          <section aria-labelledby="kept">
            <h2 id="kept">Campaigns on this device</h2>
            <ul className="campaigns">
              {list.map((record) => (
                <li key={record.id}>
                  <a href={writeRoute({ campaign: record.id, stage: null, params: {} })}>
                    <b>{record.name === '' ? 'Campaign without a name' : record.name}</b>
                    <span className="quiet">
                      {record.read_only ? 'read only, ' : ''}
                      {unwritten.has(record.id)
                        ? 'changes not saved: open it and save a copy'
                        : copyWords(record)}
                    </span>
                  </a>
                  <Button
                    kind="bare"
                    mark="remove"
                    aria-label={`Remove ${record.name} from this device`}
                    onClick={() => setAsked(record)}
                  />
                </li>
              ))}
            </ul>
          </section>
        )}
        <section aria-label="Begin" className="begin">
          {list === null || isFirst ? null : (
            <Button mark="on" onClick={() => void openDemo()}>
              Open the demo
            </Button>
          )}
          <Button mark="plus" onClick={() => setAsked('new')}>
            Begin a campaign
          </Button>
          <Button mark="open" onClick={() => chooser.current?.click()}>
            Open a file
          </Button>
          <input
            ref={chooser}
            type="file"
            accept=".zip,application/zip"
            hidden
            aria-label="A zipped campaign"
            onChange={(event) => {
              const file = event.target.files?.[0];
              event.target.value = '';
              if (file !== undefined) void bring(file);
            }}
          />
          <Button onClick={() => setLinking(true)}>Receive from a device</Button>
          {isLinking ? (
            <DirectLink
              campaign={null}
              name=""
              pack={null}
              onOpen={() => setLinking(false)}
              onClose={() => setLinking(false)}
            />
          ) : null}
          <p className="quiet">
            A campaign is a zip of tables and photos, the same the command line reads. It can also be dropped
            anywhere on this page.
          </p>
        </section>
        <p className="quiet foot">
          Everything stays on this device.
          {room === null
            ? ''
            : ` ${printed(room.used_bytes / 1e6, 0)} MB used; the browser ${room.persistent ? 'promised to keep it' : 'has not promised to keep it'}.`}
        </p>
      </main>
      {asked === 'new' ? <BeginDialog onClose={() => setAsked(null)} /> : null}
      {asked !== null && asked !== 'new' ? (
        <RemoveDialog
          record={asked}
          onClose={() => setAsked(null)}
          onRemove={() => {
            setAsked(null);
            takeAway(asked.id).then(look, (error: unknown) => setFailure(String(error)));
          }}
        />
      ) : null}
    </div>
  );
}

function FirstRun({ onDemo }: { onDemo: () => void }) {
  return (
    <section className="first-run" aria-labelledby="first">
      <h2 id="first">Tour the app in two minutes</h2>
      <ol>
        <li>Open the demo: an invented coast, six holes, 39 dates.</li>
        <li>Walk the stages from the rig to the curve; a line above each says what it is for.</li>
        <li>On the curve, press a number: it shows every reading that made it.</li>
      </ol>
      <Button kind="main" mark="on" onClick={onDemo}>
        Open the demo campaign
      </Button>
    </section>
  );
}

function BeginDialog({ onClose }: { onClose: () => void }) {
  const [name, setName] = useState('');
  const [failure, setFailure] = useState<string | null>(null);
  const begin = async (): Promise<void> => {
    try {
      // Asked here, where the person means to keep something: browsers grant it sooner.
      void askToPersist();
      go({ campaign: await beginCampaign(name.trim()), stage: null, params: {} });
    } catch (error) {
      setFailure(`Not created: ${deviceWords(error)}. Free up storage, then try again.`);
    }
  };
  return (
    <FormDialog
      title="Begin a campaign"
      action="Begin"
      isReady={name.trim() !== ''}
      onSubmit={() => void begin()}
      onClose={onClose}
    >
      <Field
        name="Name of the campaign"
        fault={failure}
        help={{ about: 'Coast and year, as you would write it on the field book; it can be changed later' }}
      >
        {(input) => (
          <input
            {...input}
            // biome-ignore lint/a11y/noAutofocus: the dialog asks for this alone
            autoFocus
            autoComplete="off"
            value={name}
            onChange={(event) => setName(event.target.value)}
          />
        )}
      </Field>
    </FormDialog>
  );
}

function RemoveDialog({
  record,
  onClose,
  onRemove,
}: {
  record: CampaignRecord;
  onClose: () => void;
  onRemove: () => void;
}) {
  return (
    <Dialog
      title={`Remove “${record.name}”?`}
      onClose={onClose}
      foot={
        <>
          <Button onClick={onClose}>Keep it</Button>
          <Button kind="danger" mark="remove" onClick={onRemove}>
            Remove from this device
          </Button>
        </>
      }
    >
      <p>
        {record.exported_ms === null
          ? 'No copy of it was ever saved from here.'
          : record.changes_since_export === 0
            ? 'A copy of it as it stands was saved.'
            : `${counted(record.changes_since_export, 'change')} since the last copy are nowhere else.`}{' '}
        Removing cannot be undone.
      </p>
    </Dialog>
  );
}

const copyWords = ({ exported_ms, changes_since_export: changes }: CampaignRecord): string =>
  exported_ms === null
    ? changes === 0
      ? 'as it was opened'
      : `${counted(changes, 'change')}, no copy saved`
    : changes === 0
      ? 'copy saved'
      : `${counted(changes, 'change')} since the last copy`;
