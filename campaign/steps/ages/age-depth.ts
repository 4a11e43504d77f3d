/** Age against depth in the holes the settings name: of all dates of a hole together, and of its samples and gaps. */
import type { Campaign } from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import { type HoleHistory, traceId } from '@stillstand/campaign/results';
import type { ComputationSettings } from '@stillstand/campaign/settings';
import { median } from '@stillstand/science/base';
import { type HoleOfClocks, inHistory, sharedErrorOf, sharingOf } from '@stillstand/science/clocks';
import { ageDepthDefaults, holesApart, sharedGroups } from '@stillstand/science/dating';
import type { ModelledHole } from '../hole/holes.ts';
import type { PlacedSample } from '../hole/placed-sample.ts';
import type { Samples } from '../hole/samples.ts';
import { placedUnits } from '../hole/units.ts';
import type { Runner } from '../runner/runner.ts';
import type { Known, Traced } from '../runner/step.ts';
import { tellAgeDepth, tellTogether } from '../words/age-depth.ts';
import type { HoleByDepth, NotByDepth } from './by-depth.ts';
import { type Dated, type Dates, roleOf } from './dates.ts';
import { disagreements } from './disagreement.ts';
import { datesInBeds, groundOfHole, surfaceOfHole } from './ground-of-hole.ts';
import { agesOfHole, agesOfHoles, type HoleToModel } from './hole-histories.ts';
import type { ProfileOfHole } from './lead-profiles.ts';
import { levelsOf } from './levels.ts';
import { movedErrors } from './moved-errors.ts';

/** Of fewer dates there is nothing to be learnt but each itself. */
export const LEAST_DATES = 3;
/** The age of the ground makes up for one. */
export const LEAST_WITH_GROUND = 2;
/** A profile of lead-210 and the day it was collected make up for the others. */
const LEAST_WITH_LEAD = 1;

interface HoleToBottom {
  hole: ModelledHole;
  /** Deepest it reached, m. */
  bottom_m: number;
}

export interface AgesAgainstDepth {
  made: HoleHistory[];
  /** Holes asked for, by the settings or by a point. */
  of: ReadonlyMap<string, HoleByDepth | NotByDepth>;
  problems: Problem[];
}

