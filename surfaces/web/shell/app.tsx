/** The whole app: home, or one campaign; a campaign dropped anywhere is imported. */
import type { Problem } from '@stillstand/campaign/problems';
import { type ComponentType, useEffect, useState } from 'react';
import { Button, Dialog, useAnyUnsaved } from '../parts/index.ts';
import { type CampaignRecord, copiesHere, keepCampaign, readCampaign } from '../store/index.ts';
import { CampaignFrame } from './frame/campaign-frame.tsx';
import { type Arrival, askedOf } from './merge/arrival.ts';
import { ArrivalDialog } from './merge/arrival-dialog.tsx';
import { type Arrivals, ArrivalsContext, type Copy, MERGE_PAGE, type Target } from './merge/copy.ts';
import { type NewerBuild, useNewerBuild } from './offline.ts';
import { ReceivedCopies } from './received-copies.tsx';
import { currentRoute, go, useRoute } from './route.ts';
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

  const [arrival, setArrival] = useState<Arrival | null>(null);
  const [copy, setCopy] = useState<Copy | null>(null);

  const keep = async ({ arrived, whenKept }: Arrival): Promise<string | null> => {
    const kept = await keepCampaign(arrived);
    if (!kept.ok) {
      setRefused(kept.problems);
      return null;
    }
    whenKept();
    go({ campaign: kept.id, stage: null, params: {} });
    return kept.id;
  };
  const look = ({ arrived, whenKept }: Arrival, into: Target): void => {
    setArrival(null);
    const from = currentRoute();
    setCopy({
      arrived,
      into: into.id,
      whenKept,
      from:
        from.campaign === into.id && from.stage !== MERGE_PAGE
          ? from
          : { campaign: into.id, stage: null, params: {} },
    });
    go({ campaign: into.id, stage: MERGE_PAGE, params: {} });
  };
  const taken = async (file: Blob, into: Target | null, whenKept: () => void): Promise<string | null> => {
    const read = await readCampaign(file);
    if (!read.ok) {
      setRefused(read.problems);
      return null;
    }
    const { arrived } = read;
    // A device that does not answer says so when the campaign is to be kept.
    const here = await copiesHere(arrived).then(
      (records) => records.map(asTarget),
      () => [],
    );
    const came = { arrived, here, into, whenKept };
    const asked = askedOf(came);
    if (asked === null) return await keep(came);
    const isClear = into !== null && asked.kind === 'here' && asked.targets.length === 1;
    if (isClear && arrived.unpacked.problems.length === 0) look(came, into);
    else setArrival(came);
    return null;
  };
  const bring: Arrivals['bring'] = async (file, into = null, whenKept = () => undefined) => {
    setBringing(true);
    return await taken(file, into, whenKept).finally(() => setBringing(false));
  };
  const arrivals: Arrivals = {
    copy,
    bring,
    leave: () => {
      const back = copy?.from ?? { campaign, stage: null, params: {} };
      setCopy(null);
      go(back);
    },
  };
  useDroppedFile((file) => void bring(file));

  return (
    <>
      {campaign === null ? (
        <Home bring={bring} />
      ) : (
        <ArrivalsContext value={arrivals}>
          <CampaignFrame key={campaign} id={campaign} stages={stages} />
        </ArrivalsContext>
      )}
      {isBringing ? (
        <p className="bringing" role="status">
          Reading the file…
        </p>
      ) : null}
      {arrival === null ? null : (
        <ArrivalDialog
          arrival={arrival}
          onMerge={(into) => look(arrival, into)}
          onOpen={() => {
            setArrival(null);
            void keep(arrival);
          }}
          onClose={() => setArrival(null)}
        />
      )}
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

const asTarget = ({ id, name, package_id = null, read_only }: CampaignRecord): Target => ({
  id,
  name,
  package_id,
  read_only,
});

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
