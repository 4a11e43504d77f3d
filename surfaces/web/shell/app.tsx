/** The whole app: home, or one campaign; a campaign dropped anywhere is imported. */
import type { Problem } from '@stillstand/campaign/problems';
import { type ComponentType, useEffect, useState } from 'react';
import { Button, Dialog, useAnyUnsaved } from '../parts/index.ts';
import { bringCampaign } from '../store/index.ts';
import { CampaignFrame } from './frame/campaign-frame.tsx';
import { type NewerBuild, useNewerBuild } from './offline.ts';
import { ReceivedCopies } from './received-copies.tsx';
import { go, useRoute } from './route.ts';
import { ProblemList } from './rows/problems-sheet.tsx';
import type { Stage } from './stage.ts';
import './app.css';

export interface HomeProps {
  /** Takes a file in as a campaign; its id, or null where it could not be opened. */
  bring: (file: Blob) => Promise<string | null>;
}

export function App({ Home, stages }: { Home: ComponentType<HomeProps>; stages: readonly Stage[] }) {
  const { campaign } = useRoute();
  const [refused, setRefused] = useState<readonly Problem[] | null>(null);
  const [isBringing, setBringing] = useState(false);
  const newer = useNewerBuild();

  const bring = async (file: Blob): Promise<string | null> => {
    setBringing(true);
    const brought = await bringCampaign(file).finally(() => setBringing(false));
    if (brought.ok) {
      go({ campaign: brought.id, stage: null, params: {} });
      return brought.id;
    }
    setRefused(brought.problems);
    return null;
  };
  useDroppedFile((file) => void bring(file));

  return (
    <>
      {campaign === null ? (
        <Home bring={bring} />
      ) : (
        <CampaignFrame key={campaign} id={campaign} stages={stages} />
      )}
      {isBringing ? (
        <p className="bringing" role="status">
          Reading the file…
        </p>
      ) : null}
      {refused === null ? null : (
        <Dialog
          title="File could not be opened"
          onClose={() => setRefused(null)}
          foot={
            <Button kind="main" onClick={() => setRefused(null)}>
              Close
            </Button>
          }
        >
          <p>Nothing on this device was changed.</p>
          <ProblemList problems={refused} />
        </Dialog>
      )}
      <ReceivedCopies bring={bring} />
      {newer === null ? null : <Newer build={newer} />}
    </>
  );
}

/** A newer build, taken when the person says so; never from under a form that is half filled. */
function Newer({ build }: { build: NewerBuild }) {
  const isUnsaved = useAnyUnsaved();
  return (
    <p className="newer" role="status">
      {build.isTakenElsewhere
        ? 'Updated in another window. Reload this one to match. '
        : 'A new version is ready. '}
      {isUnsaved ? <b>Save or close the open form first. </b> : null}
      <Button disabled={isUnsaved} onClick={build.take}>
        {build.isTakenElsewhere ? 'Reload now' : 'Update now'}
      </Button>
    </p>
  );
}

/** Files dropped anywhere on the page; the browser would leave the app to show them otherwise. */
function useDroppedFile(onFile: (file: File) => void): void {
  useEffect(() => {
    const hold = (event: DragEvent): void => {
      if (event.dataTransfer?.types.includes('Files') !== true) return;
      event.preventDefault();
      // A stage that takes files itself (photos, laboratory tables) handles them before.
      const file = event.dataTransfer.files[0];
      if (event.type === 'drop' && file !== undefined && /\.zip$/i.test(file.name)) onFile(file);
    };
    addEventListener('dragover', hold);
    addEventListener('drop', hold);
    return () => {
      removeEventListener('dragover', hold);
      removeEventListener('drop', hold);
    };
  });
}