/** Of the holes the settings name, and of those a point has its age from. */
export function agesAgainstDepth(
  run: Runner,
  campaign: Campaign,
  settings: ComputationSettings,
  isComputed: boolean,
  leads: ReadonlyMap<string, ProfileOfHole>,
  holes: ReadonlyMap<string, HoleToBottom>,
  samples: Samples,
  dates: Dates,
): AgesAgainstDepth {
  const of = new Map<string, HoleByDepth | NotByDepth>();
  const problems = wrongNames(campaign, settings.age_depth, holes);
  const bySample = [...samples.of.values()];
  const byPoints = askedByPoints(campaign, samples);
  const toModel: HoleInRun[] = [];
  for (const name of new Set([...settings.age_depth, ...byPoints.keys()])) {
    const hole = holes.get(name);
    if (hole === undefined) continue;
    const isSet = settings.age_depth.includes(name);
    const ofHole = bySample
      .filter(({ value }) => value.hole === name && value.depth_draws !== null)
      .sort((a, b) => a.value.depth_m! - b.value.depth_m!);
    const dated = datesOf(campaign, dates, ofHole);
    const lead = leads.get(name) ?? null;
    const { surface, ...ofSurface } = surfaceOfHole(campaign, hole.hole);
    problems.push(...ofSurface.problems);
    const least = lead !== null ? LEAST_WITH_LEAD : surface === null ? LEAST_DATES : LEAST_WITH_GROUND;
    if (dated.length < least) {
      if (isSet) problems.push(tooFew(campaign, name, dated.length, least));
      of.set(name, `at least ${least} dates in use in ${name}; it has ${dated.length}`);
      continue;
    }
    const { units } = placedUnits(run, campaign, hole.hole);
    const erosional = units.filter(({ row }) => row.contact_below === 'erosional');
    const ground = groundOfHole(campaign, units);
    problems.push(...ground.problems, ...datesInBeds(campaign, name, ground, dated));
    const clocks: HoleOfClocks = {
      hole: name,
      input: {
        horizons: dated.map(({ lab_code, sample, date: { value } }) => ({
          id: lab_code,
          depth_m: sample.depth_draws!,
          age: { from_cal_bp: value.result.from_cal_bp, density: value.result.density },
        })),
        // Beaches lose their tops: the ground may be of any age, where no profile of lead-210 begins at it and it is not said to live.
        surface,
        beds: ground.beds,
        layers: ground.layers,
        breaks: erosional.map(({ row, placed }) => ({
          id: row.unit ?? row.row_id,
          depth_m: placed.bottom.draws,
        })),
        bottom_m: Math.max(
          hole.bottom_m,
          // An exposure has no depth that it was driven to.
          ...(hole.bottom_m > 0 ? [] : units.map(({ placed }) => median(placed.bottom.draws))),
          ...dated.map(({ sample }) => median(sample.depth_draws!)),
          ...(byPoints.get(name) ?? []),
        ),
      },
      lead: lead === null ? null : { label: lead.label, profile: lead.profile },
      shared: dated.flatMap(({ lab_code, date: { value } }) =>
        value.age !== null && sharedErrorOf(value.age) !== null ? [{ id: lab_code, age: value.age }] : [],
      ),
      settings: { ...ageDepthDefaults, age_range_cal_bp: settings.curve.age_range_cal_bp },
    };
    const inHole = {
      clocks,
      dateOf: new Map(dated.map(({ lab_code, sample }) => [sample.sample, lab_code])),
      dates: new Map(dated.map(({ lab_code, date }) => [lab_code, date])),
    };
    of.set(name, { ...inHole, history: null });
    const read = inHistory(clocks).lead;
    if (isComputed && read?.kind === 'not_read')
      problems.push(leadNotRead(campaign, lead!.label, read.reason));
    toModel.push({
      ...inHole,
      shared: sharingOf(clocks),
      samples: ofHole.map(({ value }) => ({ id: value.sample, depth_m: value.depth_draws! })),
      levels: levelsOf(units, clocks.input.bottom_m),
      parts: [
        ...dated.map(({ date }) => date),
        ...(lead === null ? [] : [lead.ages]),
        ...ofHole,
        run.row('holes', hole.hole.row, `hole ${name}`),
        ...ofSurface.parts,
        ...[...new Set([...erosional.map(({ row }) => row), ...ground.units])].map((row) =>
          run.row('units', row, `unit ${row.unit ?? ''}`),
        ),
      ],
      hasBeds: ground.beds.length > 0,
    });
  }
  if (!isComputed) return { made: [], of, problems };
  const made = new Map<string, HoleHistory>();
  for (const together of holesApart(toModel))
    for (const [h, known] of modelled(run, together, settings.seed).entries()) {
      if (known === null) continue;
      const { clocks, dateOf, dates, hasBeds } = together[h]!;
      const { hole } = clocks;
      if (known.value === null) {
        of.set(hole, `sediment in ${hole} that took time`);
        if (hasBeds) problems.push(onlyBeds(campaign, hole));
        continue;
      }
      of.set(hole, { clocks, dateOf, dates, history: known as Known<HoleHistory> });
      made.set(hole, known.value);
    }
  const inOrder = [...of.keys()].flatMap((hole) => made.get(hole) ?? []);
  problems.push(...inOrder.flatMap((result) => disagreements(campaign, result)), ...movedErrors(inOrder));
  return { made: inOrder, of, problems };
}

/** A hole with dates enough, and what its result stands on. */
interface HoleInRun extends HoleToModel, Omit<HoleByDepth, 'history' | 'clocks'> {
  shared: ReturnType<typeof sharingOf>;
  parts: readonly Traced[];
  hasBeds: boolean;
}

/** Holes that stand together, in their order; null where they are left for later. */
function modelled(
  run: Runner,
  holes: readonly HoleInRun[],
  seed: number,
): readonly (Known<HoleHistory | null> | null)[] {
  const plain = ({ clocks, samples, levels }: HoleInRun): HoleToModel => ({ clocks, samples, levels });
  const [first] = holes as readonly [HoleInRun];
  if (sharedGroups(holes).length === 0) {
    const { clocks, samples, levels, dates, parts } = first;
    return [
      run.long(
        agesOfHole,
        traceId.hole(clocks.hole).ageDepth,
        {
          clocks: run.plain(clocks),
          samples: run.plain(samples),
          levels: run.plain(levels),
          seed: run.plain(seed),
        },
        (v) => tellAgeDepth(clocks.hole, dates.size, v),
        () => parts,
      ),
    ];
  }
  const names = holes.map(({ clocks }) => clocks.hole);
  const known = run.long(
    agesOfHoles,
    traceId.agesTogether(names),
    { holes: run.plain(holes.map(plain)), seed: run.plain(seed) },
    () => tellTogether(names, sharedGroups(holes)),
    () => [...new Set(holes.flatMap(({ dates }) => [...dates.values()]))],
  );
  return holes.map(({ clocks, dates, parts }, h) => {
    if (known === null) return null;
    const value = known.value[h]!;
    return run.part(traceId.hole(clocks.hole).ageDepth, value, tellAgeDepth(clocks.hole, dates.size, value), [
      known,
      ...parts,
    ]);
  });
}

