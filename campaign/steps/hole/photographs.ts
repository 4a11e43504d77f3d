/** Photographs of cores: the strip that their marks cut out, and where it lies in the ground, slice by slice. */
import type { Campaign } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import { type PhotographResult, traceId } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import { complaints } from '../complaint.ts';
import type { Runner } from '../runner/runner.ts';
import { step } from '../runner/step.ts';
import { tellPhotograph } from '../words/samples.ts';
import { measuredPlace, partsOf } from './core-place.ts';
import type { ModelledHole } from './holes.ts';
import { type Core, type CorePlace, type NotPlaced, placeCore } from './place.ts';

type PhotoRow = Row<'photos'>;
type Slice = PhotographResult['slices'][number];
type Strip = NonNullable<PhotographResult['strip']>;

/** Of slices before straight ones are joined, m. */
const SLICE_M = 0.1;
/** Slices whose ends lie no farther than this from one straight line are one: 0.02 pt where 1 m is 50 pt on paper. */
const STRAIGHT_M = 0.0005;

/** What of the core a picture shows, and the contacts in it. */
interface Shown {
  place: CorePlace;
  contacts_m: readonly number[];
}

type Sliced = { ok: true; slices: Slice[]; how: string; doubt: Doubt } | NotPlaced;
type Doubt = { found: string; expected: string } | null;

const slicesOfPhotographs = step(
  'slices of photographs',
  ({ core, shown }: { core: Core; shown: readonly Shown[] }): Sliced[] =>
    shown.map((each) => slicesOf(core, each)),
);

function slicesOf(core: Core, { place, contacts_m }: Shown): Sliced {
  const whole = placeCore(core, place);
  if (!whole.ok) return whole;
  const { basis, label, bottom_m } = place;
  // Fall-in has no place in the ground.
  const fallIn = basis === 'run' ? (core.rig?.runs.find(({ run }) => run === label)?.fall_in_m ?? 0) : 0;
  const top_m = Math.max(place.top_m, fallIn);
  const steps = Math.max(1, Math.ceil((bottom_m - top_m) / SLICE_M));
  const ends = [
    ...Array.from({ length: steps + 1 }, (_, i) => top_m + ((bottom_m - top_m) * i) / steps),
    ...contacts_m.filter((at) => at > top_m && at < bottom_m),
  ].sort((a, b) => a - b);
  const slices: Slice[] = [];
  let deepest = 0;
  for (let i = 1; i < ends.length; i++) {
    const [from_m, to_m] = [ends[i - 1]!, ends[i]!];
    const at = from_m < to_m ? placeCore(core, { ...place, top_m: from_m, bottom_m: to_m }) : null;
    if (at === null || !at.ok) continue;
    // Medians of draws may go back by less than their own noise.
    const depth_from_m = Math.max(deepest, at.top.value);
    deepest = Math.max(depth_from_m, at.bottom.value);
    slices.push({ from_m, to_m, depth_from_m, depth_to_m: deepest });
  }
  return { ok: true, slices: joined(slices), how: whole.how, doubt: whole.doubt };
}

/** As few slices as keep every end where it is, within `STRAIGHT_M`. */
function joined(slices: readonly Slice[]): Slice[] {
  const out: Slice[] = [];
  let first = 0;
  for (const [i, slice] of slices.entries()) {
    const next = slices[i + 1];
    if (next !== undefined && isStraight(slices.slice(first, i + 2))) continue;
    out.push({ ...slices[first]!, to_m: slice.to_m, depth_to_m: slice.depth_to_m });
    first = i + 1;
  }
  return out;
}

function isStraight(slices: readonly Slice[]): boolean {
  const { from_m, depth_from_m } = slices[0]!;
  const { to_m, depth_to_m } = slices.at(-1)!;
  const slope = (depth_to_m - depth_from_m) / (to_m - from_m);
  return slices.every(
    (slice) => Math.abs(depth_from_m + (slice.to_m - from_m) * slope - slice.depth_to_m) <= STRAIGHT_M,
  );
}

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
  const warn = (
    row: PhotoRow,
    code: string,
    { column, found, expected, fix }: Omit<NotPlaced, 'ok' | 'column'> & { column: string },
  ) => complain(row, code, column, found, expected, fix, 'warning');

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
    if (sliced?.ok === false) warn(row, 'photo-not-placed', sliced);
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

/** What of the core it shows: the whole of it where no ends are given. Null for a picture of no core. */
function placeOf(row: PhotoRow, hole: ModelledHole): CorePlace | null {
  if (row.depth_basis === null) return null;
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

/** Fewer px per metre than a picture to look at has (common practice, no source): a mark's depth in another unit. */
const LEAST_PX_PER_M = 100;

type ScaleFault = { column: string; found: string; expected: string; fix: string };

/** The strip that the marks cut out; null without marks, said where some of them are there or they fix no scale. */
function stripOf(
  row: PhotoRow,
  { top_m, bottom_m }: CorePlace,
  warn: (fault: ScaleFault) => void,
): Strip | null {
  const needed = {
    mark_1: row.mark_1_m,
    mark_1_x_px: row.mark_1_x_px,
    mark_1_y_px: row.mark_1_y_px,
    mark_2: row.mark_2_m,
    mark_2_x_px: row.mark_2_x_px,
    mark_2_y_px: row.mark_2_y_px,
    strip_width: row.strip_width_m,
  };
  const missing = Object.entries(needed).filter(([, value]) => value === null);
  if (missing.length === Object.keys(needed).length) return null;
  if (missing.length > 0) {
    const names = missing.map(([name]) => name).join(', ');
    warn({
      column: missing[0]![0],
      found: `${names} empty`,
      expected: 'two marks, each with its depth and its place on the picture, and the width of the core',
      fix: 'Set the scale of the photograph; until then it is not cut out.',
    });
    return null;
  }
  const strip: Strip = {
    top_m,
    bottom_m,
    mark_1: { x_px: row.mark_1_x_px!, y_px: row.mark_1_y_px!, at_m: row.mark_1_m! },
    mark_2: { x_px: row.mark_2_x_px!, y_px: row.mark_2_y_px!, at_m: row.mark_2_m! },
    width_m: row.strip_width_m!,
    offset_m: row.strip_offset_m ?? 0,
  };
  const { mark_1, mark_2 } = strip;
  const [x, y] = [mark_2.x_px - mark_1.x_px, mark_2.y_px - mark_1.y_px];
  const apart_px = Math.sqrt(x * x + y * y);
  const along_m = Math.abs(mark_2.at_m - mark_1.at_m);
  if (apart_px === 0 || along_m === 0) {
    const isDepth = apart_px > 0;
    warn({
      column: isDepth ? 'mark_2' : 'mark_2_x_px',
      found: isDepth ? `both marks at ${mark_1.at_m} m` : `both marks at ${mark_1.x_px}, ${mark_1.y_px} px`,
      expected: isDepth ? 'marks of different depths' : 'marks at two places of the picture',
      fix: 'Set the scale again, with marks as far apart as the picture allows; until then it is not cut out.',
    });
    return null;
  }
  if (apart_px < LEAST_PX_PER_M * along_m) {
    warn({
      column: 'mark_2',
      found: `${apart_px.toPrecision(3)} px for ${along_m} m of core`,
      expected: `at least ${LEAST_PX_PER_M} px per metre`,
      fix: 'Check the unit of both depths; until then the strip is cut out as they say.',
    });
  }
  return strip;
}
