/** Why photographs are not drawn, and what to do. */
import type { PhotographResult } from '@stillstand/campaign/results';
import { MOST_PICTURE, type PictureFault } from './picture-file.ts';

const CONVERT = 'convert to JPEG and add that file instead';
const WORDS: Readonly<Record<PictureFault, readonly [why: string, advice: string]>> = {
  missing: ['file not in the campaign', 'add the file again'],
  heic: ['HEIC', CONVERT],
  'not-a-picture': ['neither JPEG nor PNG', CONVERT],
  'too-large': [
    `more than ${MOST_PICTURE.bytes / 1e6} MB or ${MOST_PICTURE.px / 1e6} million pixels`,
    'add a smaller copy and set its scale',
  ],
  broken: ['file damaged', 'copy the file again from the camera'],
  'off-picture': ['marks place the core outside the picture', 'set the scale again'],
};

/** Of so many of one fault the names are listed. */
const NAMED = 3;

/** A line for each kind of fault: "Photograph of H3 R2 (photos/9f86d081….heic) not drawn (HEIC): convert to JPEG …" */
export function photographFaults(
  faulty: Iterable<{ photograph: PhotographResult; fault: PictureFault }>,
): string[] {
  return [...Map.groupBy(faulty, ({ fault }) => fault)].map(([fault, all]) => {
    const [why, advice] = WORDS[fault];
    const names = all.slice(0, NAMED).map(({ photograph }) => nameOf(photograph));
    const more = all.length > NAMED ? ` and ${all.length - NAMED} more` : '';
    const what = all.length === 1 ? 'Photograph' : 'Photographs';
    return `${what} of ${names.join(', ')}${more} not drawn (${why}): ${advice}`;
  });
}

/** A name by content is 64 letters long; a few tell it from others. */
function nameOf({ hole, run, file }: PhotographResult): string {
  const short = file.replace(/([0-9a-f]{8})[0-9a-f]{56}/, '$1…');
  return `${[hole, run].filter((name) => name !== null).join(' ')} (${short})`;
}
