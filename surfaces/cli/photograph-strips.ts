/** Strips of a campaign’s photographs for its figures, read and cut one after another. */
import type { PhotographResult, Results } from '@stillstand/campaign/results';
import { columnBottom } from '@stillstand/output/figures';
import { MOST_PICTURE, photographFaults, type StripPicture, stripSpan } from '@stillstand/output/photographs';
import { counted } from '@stillstand/output/words';
import type { NamedFile } from './disk/read.ts';
import { printError, progress } from './say.ts';
import { unlessRefused } from './unless-refused.ts';

/** By row; those that cannot be drawn with their fault, which is printed too. Empty without photographs of cores. */
export async function stripsOf(results: Results, file: NamedFile): Promise<Map<string, StripPicture>> {
  const strips = new Map<string, StripPicture>();
  const cut = results.photographs.filter((photograph) => stripSpan(photograph) !== null);
  const uncut = results.photographs.filter(({ strip, slices }) => strip === null && slices.length > 0).length;
  if (uncut > 0)
    printError(`note: ${counted(uncut, 'photograph')} without two marks: in the app, but in no figure`);
  if (cut.length === 0) return strips;
  const { stripOfPhotograph } = await import('@stillstand/output/paper');
  const done = progress('photographs');
  for (const [i, photograph] of cut.entries()) {
    const hole = results.holes.find((each) => each.hole === photograph.hole);
    const bytes = await bytesOf(photograph, file);
    const strip =
      typeof bytes === 'string' || hole === undefined
        ? ({ fault: typeof bytes === 'string' ? bytes : 'missing' } as const)
        : stripOfPhotograph(photograph, bytes, columnBottom(results, hole));
    if ('fault' in strip)
      for (const words of photographFaults([{ photograph, fault: strip.fault }]))
        printError(`warning: ${words}`);
    strips.set(photograph.row_id, strip);
    done(i + 1, cut.length);
  }
  return strips;
}

/** One picture that the disk refuses costs no figure. */
const bytesOf = ({ file: path }: PhotographResult, file: NamedFile) =>
  unlessRefused(
    async () => (await file(path, MOST_PICTURE.bytes)) ?? ('missing' as const),
    'broken' as const,
  );
