/**
 * A data channel between two browsers (WebRTC) without any server: what a server would carry goes through two codes. The
 * channel is encrypted, and both ends are known by the fingerprints in the codes (DTLS, RFC 8827).
 */
import type { Wire } from './conversation.ts';
import { type Pairing, pairingOf, sdpOf, sumOfText, textOf } from './pairing.ts';

export interface Linking {
  /** For the other device to scan. */
  code: string;
  /** Once the other device is there. Rejects where no path is found, or `close` was called. */
  opened: Promise<Wire>;
  close(): void;
}

export interface Offering extends Linking {
  /** The other's answer; why it is not the one to this offer, or null. */
  accept(answer: Pairing): string | null;
}

/** A browser that has not found its addresses by then goes with those it has. */
const GATHERING_MS = 3000;
/** Both know each other's addresses; on one hotspot a path takes a second or two. */
const PATH_MS = 30_000;
/** Whoever shows an answer waits for a hand at the other device. */
const HAND_MS = 300_000;
/** Of what is sent so much waits in the browser: a slow link is not drowned, a fast one never idle. */
const MOST_WAITING = 2 ** 20;

export const canLink = (): boolean => typeof RTCPeerConnection === 'function';

export async function offer(): Promise<Offering> {
  const { peer, opened, startLimit, close } = begin();
  const channel = peer.createDataChannel('copies', { ordered: true });
  opened.from(channel);
  const code = textOf(pairingOf('offer', await described(peer)));
  return {
    code,
    opened: opened.promise,
    close,
    accept: (answer) => {
      if (answer.kind !== 'answer')
        return 'This is the first code of a link. Scan the answer that the other device shows.';
      if (answer.to !== sumOfText(code))
        return 'This answer belongs to another code. Scan the code shown here with the other device first.';
      startLimit(PATH_MS);
      peer.setRemoteDescription({ type: 'answer', sdp: sdpOf(answer) }).catch(opened.fail);
      return null;
    },
  };
}

export async function answer(theirs: Pairing): Promise<Linking> {
  const { peer, opened, startLimit, close } = begin();
  peer.addEventListener('datachannel', ({ channel }) => opened.from(channel));
  startLimit(HAND_MS);
  await peer.setRemoteDescription({ type: 'offer', sdp: sdpOf(theirs) });
  const to = sumOfText(textOf(theirs));
  return { code: textOf(pairingOf('answer', await described(peer), to)), opened: opened.promise, close };
}

function begin() {
  const peer = new RTCPeerConnection({ iceServers: [] });
  let limit: ReturnType<typeof setTimeout> | undefined;
  const { promise, resolve, reject } = Promise.withResolvers<Wire>();
  const close = (): void => {
    clearTimeout(limit);
    peer.close();
    reject(new Error('closed'));
  };
  const fail = (): void => {
    close();
    reject(new Error('no path'));
  };
  // Whoever closes it before it opens need not hear of it.
  promise.catch(() => undefined);
  const from = (channel: RTCDataChannel): void => {
    const open = (): void => {
      clearTimeout(limit);
      resolve(wireOf(peer, channel));
    };
    if (channel.readyState === 'open') open();
    else channel.addEventListener('open', open);
  };
  return {
    peer,
    opened: { promise, from, fail },
    startLimit: (ms: number) => {
      limit = setTimeout(fail, ms);
    },
    close,
  };
}

/** Its own description with its addresses. */
async function described(peer: RTCPeerConnection): Promise<string> {
  await peer.setLocalDescription();
  if (peer.iceGatheringState !== 'complete') {
    await new Promise<void>((done) => {
      setTimeout(done, GATHERING_MS);
      peer.addEventListener('icegatheringstatechange', () => {
        if (peer.iceGatheringState === 'complete') done();
      });
    });
  }
  return peer.localDescription?.sdp ?? '';
}

function wireOf(peer: RTCPeerConnection, channel: RTCDataChannel): Wire {
  channel.binaryType = 'arraybuffer';
  channel.bufferedAmountLowThreshold = MOST_WAITING / 4;
  const early: (string | ArrayBuffer)[] = [];
  let isClosed = false;
  let onMessage: Wire['onMessage'] | null = null;
  const wire: Wire = {
    send: (data) => channel.send(data as string),
    ready: () =>
      channel.bufferedAmount < MOST_WAITING
        ? Promise.resolve()
        : new Promise((done) => {
            channel.addEventListener('bufferedamountlow', () => done(), { once: true });
            channel.addEventListener('close', () => done(), { once: true });
          }),
    get onMessage() {
      return onMessage ?? (() => undefined);
    },
    // What came before somebody listened is heard first.
    set onMessage(listener) {
      onMessage = listener;
      for (const data of early.splice(0)) listener(data);
    },
    onClose: () => undefined,
    close: () => {
      // The channel first: what was said last still goes out.
      channel.close();
      setTimeout(() => peer.close(), 2000);
    },
  };
  const closed = (): void => {
    if (isClosed) return;
    isClosed = true;
    wire.onClose();
  };
  channel.addEventListener('message', ({ data }: MessageEvent<string | ArrayBuffer>) => {
    if (onMessage === null) early.push(data);
    else onMessage(data);
  });
  channel.addEventListener('close', closed);
  channel.addEventListener('error', closed);
  peer.addEventListener('connectionstatechange', () => {
    if (peer.connectionState === 'failed' || peer.connectionState === 'closed') closed();
  });
  return wire;
}
