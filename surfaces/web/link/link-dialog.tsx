/** Two devices on one hotspot exchange their copies: two codes, no internet, no server. */
import { Code, codeBits } from '@stillstand/output/labels';
import { Button, Dialog, fileSize, Plate } from '../parts/index.ts';
import { CodeScanner } from '../scan/index.ts';
import { type Copy, wantReceived } from '../store/index.ts';
import { canLink } from './connection.ts';
import type { Progress } from './conversation.ts';
import { NO_LINK } from './link-words.ts';
import { type Step, useLink } from './use-link.ts';
import './link-dialog.css';

export function LinkDialog({
  campaign,
  name,
  pack,
  onOpen,
  onClose,
}: {
  /** The identity of the campaign that is open; null where none is, or it has none. */
  campaign: string | null;
  name: string;
  /** The copy to send; null to receive only. */
  pack: (() => Promise<Copy>) | null;
  /** The received copy is about to be opened: nothing may be in its way. */
  onOpen: () => void;
  onClose: () => void;
}) {
  const link = useLink({ campaign, name }, pack);
  const { step } = link;
  const received = step.at === 'over' ? step.key : null;
  const foot =
    step.at === 'over' || step.at === 'failed' ? (
      <>
        <Button onClick={link.restart}>Link again</Button>
        {received === null ? (
          <Button kind="main" onClick={onClose}>
            Close
          </Button>
        ) : (
          <Button
            kind="main"
            onClick={() => {
              wantReceived(received);
              onOpen();
            }}
          >
            Open received copy
          </Button>
        )}
      </>
    ) : (
      <Button onClick={onClose}>Cancel link</Button>
    );
  return (
    // A press outside it comes by mistake, and would cut the link.
    <Dialog title="Direct link" onClose={onClose} onLeave={() => undefined} foot={foot}>
      <div className="link" data-step={step.at}>
        {canLink() ? <StepShown step={step} link={link} isSending={pack !== null} /> : <p>{NO_LINK}</p>}
      </div>
    </Dialog>
  );
}

function StepShown({
  step,
  link,
  isSending,
}: {
  step: Step;
  link: ReturnType<typeof useLink>;
  isSending: boolean;
}) {
  switch (step.at) {
    case 'choice':
      return (
        <>
          <p>
            Put both devices on the same hotspot or Wi-Fi; it needs no internet. Then show the code on one
            device and scan it with the other.{' '}
            {isSending
              ? 'Each device receives the copy of the other.'
              : 'This device receives the campaign that is open on the other.'}
          </p>
          <p className="acts">
            <Button kind="main" onClick={() => void link.showCode()}>
              Show code
            </Button>
            <Button mark="photo" onClick={link.scanOffer}>
              Scan code
            </Button>
          </p>
        </>
      );
    case 'preparing':
      return <p role="status">Packing the copy…</p>;
    case 'offer shown':
      return (
        <>
          <p>
            <b>1 of 2.</b> On the other device, open Direct link, press Scan code and hold it over this code.
          </p>
          <ShownCode code={step.code} />
          <p>
            <b>2 of 2.</b> The other device then shows its answer.
          </p>
          <p className="acts">
            <Button kind="main" mark="photo" onClick={() => link.scanAnswer(step.code)}>
              Scan answer
            </Button>
          </p>
        </>
      );
    case 'answer scanned':
      return (
        <>
          <Scanner thing="answer" onCode={link.takeAnswer} />
          <p className="acts">
            <Button onClick={() => link.showOffer(step.code)}>Show code again</Button>
          </p>
        </>
      );
    case 'offer scanned':
      return <Scanner thing="code" onCode={link.takeOffer} />;
    case 'answer shown':
      return (
        <>
          <p role="status">
            <b>2 of 2.</b> On the other device, press Scan answer and hold it over this code. The exchange
            then starts by itself.
          </p>
          <ShownCode code={step.code} />
        </>
      );
    case 'looking':
      return <p role="status">Looking for the other device…</p>;
    case 'talking':
      return <Talking {...step.progress} />;
    case 'failed':
      return (
        <Plate state="caution" word="No link">
          <p>{step.why}</p>
        </Plate>
      );
    case 'over':
      return step.why === null ? (
        <p role="status">
          <b>{doneWords(step.key !== null, step.outcome.isSent)}</b>{' '}
          {step.key === null
            ? 'The other device had none to send.'
            : 'The received copy is kept on this device until you open or delete it.'}
        </p>
      ) : (
        <Plate state="caution" word="Not completed">
          <p>{step.why}</p>
        </Plate>
      );
  }
}

const doneWords = (isReceived: boolean, isSent: boolean): string =>
  isReceived
    ? isSent
      ? 'Copies exchanged.'
      : 'Copy received.'
    : isSent
      ? 'Copy sent.'
      : 'Nothing to exchange.';

const Scanner = ({ thing, onCode }: { thing: string; onCode: (text: string) => string | null }) => (
  <CodeScanner
    thing={thing}
    field={thing === 'code' ? 'Code in letters' : 'Answer in letters'}
    about="The letters that the other device shows under its code; blanks, dashes and small letters do not matter"
    action={thing === 'code' ? 'Enter code' : 'Enter answer'}
    onCode={onCode}
  />
);

function ShownCode({ code }: { code: string }) {
  return (
    <>
      <div className="shown-code">
        <Code bits={codeBits(code)} side_mm={80} words="Code for the camera of the other device" />
      </div>
      <details>
        <summary>Code in letters</summary>
        <p className="code-letters">{code}</p>
      </details>
    </>
  );
}

function Talking({ sent, toSend, received, toReceive }: Progress) {
  const bar = (words: string, done: number, all: number) =>
    all === 0 ? null : (
      <p>
        <span>
          {words} {fileSize(done)} of {fileSize(all)}
        </span>
        <progress value={done} max={all} aria-label={words} />
      </p>
    );
  return (
    <>
      <p role="status">Linked. Keep both screens on and the devices close.</p>
      {bar('Sent', sent, toSend)}
      {bar('Received', received, toReceive)}
    </>
  );
}
