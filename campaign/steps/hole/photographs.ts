/** Photographs of cores: the strip that their marks cut out, and where it lies in the ground, slice by slice. */
import type { Campaign } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import { type PhotographResult, traceId } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import { complaints } from '../complaint.ts';
import type { Runner } from '../runner/runner.ts';
import { tellPhotograph } from '../words/samples.ts';
import { measuredPlace, partsOf } from './core-place.ts';
import type { ModelledHole } from './holes.ts';
import { type Sliced, slicesOfPhotographs } from './photograph-slices.ts';
import { type ScaleFault, stripOf } from './photograph-strip.ts';
import type { CorePlace } from './place.ts';

type PhotoRow = Row<'photos'>;

/** Every row of the table; those whose place or scale is not known say so, and have no slices or no strip. */
export function placePhotographs(
  run: Runner,
  campaign: Campaign,
  holes: ReadonlyMap<string, ModelledHole>,
): { made: PhotographResult[]; problems: Problem[] } {
  const { problems, complain } = complaints<PhotoRow>(
    campaign,
    'photos',
    ({ hole, run: label, file }) => `${[hole, label].filter((name) => name !== null).join(' ')}: ${file}`,
  );
  const warn = (row: PhotoRow, code: string, { column, found, expected, fix }: ScaleFault) =>
    complain(row, code, column, found, expected, fix, 'warning');

  const shownOf = new Map(
    campaign.rows.photos.flatMap((row) => {
      const hole = holes.get(row.hole ?? '');
      const place = hole === undefined ? null : placeOf(row, hole);
      return hole === undefined || place === null
        ? []
        : [[row, { hole, shown: { place, contacts_m: contactsIn(campaign, row) } }] as const];
    }),
  );
  const slicedOf = new Map<PhotoRow, Sliced>();
  for (const [hole, inHole] of Map.groupBy(shownOf, ([, { hole }]) => hole)) {
    const shown = run.plain(inHole.map(([, each]) => each.shown));
    const sliced = run.untold(slicesOfPhotographs, { core: hole.core, shown }).value;
    for (const [i, [row]] of inHole.entries()) slicedOf.set(row, sliced[i]!);
  }

  const made = campaign.rows.photos.map((row): PhotographResult => {
    const placed = shownOf.get(row);
    const sliced = slicedOf.get(row);
    const strip =
      placed === undefined
        ? null
        : stripOf(row, placed.shown.place, (fault) => warn(row, 'photo-without-scale', fault));
    // A picture without marks is only looked at: it may be older than the reading that its run is known by.
    if (sliced?.ok === false && isMarked(row)) warn(row, 'photo-not-placed', sliced);
    if (sliced?.ok === true && sliced.doubt !== null)
      warn(row, 'deeper-than-its-core', { column: 'bottom', ...sliced.doubt, fix: BEYOND });
    const slices = sliced?.ok === true ? sliced.slices : [];
    const { row_id, hole, run: label, file } = row;
    const result = { row_id, hole, run: label, file, strip, slices };
    if (sliced?.ok === true && placed !== undefined) {
      const known = run.row('photos', row, `photograph ${file}`);
      const parts = [known, ...partsOf(placed.hole, placed.shown.place)];
      run.part(traceId.photograph(row_id), result, tellPhotograph(result, sliced.how), parts);
    }
    return result;
  });
  return { made, problems };
}

const BEYOND = 'Correct the depths or the run; until then what is below the core is drawn at its end.';

const isMarked = (row: PhotoRow): boolean => row.mark_1_m !== null || row.mark_2_m !== null;

/** What of the core it shows: the whole of it where no ends are given. Null for a picture of no core. */
function placeOf(row: PhotoRow, hole: ModelledHole): CorePlace | null {
  if (row.depth_basis === null && !isMarked(row)) return null;
  const deeper = Math.max(row.mark_1_m ?? 0, row.mark_2_m ?? 0);
  const bottom_m = row.bottom_m ?? lengthOf(row, hole) ?? deeper;
  return measuredPlace(row.depth_basis, row.run, row.top_m ?? 0, bottom_m);
}

/** Of the core that the depths of a picture are counted in, m; null where it is not known. */
function lengthOf(
  { depth_basis, run: label }: PhotoRow,
  { core, fold, pushes }: ModelledHole,
): number | null {
  const { runs = [] } = core.value.rig ?? {};
  switch (depth_basis) {
    case 'run': {
      const found = runs.find(({ run }) => run === label);
      return found === undefined ? null : (found.recovered_m ?? found.removed_m);
    }
    case 'push': {
      const found = pushes.get(label ?? '')?.value;
      return found === undefined ? null : (found.push.recovered_m ?? found.reckoning.entered_m);
    }
    case 'entered':
      return fold?.value.soundings.at(-1)?.entered_m ?? null;
    default:
      return fold?.value.deepest_m ?? null;
  }
}

/** Contacts described along the same core. */
const contactsIn = (campaign: Campaign, row: PhotoRow): number[] =>
  campaign.rows.units
    .filter((unit) => unit.hole === row.hole && unit.depth_basis === row.depth_basis && unit.run === row.run)
    .flatMap(({ top_m, bottom_m }) => [top_m, bottom_m]);
