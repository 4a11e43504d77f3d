/**
 * What two linked devices say to each other: who they are, then their copies, both ways at once. A copy counts as received
 * when its SHA-256 is that of the sender, and as sent when the other said so. Whatever ends it early, both keep what
 * they had, and a copy that arrived whole is kept.
 */

/** A link that is open; what is sent arrives in its order, or the link ends. */
export interface Wire {
  send(data: string | Uint8Array<ArrayBuffer>): void;
  /** Resolves when more may be sent, at once where it may. */
  ready(): Promise<void>;
  onMessage: (data: string | ArrayBuffer) => void;
  onClose: () => void;
  close(): void;
}

export interface Hello {
  /** The campaign's identity; null from a device that has none open, and only receives. */
  campaign: string | null;
  name: string;
}

export type Trouble =
  | 'version'
  | 'other campaign'
  | 'too large'
  | 'cut'
  | 'silent'
  | 'cancelled'
  | 'cancelled there'
  | 'damaged'
  | 'damaged there';

export interface Progress {
  sent: number;
  toSend: number;
  received: number;
  toReceive: number;
}

export interface Outcome {
  /** The other's copy, whole. */
  received: Blob | null;
  /** The other device has ours, whole. */
  isSent: boolean;
  them: Hello | null;
  trouble: Trouble | null;
}

const PROTOCOL = 1;
/** Bytes of one message; every browser takes 64 KiB, and small ones show progress on a slow link. */
const CHUNK = 32_768;
/** Larger copies are not opened either (store/library.ts). */
const MOST_BYTES = 2 ** 30;
/** Received bytes that wait in memory until a Blob has them. */
const WAITING = 8 * 2 ** 20;
/** Letters of a name that are shown. */
const LONGEST_NAME = 100;
const SAY_HERE_MS = 3000;
/** A screen that is off says nothing; a slow device that sums up a large copy does. */
const SILENT_MS = 30_000;

type SaidHello = Hello & { type: 'hello'; protocol: number; bytes: number };
type Objection = 'version' | 'other campaign' | 'too large';
type Message =
  | SaidHello
  | { type: 'refused'; why: Objection }
  | { type: 'end'; sha256: string }
  | { type: 'got' }
  | { type: 'damaged' }
  | { type: 'here' }
  | { type: 'cancel' }
  | { type: 'bye' };