/** Holes of which a point has its age from there, with the deepest draw of each such sample, m. */
function askedByPoints(campaign: Campaign, samples: Samples): Map<string, number[]> {
  const found = new Map<string, number[]>();
  for (const row of campaign.rows.points) {
    const sample = samples.of.get(row.sample)?.value;
    if (row.age_from !== 'age_depth' || row.status === 'rejected') continue;
    if (sample === undefined || sample.hole === null || sample.depth_draws === null) continue;
    const deepest = sample.depth_draws.reduce((a, b) => Math.max(a, b));
    found.set(sample.hole, [...(found.get(sample.hole) ?? []), deepest]);
  }
  return found;
}

const settingRow = (campaign: Campaign) => campaign.rows.settings.find((row) => row.name === 'age_depth');

function settingProblem(
  campaign: Campaign,
  code: string,
  found: string,
  expected: string,
  fix: string,
): Problem {
  const row = settingRow(campaign);
  return problem({
    severity: 'warning',
    code,
    table: 'settings',
    row_id: row?.row_id ?? null,
    line: row === undefined ? null : (campaign.lines.get(row.row_id) ?? null),
    label: 'age_depth',
    column: 'value',
    found,
    expected,
    fix,
  });
}

const wrongNames = (
  campaign: Campaign,
  names: readonly string[],
  holes: ReadonlyMap<string, unknown>,
): Problem[] =>
  names
    .filter((name) => !holes.has(name))
    .map((name) =>
      settingProblem(
        campaign,
        'age-depth-no-hole',
        name,
        `labels of holes, separated by ;: ${[...holes.keys()].join('; ')}`,
        'Correct the label; the others are modelled.',
      ),
    );

const tooFew = (campaign: Campaign, name: string, dates: number, least: number): Problem =>
  settingProblem(
    campaign,
    'age-depth-too-few',
    `${name} with ${dates} dates in use`,
    `at least ${least} that date their layers at known depths`,
    'Date more samples of the hole, or remove it from the setting.',
  );

const onlyBeds = (campaign: Campaign, name: string): Problem =>
  settingProblem(
    campaign,
    'age-depth-only-beds',
    `${name} with nothing but beds laid down at once`,
    'some sediment that took time',
    'Correct which units were laid down at once; the hole has no ages against depth until then.',
  );

const leadNotRead = (campaign: Campaign, profile: string, reason: string): Problem => {
  const row = campaign.rows.lead_profiles.find((each) => each.profile === profile);
  return problem({
    severity: 'note',
    code: 'lead-not-in-history',
    table: 'lead_profiles',
    row_id: row?.row_id ?? null,
    label: profile,
    found: reason,
    expected:
      'slices from the ground on, within the hole, with a day of collection, no erosional contact and no bed laid down at once among them',
    fix: 'The ages of the hole come from its dates alone. Complete the profile to have it read with them.',
  });
};

interface DatedSample {
  lab_code: string;
  sample: PlacedSample;
  date: Known<Dated>;
}

/** Dates in use that date their layer, with the sample each is of. */
function datesOf(campaign: Campaign, dates: Dates, ofHole: readonly Known<PlacedSample>[]): DatedSample[] {
  const samples = new Map(ofHole.map(({ value }) => [value.sample, value]));
  return campaign.rows.determinations.flatMap((row): DatedSample[] => {
    const date = dates.of.get(row.lab_code);
    const sample = samples.get(row.sample);
    if (date === undefined || sample === undefined) return [];
    const isOfLayer = roleOf(row) === 'direct' && date.value.age !== null && !dates.repeats.has(row.lab_code);
    return isOfLayer ? [{ lab_code: row.lab_code, sample, date }] : [];
  });
}
