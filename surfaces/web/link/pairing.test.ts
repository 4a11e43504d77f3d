/** A session description through its code and back: of descriptions that Chromium wrote, and of codes that a hand spoilt. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import { codeBytes, codeText, sumOf } from './code-text.ts';
import { pairingOf, readPairing, sdpOf, sumOfText, textOf } from './pairing.ts';

/** Chromium, no camera allowed: names in place of addresses. */
const HIDDEN = `v=0\r
o=- 8749023262578282402 2 IN IP4 127.0.0.1\r
s=-\r
t=0 0\r
a=group:BUNDLE 0\r
a=extmap-allow-mixed\r
a=msid-semantic: WMS\r
m=application 9 UDP/DTLS/SCTP webrtc-datachannel\r
c=IN IP4 0.0.0.0\r
a=candidate:1097566256 1 udp 2113937151 2ca32642-a278-45fe-b476-28467ea8df5c.local 52193 typ host generation 0 network-cost 999\r
a=candidate:1589846324 1 udp 2113942271 a13c7f1f-f0e6-4c01-b7e5-6cbcc12874e5.local 45542 typ host generation 0 network-cost 999\r
a=ice-ufrag:s4pn\r
a=ice-pwd:M7dmRxhQMW8VP6JCfGu+VsAO\r
a=ice-options:trickle\r
a=fingerprint:sha-256 A4:89:40:CE:92:FD:20:97:B0:38:24:17:D2:D6:94:60:DE:8A:29:38:AC:89:76:3C:B5:C9:CE:CD:88:89:FE:ED\r
a=setup:actpass\r
a=mid:0\r
a=sctp-port:5000\r
a=max-message-size:262144\r
`;
/** The same with the camera allowed. */
const SHOWN = HIDDEN.replace(
  /^a=candidate[\s\S]*?(?=a=ice-ufrag)/m,
  `a=candidate:2350443579 1 udp 2122194687 192.0.2.2 47644 typ host generation 0 network-id 1\r
a=candidate:1199451611 1 udp 2122265343 fd00::2 46942 typ host generation 0 network-id 2\r
a=candidate:1924282543 1 tcp 1518214911 192.0.2.2 9 typ host tcptype active generation 0 network-id 1\r
a=candidate:3117742415 1 tcp 1518285567 fd00::2 9 typ host tcptype active generation 0 network-id 2\r
`,
);

const read = (text: string) => {
  const found = readPairing(text);
  assert.ok(found.ok, found.ok ? '' : found.why);
  return found.pairing;
};

test('what differs between two links goes through the code and comes back; the code is small', () => {
  for (const sdp of [HIDDEN, SHOWN]) {
    const pairing = pairingOf('offer', sdp);
    const text = textOf(pairing);
    assert.deepEqual({ ...read(text), addresses: [] }, { ...pairing, addresses: [] });
    // At most 300 letters of the alphanumeric kind are a code of version 10 or less at error correction M (ISO/IEC 18004).
    assert.ok(text.length <= 300, `${text.length} letters`);
    assert.match(text, /^[A-Z0-9-]+$/);
  }
  assert.deepEqual(pairingOf('offer', HIDDEN).addresses, [
    { host: '2ca32642-a278-45fe-b476-28467ea8df5c.local', port: 52193 },
    { host: 'a13c7f1f-f0e6-4c01-b7e5-6cbcc12874e5.local', port: 45542 },
  ]);
  assert.deepEqual(read(textOf(pairingOf('offer', HIDDEN))).addresses, pairingOf('offer', HIDDEN).addresses);
  assert.deepEqual(read(textOf(pairingOf('offer', SHOWN))).addresses, [
    { host: '192.0.2.2', port: 47644 },
    { host: 'fd00:0:0:0:0:0:0:2', port: 46942 },
  ]);
});

test('the description built again says what Chromium said, line by line', () => {
  const again = sdpOf(read(textOf(pairingOf('offer', HIDDEN))));
  const lines = new Set(HIDDEN.split('\r\n'));
  const differing = again.split('\r\n').filter((line) => !lines.has(line));
  assert.deepEqual(differing, [
    'o=- 1 2 IN IP4 127.0.0.1',
    'a=candidate:1 1 udp 2130706431 2ca32642-a278-45fe-b476-28467ea8df5c.local 52193 typ host',
    'a=candidate:2 1 udp 2130706175 a13c7f1f-f0e6-4c01-b7e5-6cbcc12874e5.local 45542 typ host',
  ]);
  const answer = HIDDEN.replace('actpass', 'active');
  assert.match(sdpOf(read(textOf(pairingOf('answer', answer, 77)))), /^a=setup:active\r$/m);
  assert.equal(read(textOf(pairingOf('answer', answer, 0xbeef))).to, 0xbeef);
});

test('a code typed in small letters with blanks is read; a slip of one letter, or two swapped, never is', () => {
  const text = textOf(pairingOf('offer', SHOWN));
  assert.deepEqual(read(` ${text.toLowerCase().replaceAll('-', ' ')}\n`), read(text));
  assert.deepEqual(read(text.replaceAll('O', '0').replaceAll('I', '1')), read(text));
  const letters = text.replaceAll('-', '').slice(2, -1);
  for (let i = 0; i < letters.length; i++) {
    const slip = `SL${letters.slice(0, i)}${letters[i] === 'Q' ? 'R' : 'Q'}${letters.slice(i + 1)}${text.at(-1)}`;
    assert.equal(readPairing(slip).ok, false, `letter ${i}`);
    if (i === 0 || letters[i] === letters[i - 1]) continue;
    const swap = `SL${letters.slice(0, i - 1)}${letters[i]}${letters[i - 1]}${letters.slice(i + 1)}${text.at(-1)}`;
    assert.equal(readPairing(swap).ok, false, `swap at ${i}`);
  }
});

test('other codes and texts are refused in words, and nothing of them gets into a description', () => {
  for (const text of ['', 'SL', 'T2-04', 'https://example.org', '4006381333931', 'SL-ABCDE']) {
    const found = readPairing(text);
    assert.ok(!found.ok);
    assert.match(found.why, /expected the code of a direct link/);
  }
  const newer = readPairing(codeText(new Uint8Array([9, 0, 0, 0])));
  assert.ok(!newer.ok && /another version/.test(newer.why));
  // A key with an end of line would write lines of its own.
  const forged = textOf({ ...pairingOf('offer', HIDDEN), ufrag: 'ab\r\na=x' });
  assert.equal(readPairing(forged).ok, false);
  fc.assert(
    fc.property(fc.uint8Array({ minLength: 1, maxLength: 160 }), (bytes) => {
      assert.deepEqual(codeBytes(codeText(bytes)), bytes);
      const found = readPairing(codeText(new Uint8Array([1, ...bytes])));
      if (found.ok) assert.match(sdpOf(found.pairing), /^(?:[a-z]=[ -~]+\r\n)+$/);
    }),
    { seed: 41, numRuns: 500 },
  );
});

test('the sum is CRC-16/XMODEM: its published check value', () => {
  // Of "123456789": 0x31C3.
  assert.deepEqual(sumOf(new TextEncoder().encode('123456789')), [0x31, 0xc3]);
  assert.equal(sumOfText('123456789'), 0x31c3);
});