/** Exchanges copies over a wire that is open; `zip` null: nothing to send. Never rejects. */
export function converse(
  wire: Wire,
  us: Hello,
  zip: Blob | null,
  onProgress: (progress: Progress) => void,
  signal: AbortSignal,
): Promise<Outcome> {
  return new Promise((resolve) => {
    const progress: Progress = { sent: 0, toSend: zip?.size ?? 0, received: 0, toReceive: 0 };
    let them: Hello | null = null;
    let parts: Blob[] = [];
    let waiting: ArrayBuffer[] = [];
    let waitingBytes = 0;
    let received: Blob | null = null;
    let isReceived = false;
    let isSent = zip === null;
    let isTheirsDone = false;
    let isOver = false;
    let heard_ms = Date.now();

    const say = (message: Message): void => wire.send(JSON.stringify(message));
    const end = (trouble: Trouble | null): void => {
      if (isOver) return;
      isOver = true;
      clearInterval(here);
      signal.removeEventListener('abort', cancel);
      wire.close();
      resolve({ received, isSent: isSent && zip !== null, them, trouble });
    };
    const refuse = (why: Objection): void => {
      say({ type: 'refused', why });
      end(why);
    };
    const cancel = (): void => {
      try {
        say({ type: 'cancel' });
      } finally {
        end('cancelled');
      }
    };
    const here = setInterval(() => {
      if (Date.now() - heard_ms > SILENT_MS) end('silent');
      else attempt(() => say({ type: 'here' }));
    }, SAY_HERE_MS);
    /** A wire that takes nothing any more has been cut. */
    const attempt = (act: () => void): void => {
      try {
        act();
      } catch {
        end('cut');
      }
    };
    /** Both copies are where they should be: whoever has heard that from the other too closes the link. */
    const finish = (): void => {
      if (!isSent || !isReceived) return;
      attempt(() => say({ type: 'bye' }));
      if (isTheirsDone) end(null);
    };

    const sendCopy = async (copy: Blob): Promise<void> => {
      for (let at = 0; at < copy.size && !isOver; at += CHUNK) {
        const chunk = new Uint8Array(await copy.slice(at, at + CHUNK).arrayBuffer());
        await wire.ready();
        if (isOver) return;
        wire.send(chunk);
        progress.sent = at + chunk.length;
        onProgress({ ...progress });
      }
      const sha256 = await sumOf(copy);
      if (!isOver) say({ type: 'end', sha256 });
    };

    const setDown = (): void => {
      parts = [new Blob([...parts, ...waiting], { type: 'application/zip' })];
      waiting = [];
      waitingBytes = 0;
    };
    const take = (chunk: ArrayBuffer): void => {
      progress.received += chunk.byteLength;
      if (progress.received > progress.toReceive) {
        attempt(() => say({ type: 'damaged' }));
        end('damaged');
        return;
      }
      waiting.push(chunk);
      waitingBytes += chunk.byteLength;
      if (waitingBytes >= WAITING) setDown();
      onProgress({ ...progress });
    };
    const check = async (sha256: string): Promise<void> => {
      setDown();
      const [copy] = parts;
      const isWhole = copy!.size === progress.toReceive && (await sumOf(copy!)) === sha256;
      if (isOver) return;
      if (!isWhole) {
        say({ type: 'damaged' });
        end('damaged');
        return;
      }
      received = copy!;
      isReceived = true;
      say({ type: 'got' });
      finish();
    };

    const meet = (hello: SaidHello): void => {
      them = { campaign: hello.campaign, name: hello.name.slice(0, LONGEST_NAME) };
      const why = objection(us, hello);
      if (why !== null) {
        refuse(why);
        return;
      }
      progress.toReceive = hello.bytes;
      isReceived = hello.bytes === 0;
      onProgress({ ...progress });
      if (zip === null) finish();
      else sendCopy(zip).catch(() => end('cut'));
    };
    const hear = (message: Message): void => {
      if (message.type === 'hello') meet(message);
      else if (message.type === 'refused') end(message.why);
      else if (message.type === 'end') check(message.sha256).catch(() => end('cut'));
      else if (message.type === 'damaged') end('damaged there');
      else if (message.type === 'cancel') end('cancelled there');
      else if (message.type === 'got') {
        isSent = true;
        finish();
      } else if (message.type === 'bye') {
        isTheirsDone = true;
        if (isSent && isReceived) end(null);
      }
    };
    wire.onMessage = (data) => {
      if (isOver) return;
      heard_ms = Date.now();
      if (typeof data !== 'string') {
        take(data);
        return;
      }
      const message = read(data);
      attempt(() => (message === null ? refuse('version') : hear(message)));
    };
    wire.onClose = () => end(isSent && isReceived ? null : 'cut');
    signal.addEventListener('abort', cancel);
    if (signal.aborted) cancel();
    else attempt(() => say({ type: 'hello', protocol: PROTOCOL, ...us, bytes: zip?.size ?? 0 }));
  });
}

/** Why nothing is exchanged with whoever says this; null where it is. */
function objection(us: Hello, { protocol, campaign, bytes }: SaidHello): Objection | null {
  if (protocol !== PROTOCOL) return 'version';
  if (campaign !== null && us.campaign !== null && campaign !== us.campaign) return 'other campaign';
  return bytes > MOST_BYTES ? 'too large' : null;
}

/** What is not of this protocol is null; a hello is read as far as the number of its protocol. */
function read(data: string): Message | null {
  try {
    const message = JSON.parse(data) as Partial<SaidHello> | null;
    if (typeof message?.type !== 'string') return null;
    if (message.type !== 'hello' || message.protocol !== PROTOCOL) return message as Message;
    const { campaign, name, bytes } = message;
    const isWhole =
      (campaign === null || typeof campaign === 'string') &&
      typeof name === 'string' &&
      Number.isSafeInteger(bytes) &&
      bytes! >= 0;
    return isWhole ? (message as Message) : null;
  } catch {
    return null;
  }
}

async function sumOf(copy: Blob): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', await copy.arrayBuffer());
  return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, '0')).join('');
}
