/**
 * What the ground of a hole itself says of its ages, besides erosional contacts: beds laid down at once, sediments that
 * usually gather at some rate, and a top that is the ground as it lives.
 */
import type { Campaign } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import { dateOf, type Row } from '@stillstand/campaign/tables';
import type { AgeDepthInput } from '@stillstand/science/dating';
import { decimalYear } from '@stillstand/science/lead';
import { complaints } from '../complaint.ts';
import type { ModelledHole } from '../hole/holes.ts';
import type { Placed } from '../hole/place.ts';
import type { Traced } from '../runner/step.ts';
import { formsInPlace, usualAccumulation } from './usual-accumulation.ts';

type Unit = Row<'units'>;

interface PlacedUnit {
  row: Unit;
  placed: Placed;
}

/** A living ground is of the year of coring, give or take this: growth, and what of the year was cored. */
const SURFACE_SD_YR = 1;

export interface GroundOfHole extends Required<Pick<AgeDepthInput, 'beds' | 'layers'>> {
  /** Units that say any of it. */
  units: Unit[];
  problems: Problem[];
}

const unitName = (row: Unit): string => row.unit ?? row.row_id;

export function groundOfHole(campaign: Campaign, units: readonly PlacedUnit[]): GroundOfHole {
  const { problems, complain } = complaints<Unit>(campaign, 'units', (row) => `${row.hole} ${unitName(row)}`);
  // What is said of a piece of a layer is said of the layer.
  const marked = new Set(units.filter(({ row }) => row.event_bed === true).map(({ row }) => unitName(row)));
  const inBeds = units.filter(({ row }) => marked.has(unitName(row)));
  const beds = inBeds.map(({ row, placed }) => ({
    id: unitName(row),
    top_m: placed.top.draws,
    bottom_m: placed.bottom.draws,
  }));
  for (const { row } of inBeds)
    if (row.event_bed === true && formsInPlace(row.sediment))
      complain(
        row,
        'event-bed-in-place',
        'event_bed',
        `a bed of ${row.sediment} laid down at once`,
        'sediment that a storm, a flood or a slide can lay down: this one forms in place',
        'Clear the mark, or correct the sediment. Until then the bed takes no time in the ages of the hole.',
        'warning',
      );
  const known = units.flatMap(({ row, placed }) => {
    const usual_mm_yr = marked.has(unitName(row)) ? null : usualAccumulation(row.sediment);
    if (usual_mm_yr === null) return [];
    return [{ row, layer: { top_m: placed.top.draws, bottom_m: placed.bottom.draws, usual_mm_yr } }];
  });
  return {
    beds,
    layers: known.map(({ layer }) => layer),
    units: [...inBeds.map(({ row }) => row), ...known.map(({ row }) => row)],
    problems,
  };
}

interface DatedAt {
  lab_code: string;
  sample: { depth_draws: Float64Array | null };
}

/** Dates of samples in beds: taken as of the bed, unless said otherwise. */
export function datesInBeds(
  campaign: Campaign,
  hole: string,
  { beds }: GroundOfHole,
  dated: readonly DatedAt[],
): Problem[] {
  const rows = campaign.rows.determinations;
  const { problems, complain } = complaints<Row<'determinations'>>(
    campaign,
    'determinations',
    ({ lab_code }) => lab_code,
  );
  for (const { lab_code, sample } of dated) {
    const row = rows.find((each) => each.lab_code === lab_code);
    const bed = beds.find(({ top_m, bottom_m }) => isMostly(sample.depth_draws, top_m, bottom_m));
    if (row === undefined || bed === undefined) continue;
    complain(
      row,
      'date-in-event-bed',
      'age_role',
      `a date in bed ${bed.id} of ${hole}, laid down at once`,
      'the age of the bed; what it carried with it may be older',
      'It is taken as a date of the bed. Say that it is a maximum age if what was dated may have lain elsewhere before.',
      'note',
    );
  }
  return problems;
}

/** In more than half of the states of the hole. */
function isMostly(depth_m: Float64Array | null, top_m: Float64Array, bottom_m: Float64Array): boolean {
  if (depth_m === null) return false;
  let inside = 0;
  depth_m.forEach((d, k) => {
    if (d > top_m[k]! && d < bottom_m[k]!) inside++;
  });
  return 2 * inside > depth_m.length;
}

export interface SurfaceOfHole {
  surface: AgeDepthInput['surface'];
  /** What the day is read from. */
  parts: Traced[];
  problems: Problem[];
}

/**
 * The ground's age where its top is said to be the ground as it lives: the day the first reading was taken at the hole,
 * else the day it ended, else the day its lead-210 profile was collected.
 */
export function surfaceOfHole(campaign: Campaign, hole: ModelledHole): SurfaceOfHole {
  const { row, readings } = hole;
  const none = { surface: null, parts: [], problems: [] };
  if (row.top_is_ground !== true) return none;
  const first = readings
    .flatMap(({ time, known }) => {
      const day = dateOf(time);
      return day === null ? [] : [{ day, known }];
    })
    .sort((a, b) => (a.day < b.day ? -1 : 1))[0];
  const profile = campaign.rows.lead_profiles.find(
    (each) => each.hole === row.hole && each.collected !== null,
  );
  const day = first?.day ?? dateOf(row.ended_at) ?? profile?.collected ?? null;
  if (day !== null)
    return {
      surface: { age_cal_bp: 1950 - decimalYear(day), sd_yr: SURFACE_SD_YR },
      parts: first === undefined ? [] : [first.known],
      problems: [],
    };
  const { problems, complain } = complaints<Row<'holes'>>(campaign, 'holes', (each) => each.hole);
  complain(
    row,
    'ground-without-day',
    'top_is_ground',
    `${row.hole} begins at the living ground, cored on no known day`,
    'a reading at the hole with its time, the day the hole ended, or the day its profile was collected',
    'Enter when the hole ended. Its ground is taken as of any age until then.',
    'warning',
  );
  return { ...none, problems };
}
