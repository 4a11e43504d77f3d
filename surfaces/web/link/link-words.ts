/** What became of a link, in words: what happened, and what to do. */
import type { Outcome, Trouble } from './conversation.ts';

const KEPT = 'Both devices keep what they had.';

export const NO_PATH = `The other device was not found in time. Put both on the same hotspot or Wi-Fi and link again. Some hotspots keep their devices apart (client isolation): use the hotspot of one of the two, or save the zip and carry the file. ${KEPT}`;

export const NO_LINK = 'This browser has no direct links. Save the zip and carry the file.';

const WORDS: Readonly<Record<Exclude<Trouble, 'other campaign'>, string>> = {
  version:
    'The two devices have different versions of Stillstand. Update both, or save the zip and open it on the other device.',
  'too large':
    'The copy is larger than 1 GB, which no Stillstand opens. Link again without photos, and carry the photos in parts.',
  cut: 'The link was cut. Keep the devices close and both screens on, and link again.',
  silent:
    'The other device has been silent for half a minute. Its screen may be off, or it is out of reach. Keep both screens on, and link again.',
  cancelled: 'The link was cancelled.',
  'cancelled there': 'The link was cancelled on the other device.',
  damaged: 'The copy that arrived is not the one that was sent. Link again.',
  'damaged there': 'The other device received a damaged copy and refused it. Link again.',
};

/** `ours`: the name of the campaign here. */
export function troubleWords(trouble: Trouble, ours: string, { them, received, isSent }: Outcome): string {
  const words =
    trouble === 'other campaign'
      ? `The other device has another campaign open, “${them?.name ?? ''}”; here it is “${ours}”. Open the same campaign on both, or link from home to receive it as one of its own.`
      : WORDS[trouble];
  if (received === null && !isSent) return `${words} ${KEPT}`;
  return `${words} ${received === null ? 'This copy arrived there; theirs did not arrive here.' : 'Their copy arrived here whole; it is not certain that this one arrived there.'}`;
}
