/**
 * One side of a direct link in some 120 bytes: of a session description (SDP, RFC 8866) only what differs from link to
 * link, namely the keys of the search for a path (RFC 8839), the fingerprint of the certificate (RFC 8122) and the
 * addresses of the device. The rest of it is the same for every data channel (RFC 8841) and is put back from a template.
 */
import { codeBytes, codeText, sumOf } from './code-text.ts';

export interface Pairing {
  kind: 'offer' | 'answer';
  ufrag: string;
  pwd: string;
  /** SHA-256, 32 bytes. */
  fingerprint: Uint8Array;
  addresses: Address[];
  /** In an answer: the sum of the offer it is to. */
  to: number;
}

/** Where a device listens (UDP): a number, or the name that its browser gives in place of it (mDNS). */
interface Address {
  host: string;
  port: number;
}

/** Of our codes; another number is another Stillstand. */
const VERSION = 1;
/** More addresses make a larger code, and a device has two to four. */
const MOST_ADDRESSES = 4;

export type ReadPairing = { ok: true; pairing: Pairing } | { ok: false; why: string };

/** Of what a browser describes; throws a RangeError where it is no description of a data channel. */
export function pairingOf(kind: Pairing['kind'], sdp: string, to = 0): Pairing {
  const line = (name: string): string => {
    const found = new RegExp(`^a=${name}:(.*?)\\s*$`, 'm').exec(sdp)?.[1];
    if (found === undefined) throw new RangeError(`no a=${name} in the session description`);
    return found;
  };
  const hex = /^sha-256 ((?:[0-9A-F]{2}:){31}[0-9A-F]{2})$/i.exec(line('fingerprint'))?.[1];
  if (hex === undefined) throw new RangeError('expected a fingerprint of SHA-256');
  const addresses = [...sdp.matchAll(/^a=candidate:\S+ 1 udp \d+ (\S+) (\d+) typ host\b/gim)]
    .map(([, host, port]) => ({ host: host!.toLowerCase(), port: Number(port) }))
    .filter(({ host }) => bytesOfHost(host) !== null)
    // One path is enough, and a hotspot is more often IPv4: it comes first where there are many.
    .sort((a, b) => Number(a.host.includes(':')) - Number(b.host.includes(':')))
    .slice(0, MOST_ADDRESSES);
  return {
    kind,
    ufrag: line('ice-ufrag'),
    pwd: line('ice-pwd'),
    fingerprint: new Uint8Array(hex.split(':').map((byte) => Number.parseInt(byte, 16))),
    addresses,
    to,
  };
}

/** The session description again. */
export function sdpOf({ kind, ufrag, pwd, fingerprint, addresses }: Pairing): string {
  const hex = Array.from(fingerprint, (byte) => byte.toString(16).padStart(2, '0').toUpperCase()).join(':');
  return [
    'v=0',
    'o=- 1 2 IN IP4 127.0.0.1',
    's=-',
    't=0 0',
    'a=group:BUNDLE 0',
    'm=application 9 UDP/DTLS/SCTP webrtc-datachannel',
    'c=IN IP4 0.0.0.0',
    ...addresses.map(
      ({ host, port }, i) => `a=candidate:${i + 1} 1 udp ${priority(i)} ${host} ${port} typ host`,
    ),
    `a=ice-ufrag:${ufrag}`,
    `a=ice-pwd:${pwd}`,
    `a=fingerprint:sha-256 ${hex}`,
    `a=setup:${kind === 'offer' ? 'actpass' : 'active'}`,
    'a=mid:0',
    'a=sctp-port:5000',
    'a=max-message-size:262144',
    '',
  ].join('\r\n');
}

/** Of a host candidate (RFC 8445, 5.1.2): preference of its kind 126, of the address, component 1. */
const priority = (i: number): number => 126 * 2 ** 24 + (65_535 - i) * 2 ** 8 + 255;

export function textOf(pairing: Pairing): string {
  const text = (value: string): number[] => [value.length, ...new TextEncoder().encode(value)];
  return codeText(
    new Uint8Array([
      VERSION,
      pairing.kind === 'offer' ? 0 : 1,
      pairing.to >> 8,
      pairing.to & 255,
      ...text(pairing.ufrag),
      ...text(pairing.pwd),
      ...pairing.fingerprint,
      ...pairing.addresses.flatMap(({ host, port }) => [...bytesOfHost(host)!, port >> 8, port & 255]),
    ]),
  );
}

