/** The course of one link, from the choice of who shows the first code to what became of it. */
import { useEffect, useRef, useState } from 'react';
import { type Copy, deviceWords, keepReceived } from '../store/index.ts';
import { answer, type Linking, type Offering, offer } from './connection.ts';
import { converse, type Hello, type Outcome, type Progress, type Wire } from './conversation.ts';
import { NO_PATH, troubleWords } from './link-words.ts';
import { readPairing } from './pairing.ts';

export type Step =
  | { at: 'choice' }
  | { at: 'preparing' }
  | { at: 'offer shown' | 'answer scanned' | 'answer shown'; code: string }
  | { at: 'offer scanned' }
  | { at: 'looking' }
  | { at: 'talking'; progress: Progress }
  /** `key`: of the copy that was received and kept. */
  | { at: 'over'; outcome: Outcome; key: string | null; why: string | null }
  | { at: 'failed'; why: string };

export function useLink(us: Hello, pack: (() => Promise<Copy>) | null) {
  const [step, setStep] = useState<Step>({ at: 'choice' });
  const linking = useRef<Linking | null>(null);
  const stop = useRef(new AbortController());
  useEffect(() => {
    return () => {
      stop.current.abort();
      linking.current?.close();
    };
  }, []);
  useScreenOn(step.at !== 'choice' && step.at !== 'over' && step.at !== 'failed');

  const fail = (why: string): void => setStep({ at: 'failed', why });
  const talk = async (wire: Wire, copy: Copy | null): Promise<void> => {
    const nothing: Progress = { sent: 0, toSend: copy?.zip.size ?? 0, received: 0, toReceive: 0 };
    setStep({ at: 'talking', progress: nothing });
    const show = (progress: Progress): void => setStep({ at: 'talking', progress });
    const outcome = await converse(wire, us, copy?.zip ?? null, show, stop.current.signal);
    if (outcome.isSent) await copy?.wasKept();
    const { received, them, trouble } = outcome;
    const key = received === null ? null : await keepReceived(received, `${them?.name || 'copy'}.zip`);
    setStep({
      at: 'over',
      outcome,
      key,
      why: trouble === null ? null : troubleWords(trouble, us.name, outcome),
    });
  };
  /** Packs first: from then on the other device is not kept waiting. */
  const begin = async <L extends Linking>(
    make: () => Promise<L>,
    shown: (link: L) => void,
  ): Promise<void> => {
    setStep({ at: 'preparing' });
    stop.current = new AbortController();
    try {
      const copy = (await pack?.()) ?? null;
      const link = await make();
      linking.current = link;
      shown(link);
      link.opened.then(
        (wire) => talk(wire, copy),
        () => {
          // One that was given up for the next says nothing more.
          if (linking.current === link) fail(NO_PATH);
        },
      );
    } catch (error) {
      fail(`The link was not made: ${deviceWords(error)}. Save the zip and carry the file.`);
    }
  };

  return {
    step,
    restart: () => {
      const last = linking.current;
      linking.current = null;
      last?.close();
      setStep({ at: 'choice' });
    },
    showCode: () => begin(offer, ({ code }) => setStep({ at: 'offer shown', code })),
    scanOffer: () => setStep({ at: 'offer scanned' }),
    scanAnswer: (code: string) => setStep({ at: 'answer scanned', code }),
    showOffer: (code: string) => setStep({ at: 'offer shown', code }),
    /** What was scanned or typed; why it leads nowhere, or null. */
    takeOffer: (text: string): string | null => {
      const read = readPairing(text);
      if (!read.ok) return read.why;
      const { pairing } = read;
      if (pairing.kind !== 'offer')
        return 'This is an answer. Scan the first code, on the device that shows it.';
      void begin(
        () => answer(pairing),
        ({ code }) => setStep({ at: 'answer shown', code }),
      );
      return null;
    },
    takeAnswer: (text: string): string | null => {
      const read = readPairing(text);
      if (!read.ok) return read.why;
      const why = (linking.current as Offering).accept(read.pairing);
      if (why === null) setStep({ at: 'looking' });
      return why;
    },
  };
}

/** A screen that goes off ends a link; browsers that cannot hold it on leave it to the person. */
function useScreenOn(isOn: boolean): void {
  useEffect(() => {
    if (!isOn) return;
    const held = navigator.wakeLock?.request('screen').catch(() => null);
    return () => void held?.then((lock) => lock?.release());
  }, [isOn]);
}