/** By which an answer names its offer. */
export function sumOfText(text: string): number {
  const [high, low] = sumOf(new TextEncoder().encode(text));
  return (high << 8) | low;
}

export function readPairing(text: string): ReadPairing {
  const bytes = codeBytes(text);
  if (bytes === null)
    return no(
      `Found “${text.trim().slice(0, 40)}”; expected the code of a direct link, which begins with SL. Scan it again, or check the letters.`,
    );
  if (bytes[0] !== VERSION)
    return no('The other device has another version of Stillstand. Update both, or send the file.');
  try {
    return { ok: true, pairing: unpacked(bytes) };
  } catch {
    return no('The code is not whole. Scan it again.');
  }
}

const no = (why: string): ReadPairing => ({ ok: false, why });

function unpacked(bytes: Uint8Array): Pairing {
  let at = 2;
  const take = (n: number): Uint8Array => {
    if (at + n > bytes.length) throw new RangeError('not whole');
    at += n;
    return bytes.slice(at - n, at);
  };
  const number = (): number => {
    const [high, low] = take(2);
    return (high! << 8) | low!;
  };
  const word = (): string => {
    const value = new TextDecoder().decode(take(take(1)[0]!));
    // ice-char (RFC 8839, 5.4): nothing else gets into a session description.
    if (!/^[A-Za-z0-9+/]{4,}$/.test(value)) throw new RangeError('no key');
    return value;
  };
  const to = number();
  const [ufrag, pwd, fingerprint] = [word(), word(), take(32)];
  const addresses: Address[] = [];
  while (at < bytes.length) {
    const host = hostOf(take(1)[0]!, take);
    addresses.push({ host, port: number() });
  }
  return { kind: bytes[1] === 0 ? 'offer' : 'answer', ufrag, pwd, fingerprint, addresses, to };
}

const KINDS = { name: 0, four: 4, six: 6 } as const;
const UUID = /^([0-9a-f]{8})-([0-9a-f]{4})-([0-9a-f]{4})-([0-9a-f]{4})-([0-9a-f]{12})\.local$/;

/** Its kind and 16 or 4 bytes; null for what no browser gives. */
function bytesOfHost(host: string): number[] | null {
  const uuid = UUID.exec(host);
  if (uuid !== null) return [KINDS.name, ...hexBytes(uuid.slice(1).join(''))];
  const four = /^(\d{1,3})\.(\d{1,3})\.(\d{1,3})\.(\d{1,3})$/.exec(host)?.slice(1).map(Number);
  if (four !== undefined) return four.every((byte) => byte <= 255) ? [KINDS.four, ...four] : null;
  if (!/^[0-9a-f:]+$/.test(host) || !host.includes(':')) return null;
  const [before = '', after] = host.split('::');
  const groups = (part: string): string[] => (part === '' ? [] : part.split(':'));
  const [first, last] = [groups(before), after === undefined ? [] : groups(after)];
  const zeros = 8 - first.length - last.length;
  if (after === undefined ? zeros !== 0 : zeros < 1) return null;
  const all = [...first, ...Array<string>(zeros).fill('0'), ...last];
  if (!all.every((group) => /^[0-9a-f]{1,4}$/.test(group))) return null;
  return [KINDS.six, ...all.flatMap((group) => hexBytes(group.padStart(4, '0')))];
}

function hostOf(kind: number, take: (n: number) => Uint8Array): string {
  if (kind === KINDS.four) return [...take(4)].join('.');
  if (kind !== KINDS.name && kind !== KINDS.six) throw new RangeError('no address');
  const hex = Array.from(take(16), (byte) => byte.toString(16).padStart(2, '0')).join('');
  return kind === KINDS.name
    ? `${hex.slice(0, 8)}-${hex.slice(8, 12)}-${hex.slice(12, 16)}-${hex.slice(16, 20)}-${hex.slice(20)}.local`
    : hex
        .match(/.{4}/g)!
        .map((group) => Number.parseInt(group, 16).toString(16))
        .join(':');
}

const hexBytes = (hex: string): number[] => (hex.match(/../g) ?? []).map((byte) => Number.parseInt(byte, 16));
