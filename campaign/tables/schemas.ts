/**
 * Every table of a campaign, in the order of the job. The columns here are the one source of the row types, of the
 * Table Schemas in `datapackage.json`, and of the validation. Past 250 lines because it is one list.
 *
 * Every row of every table also has `row_id` (opaque; derived from table and label where it is missing) and `note`.
 * `readings: true` adds what append-only tables carry: `seq, time, by, device, amends, amend_kind`.
 */
import {
  boolean,
  type Columns,
  choice,
  choiceOrName,
  date,
  detail,
  label,
  length,
  naming,
  number,
  type RowOf,
  reference,
  renamed,
  required,
  requiredUnless,
  reworded,
  TIDE_LEVELS,
  text,
  tide,
  time,
} from './column.ts';

const common = {
  row_id: required(text('opaque identity of the row')),
  note: text('anything worth saying'),
};

const reading = {
  seq: required(number('order of the readings in a hole, loop or gauge', '', { min: 0 })),
  time: time('when it was read'),
  by: text('who read it (a role or initials)'),
  device: text('what it was entered or measured with'),
  amends: text('identity of the reading that this one amends'),
  amend_kind: choice('what the amendment does', ['replace', 'withdraw', 'move']),
  amend_reason: text('why it was amended'),
};

interface TableDescription<C extends Columns> {
  about: string;
  /** Append-only: rows are amended by later rows, never edited. */
  readings: boolean;
  /** Columns within whose values the label is unique; empty for the whole campaign. */
  scope: readonly string[];
  columns: C;
  /** Name the table had in an earlier version of the document, read for ever. */
  was: string | null;
}

const table = <C extends Columns>(about: string, columns: C, scope: readonly string[] = []) =>
  ({
    about,
    was: null as string | null,
    readings: false,
    scope,
    columns: { ...columns, ...common },
  }) as const satisfies TableDescription<Columns>;

const readings = <C extends Columns>(about: string, columns: C, scope: readonly string[] = []) =>
  ({
    about,
    was: null as string | null,
    readings: true,
    scope,
    columns: { ...columns, ...reading, ...common },
  }) as const satisfies TableDescription<Columns>;

/** The same table, which had another name in an earlier version. */
const formerly = <T extends { was: string | null }>(was: string, description: T): T => ({
  ...description,
  was,
});

const hole = () => required(reference('holes', 'the hole'));
const depth = { min_m: 0, max_m: 200 };
const sigma = (of: string) => number(`1 sigma of ${of}`, 'm', { min: 0, max: 100 });
/** On the ellipsoid; heights are never taken from it. */
const position = {
  latitude_deg: detail(number('latitude, WGS 84', 'deg', { min: -90, max: 90 })),
  longitude_deg: detail(number('longitude, WGS 84', 'deg', { min: -180, max: 180 })),
  position_as_written: detail(
    text('the position as it was written, where that was not in degrees of WGS 84'),
  ),
  position_accuracy_m: detail(
    number('how far off the position may be, with 95 %', 'm', { min: 0, max: 100_000 }),
  ),
};
const pixels = (about: string) => number(about, 'px', { min: 0, max: 100000 });
const elevation = (about: string) => number(about, 'm', { min: -12000, max: 9000 });
/** Names of parts of a height error, and of settings, that were others in version 1. */
const OLD_COMPONENTS = { depth_own: 'depth_sample', depth_hole: 'depth_hole_model', lean: 'inclination' };
const OLD_SETTINGS = {
  tie: 'present_constraint',
  tie_sd_m: 'present_constraint_sd_m',
  lean_percent: 'inclination_percent',
  advance_sigma_m: 'cable_mark_sigma_m',
};
const QUALIFIERS = ['less_than', 'greater_than', 'not_determined'] as const;
const STATUS = ['accepted', 'rejected'] as const;
/** An age may be computed from measurements, or be a curve of probability of its own. */
const AGE_ELSEWHERE = { age_density: [], method: ['luminescence', 'u_series'] };

/** Calibration curves that are published, by their names in data. */
export const PUBLISHED_CURVES = [
  'intcal20',
  'shcal20',
  'marine20',
  'bomb21_nh1',
  'bomb21_nh2',
  'bomb21_nh3',
  'bomb21_sh1_2',
  'bomb21_sh3',
] as const;

export const schemas = {
  sites: table('a place', {
    site: label('label of the site'),
    name: text('name of the site'),
    ...position,
    frame: text('reference frame of the coordinates, if not WGS 84'),
    curve: text(
      'sea-level curve its points belong to; the same for sites that share one; empty: one of its own',
    ),
  }),
  datums: table('a zero of heights', {
    datum: label('label of the datum'),
    kind: choice('kind of zero', ['mean_sea_level', 'tidal', 'orthometric', 'ellipsoidal', 'local']),
    epoch_from: number('first year of the tidal epoch', 'yr CE', { min: 1700, max: 2100, integer: true }),
    epoch_to: number('last year of the tidal epoch', 'yr CE', { min: 1700, max: 2100, integer: true }),
    geoid_model: text('geoid model, for heights from satellites'),
  }),
  datum_shifts: table('the step between two datums: height in `to` = height in `from` + shift', {
    from: required(reference('datums', 'heights as they are')),
    to: required(reference('datums', 'heights as they become')),
    shift_m: required(
      number('what is added to a height on the first to have it on the second', 'm', { min: -200, max: 200 }),
    ),
    sigma_m: sigma('the shift'),
    source: text('where it comes from'),
  }),
  benchmarks: table('a fixed height', {
    benchmark: label('label of the bench mark'),
    datum: reference('datums', 'zero of its elevation'),
    elevation_m: elevation('elevation above its datum'),
    ellipsoidal_height_m: elevation('height above the ellipsoid, instead of an elevation'),
    geoid_height_m: number('geoid above the ellipsoid there: elevation = ellipsoidal − geoid height', 'm', {
      min: -120,
      max: 120,
    }),
    sigma_m: sigma('the elevation'),
    ellipsoid_sigma_m: sigma('the height above the ellipsoid, where the elevation comes from it'),
    geoid_sigma_m: sigma('the geoid height, where the elevation comes from it'),
    date: date('when it was determined'),
    source: text('where it comes from'),
  }),
  levelling: readings('one sight group of a levelling loop', {
    loop: required(text('label of the loop')),
    point: required(naming(text('bench mark, hole reference or turning point'), { table: 'benchmarks' })),
    backsight_m: number('staff reading back; negative: staff upside down', 'm', { min: -10, max: 10 }),
    intermediate_m: number('staff reading between; negative: staff upside down', 'm', { min: -10, max: 10 }),
    foresight_m: number('staff reading forward; negative: staff upside down', 'm', { min: -10, max: 10 }),
    distance_m: number('length of the sight pair, back and fore sight together', 'm', { min: 0, max: 1000 }),
  }),
  level_loops: table('what holds for a levelling loop as a whole', {
    loop: label('label of the loop in the level book'),
    date: date('the day it was levelled'),
    collimation_mm: number('what the two-peg test found: the sight is too high (+) by this', 'mm', {
      min: -100,
      max: 100,
    }),
    collimation_over_m: number('over this length of sight', 'm', { min: 1, max: 200 }),
    allowed_mm_sqrt_km: number('largest misclosure allowed, times √km', 'mm', { min: 0.1, max: 500 }),
  }),
  gauges: table('a tide gauge', {
    gauge: label('label of the gauge'),
    site: detail(reference('sites', 'where it stands')),
    datum: reference('datums', 'zero of its readings'),
    zero_elevation_m: renamed('zero_m', number('elevation of its zero on that datum', 'm')),
    sigma_m: sigma('the zero'),
  }),
  gauge_readings: readings('one reading of a tide gauge', {
    gauge: required(reference('gauges', 'the gauge')),
    height_m: required(number('water above the gauge zero', 'm', { min: -30, max: 30 })),
    flag: text('doubt about the reading'),
  }),
  gauge_means: table('the mean level of one calendar year at a gauge', {
    gauge: required(
      reference('gauges', 'the gauge; without an elevation of its zero only the rate is informed'),
    ),
    year: required(number('calendar year', 'yr CE', { min: 1700, max: 2101 })),
    level_m: number('mean level above the gauge zero; empty: none', 'm'),
    sigma_m: sigma('this mean, not of the zero'),
    months: number('months with readings; fewer than 11: not used', '', { min: 0, max: 12 }),
    flag: text('doubt about the mean; a flagged year is not used'),
    source: text('where it comes from'),
  }),
  constituents: table('a tidal constant', {
    gauge: required(reference('gauges', 'the gauge')),
    constituent: required(text('name of the constituent')),
    amplitude_m: required(number('amplitude of the constituent', 'm', { min: 0, max: 15 })),
    phase_deg: required(number('phase lag, Greenwich', 'deg', { min: -360, max: 360 })),
    amplitude_sigma_m: sigma('the amplitude'),
    phase_sigma_deg: number('1 sigma of the phase lag; 104 where it is not known', 'deg', {
      min: 0,
      max: 180,
    }),
    source: text('where it comes from'),
  }),
  tide_levels: table('a tide level at a site', {
    site: required(reference('sites', 'the site')),
    level: required(choice('the level', TIDE_LEVELS)),
    datum: reference('datums', 'zero of its elevation; the campaign datum if empty'),
    elevation_m: required(elevation('elevation of the level')),
    sigma_m: sigma('the level'),
    epoch: text('tidal epoch, e.g. 1993-2011'),
    source: text('where it comes from'),
  }),
  tide_ranges: table('the tidal range at another time, by a palaeotidal model or a reconstruction', {
    site: reference('sites', 'the site; empty: every site without rows of its own'),
    age_cal_bp: required(number('age', 'cal BP', { min: -200, max: 1000000 })),
    factor: required(number('tidal range then ÷ tidal range today', '', { min: 0.01, max: 20 })),
    factor_sigma: required(
      number('1 sigma of the factor, as the model as a whole may be wrong: shared by all ages', '', {
        min: 0,
        max: 20,
      }),
    ),
    source: text('where it comes from'),
  }),
  pipes: table('a kind of pipe', {
    pipe: label('label of the kind of pipe'),
    outside_diameter_mm: detail(number('outside diameter', 'mm', { min: 10, max: 1000 })),
    wall_mm: detail(number('thickness of the wall', 'mm', { min: 0.5, max: 100 })),
    mass_kg_per_m: detail(number('mass of a metre of pipe', 'kg/m', { min: 0, max: 1000 })),
    makeup_loss: length('length lost in each made-up thread', { min_m: 0, max_m: 0.5 }),
  }),
  samplers: table('a sampler or corer', {
    sampler: label('label of the sampler'),
    kind: text('valve, chamber, gouge, piston …'),
    length: detail(length('length over all', { min_m: 0, max_m: 20 })),
    capacity: detail(length('length of sediment it can hold', { min_m: 0, max_m: 20 })),
    bore_mm: detail(number('inside diameter of the barrel', 'mm', { min: 5, max: 500 })),
    outside_mm: detail(number('outside diameter', 'mm', { min: 5, max: 600 })),
    mass_kg: detail(number('mass of the empty sampler', 'kg', { min: 0, max: 1000 })),
  }),
  holes: table('a hole', {
    hole: label('label of the hole'),
    site: reference('sites', 'where it is'),
    method: required(choice('how it is made', ['string', 'tube', 'chamber', 'gouge', 'hand', 'exposure'])),
    ...position,
    reference_point: naming(text('levelled point or benchmark that is the reference of the hole'), {
      table: 'benchmarks',
    }),
    reference_elevation_m: elevation('elevation of the reference, where it is not levelled here'),
    reference_sigma_m: sigma('the reference elevation'),
    reference_datum: reference('datums', 'zero of the reference elevation'),
    reference_shared_group: renamed(
      'reference_group',
      text('what its error is shared with, e.g. a bench mark'),
    ),
    reference_basis: detail(
      choice('in a replacement hole: its reference levelled again, or assumed the same as before', [
        'levelled',
        'assumed',
      ]),
    ),
    pipe: reference('pipes', 'kind of pipe'),
    replaces: detail(reference('holes', 'lost hole that this one replaces')),
    distance_to_replaced_m: renamed(
      'offset_m',
      detail(number('distance from the hole it replaces', 'm', { min: 0, max: 1000 })),
    ),
    target_depth: detail(length('depth it is meant to reach, below ground', depth)),
    state: detail(
      choice('how it stands', ['planned', 'open', 'suspended', 'finished', 'refused', 'lost', 'abandoned']),
    ),
    end_reason: text('why it ended'),
    left_in_ground: text('pipe and gear left in the ground'),
    ended_at: time('when it ended'),
    top_is_ground: boolean(
      'whether it begins at the ground as it lives, such as a marsh surface: the top is then of the year of coring',
    ),
    backfill: renamed('sealed_with', text('what the hole was backfilled or sealed with')),
    inclination_deg: renamed(
      'lean_deg',
      number('inclination off the vertical, measured', 'deg', { min: 0, max: 45 }),
    ),
  }),
  ground_levels: formerly(
    'ground',
    readings('ground level next to a hole', {
      hole: hole(),
      ground_below_reference: required(
        length('ground below the reference, positive down', { min_m: -20, max_m: 20 }),
      ),
      cause: text('what moved it: tide, boots, sand drawn down'),
    }),
  ),
  string_items: formerly(
    'joints',
    readings('an item added to or removed from the string', {
      hole: hole(),
      action: required(choice('what was done', ['add', 'remove', 'pull', 'cut', 'left', 'lost'])),
      item: required(choice('what went in or came out', ['joint', 'shoe', 'coupling', 'drive_head'])),
      joint: text('label painted on the item'),
      length: length('length, of a joint end to end', { min_m: 0, max_m: 20 }),
      tight: detail(boolean('thread confirmed tight before it goes below ground')),
      stock_item: naming(text('item of the stock of pipe it is, where that has another label'), {
        table: 'pipe_stock',
        scope: { item: 'item' },
      }),
      condition: detail(
        choice('how it was found when it came out; empty: not inspected', ['sound', 'damaged']),
      ),
      line_load_kn: detail(number('load on the line when pulled', 'kN', { min: 0, max: 2000 })),
    }),
  ),
  drives: readings('a spell of driving the string', {
    hole: hole(),
    stick_up_start: required(length('collar above the reference before', { min_m: -20, max_m: 20 })),
    stick_up_end: required(length('collar above the reference after', { min_m: -20, max_m: 20 })),
    duration_s: detail(number('time the vibrator ran', 's', { min: 0, max: 86400 })),
    ended_by: detail(
      choice('what ended the drive', ['length', 'slowing', 'refusal', 'obstruction', 'tide', 'fault']),
    ),
    frequency_hz: renamed('speed_hz', detail(number('vibrator frequency', 'Hz', { min: 0, max: 1000 }))),
    obstruction_response: detail(
      choice('what was done at an obstruction', ['lifted_and_retried', 'moved', 'ended']),
    ),
  }),
  soundings: readings('a measurement down the string from the collar', {
    hole: hole(),
    purpose: choice('what it was measured for', [
      'before_drive',
      'after_drive',
      'before_run',
      'after_run',
      'resume',
      'zero_check',
      'other',
    ]),
    to_sediment: length('collar to the sediment inside; at a zero check of version 1 what the cable reads', {
      min_m: -2,
      max_m: 200,
    }),
    cable_at_collar: length('what the cable reads at the collar, at a zero check', { min_m: -2, max_m: 200 }),
    to_water_inside: length('collar to the water inside', { min_m: -2, max_m: 200 }),
    water_outside: length('water outside below the reference; negative above it', { min_m: -50, max_m: 50 }),
    collar_to_shoe: length('collar to shoe as believed then, for comparison', depth),
    stick_up: length('collar above the reference then', { min_m: -20, max_m: 20 }),
    sigma: length('1 sigma of the reading', { min_m: 0, max_m: 5 }),
  }),
  water_added: formerly(
    'water',
    readings('water put into the string', {
      hole: hole(),
      volume_l: detail(number('volume poured in', 'L', { min: 0, max: 100000 })),
      kind: detail(choice('kind of water', ['fresh', 'sea'])),
      to_water_before: length('collar to the water before', { min_m: -2, max_m: 200 }),
      to_water_after: length('collar to the water after', { min_m: -2, max_m: 200 }),
    }),
  ),
  runs: readings(
    'one trip of the sampler',
    {
      hole: hole(),
      run: label('label of the run'),
      sampler: reference('samplers', 'the sampler'),
      start_mark: length('tip below the collar when it first touched', depth),
      end_mark: length('tip below the collar at its lowest', depth),
      strokes: detail(number('strokes of the sampler', '', { min: 0, max: 100000, integer: true })),
      recovered: length('length that came up', { min_m: 0, max_m: 20 }),
      fall_in: renamed(
        'fall_in_top',
        length('disturbed fall-in on top of what was recovered, excluded', { min_m: 0, max_m: 20 }),
      ),
      loss_position: renamed(
        'loss_at',
        choice('where what was removed but not recovered is missing', ['top', 'base', 'spread', 'unknown']),
      ),
      outcome: detail(
        choice('how the run went', ['full', 'part', 'empty', 'lost_lifting', 'stuck', 'sampler_lost']),
      ),
    },
    ['hole'],
  ),
  pieces: readings('a length of a run laid out', {
    hole: hole(),
    run: required(reference('runs', 'the run')),
    top: required(length('from the top of what came up', { min_m: 0, max_m: 20 })),
    bottom: required(length('from the top of what came up', { min_m: 0, max_m: 20 })),
    tray: text('tray or tube the piece lies in'),
    condition: text('intact, broken, washed …'),
  }),
  pushes: readings(
    'a drive of a one-piece tube, chamber or hand corer',
    {
      hole: hole(),
      push: label('label of the push'),
      from: required(length('top of the push below ground', depth)),
      to: required(length('bottom of the push below ground', depth)),
      recovered: length('length recovered', depth),
      inside_top: length('sediment inside below the top of the tube, before pulling', depth),
      outside_top: length('ground outside below the top of the tube, before pulling', depth),
    },
    ['hole'],
  ),
  sections: readings('a cut length of a push', {
    hole: hole(),
    push: required(reference('pushes', 'the push')),
    order: required(number('place in the tube, 1 at the top', '', { min: 1, max: 1000, integer: true })),
    length: required(length('length of the cut piece', { min_m: 0, max_m: 20 })),
  }),
  units: table('a described layer', {
    hole: hole(),
    unit: text('label of the unit, from the top down'),
    depth_basis: renamed(
      'basis',
      required(choice('what its depths are measured in', ['run', 'push', 'entered', 'in_situ'])),
    ),
    run: text('the run or push, where that is the basis'),
    top: required(length('top of the layer on its basis', depth)),
    bottom: required(length('bottom of the layer on its basis', depth)),
    sediment: required(text('main sediment, from the vocabulary')),
    secondary_sediment: renamed('second', text('secondary sediment, less than half')),
    colour: text('colour, Munsell or words'),
    organic: text('organic matter: roots, wood, leaves'),
    contact_below: detail(choice('contact at its base', ['sharp', 'gradational', 'erosional', 'uncertain'])),
    event_bed: boolean(
      'whether it was laid down at once, as by a storm, a flood or a slide: it takes no time in the ages of the hole',
    ),
    structures: text('structures, separated by ;'),
    fossils: text('fossils, separated by ;'),
    environment: text('interpreted environment'),
    facies: text('facies it is assigned to'),
  }),
  photos: table('a picture', {
    hole: detail(reference('holes', 'the hole')),
    depth_basis: renamed(
      'basis',
      detail(choice('what its depths are measured in', ['run', 'push', 'entered', 'in_situ'])),
    ),
    run: text('the run or push'),
    top: detail(length('top of what the picture shows, on its basis', depth)),
    bottom: detail(length('bottom of what the picture shows, on its basis', depth)),
    file: required(text('file, named by the hash of its content')),
    mark_1: length('depth that the first mark on the picture shows, on its basis', depth),
    mark_1_x_px: pixels('the first mark from the left edge of the upright picture'),
    mark_1_y_px: pixels('the first mark from its upper edge'),
    mark_2: length('depth that the second mark shows', depth),
    mark_2_x_px: pixels('the second mark from the left edge'),
    mark_2_y_px: pixels('the second mark from the upper edge'),
    strip_width: length('width of the core in the picture, at the scale of the marks', {
      min_m: 0.001,
      max_m: 1,
    }),
    strip_offset: length(
      'middle of the core from the line through the marks: to the right of it, seen with the top up; empty: on it',
      { min_m: -1, max_m: 1 },
    ),
  }),
  samples: table('a piece taken', {
    sample: label('label of the sample'),
    hole: reference('holes', 'the hole; empty for a surface sample'),
    depth_basis: renamed(
      'basis',
      choice('what its depths are measured in', ['run', 'push', 'entered', 'in_situ', 'elevation']),
    ),
    run: text('the run or push, where that is the basis'),
    top: length('top of the sample on its basis', { min_m: -50, max_m: 200 }),
    bottom: length('bottom of the sample on its basis', { min_m: -50, max_m: 200 }),
    elevation_m: elevation('elevation of its middle, where the basis is elevation'),
    elevation_sigma_m: sigma('that elevation'),
    elevation_datum: reference('datums', 'zero of that elevation'),
    site: reference('sites', 'the site, where there is no hole'),
    parent: reference('samples', 'sample it was taken from'),
    material: text('what it is made of'),
    identifier: text('persistent identifier of an open scheme, as it was registered; empty: none'),
  }),
  planned_samples: table('a piece that is to be taken; taken as soon as a sample has the same label', {
    sample: label('label it is to have'),
    hole: reference('holes', 'the hole'),
    top: length('top of what is to be taken, below ground', depth),
    bottom: length('bottom of what is to be taken, below ground', depth),
    unit: text('unit or horizon it is to come from, where its depth is not known yet'),
    material: text('what to look for'),
    purpose: text('what it is to be used for: date, grain size, microfossils'),
    identifier: text('persistent identifier of an open scheme, where it is registered before; empty: none'),
  }),
  laboratories: table('a laboratory or an archive that samples and cores go to', {
    laboratory: label('label of the laboratory or archive'),
    address: text('where parcels go'),
    contact: text('whom to ask, and how'),
    price: number('price of one determination there', 'as stated', { min: 0 }),
    currency: text('currency of the price'),
    weeks: number('usual wait for a result', 'wk', { min: 0, max: 520 }),
  }),
  custody: readings('what happened to a sample or a core after the hole: the last of each says where it is', {
    sample: reference('samples', 'the sample; empty for a core'),
    hole: reference('holes', 'the hole of the core'),
    run: text('the run or push whose core it is; empty: the cores of the whole hole'),
    tray: text('the tray or piece, where it is not the whole core'),
    action: required(
      choice('what was done', [
        'stored',
        'opened',
        'sampled',
        'sent',
        'arrived',
        'result',
        'returned',
        'lent',
        'discarded',
      ]),
    ),
    date: date('the day'),
    place: text('where it is then: store, room'),
    shelf: text('shelf or rack'),
    box: text('box'),
    condition: text('how it is: moist, dried out, mould, broken'),
    left: text('what is left after it: mass, length or a word'),
    laboratory: reference('laboratories', 'who it went to or came from'),
    submission: text('label of the parcel it went in'),
    request: text('what is asked for there'),
    amount: text('what goes, and how much: mass, length, the whole'),
    due: date('the day it is expected back, or its result'),
    cost: number('what it cost', 'as stated', { min: 0 }),
    currency: text('currency of the cost'),
  }),
  measurements: table('a number measured on a sample or along a core', {
    sample: reference('samples', 'the sample; empty for a place in a core'),
    hole: reference('holes', 'the hole, where there is no sample'),
    depth_basis: choice('what its depths are measured in', ['run', 'push', 'entered', 'in_situ']),
    run: text('the run or push, where that is the basis'),
    top: length('top of what was measured, on its basis', depth),
    bottom: length('bottom of what was measured, on its basis', depth),
    qualifier: choice('below or above the value, or not determined', QUALIFIERS),
    batch: text('batch of measurements made together'),
    property: required(text('what was measured')),
    value: number('value as measured; empty where it was not determined', 'as stated'),
    sigma: number('1 sigma', 'as stated', { min: 0 }),
    systematic_sigma: number(
      '1 sigma of the part that those measured together share; the sigma includes it. Of doses and dose rates',
      'as stated',
      { min: 0 },
    ),
    unit: text('unit of value and sigma'),
    method: text('how it was measured'),
  }),
  determinations: table('a dating result', {
    lab_code: label('code given by the laboratory'),
    sample: required(reference('samples', 'the sample')),
    method: required(
      choice('dating method', [
        'radiocarbon',
        'u_series',
        'luminescence',
        'lead210',
        'caesium137',
        'marker',
        'historic',
      ]),
    ),
    value: requiredUnless(
      AGE_ELSEWHERE,
      number(
        'radiocarbon: conventional age, 14C yr BP (below 0 after 1950), or F14C; otherwise calendar age, yr before 1950. Empty: the age is computed from the measurements of the sample, or is its age density',
        'yr',
        { min: -6000, max: 1000000 },
      ),
    ),
    error: requiredUnless(AGE_ELSEWHERE, number('1 sigma as reported', 'yr', { min: 0, max: 100000 })),
    age_density: naming(
      text(
        'name in age_densities, where the age is a curve of probability; it is used in place of value and error. Not for radiocarbon',
      ),
      { table: 'age_densities', column: 'density' },
    ),
    error_shape: choice(
      'shape of the error of a calendar age: normal if empty; uniform, every year within value ± error is as probable, as of an event that records date to a span',
      ['normal', 'uniform'],
    ),
    qualifier: choice('where the value is a limit', QUALIFIERS),
    known_age_ce: number(
      'year it was collected alive, of a shell dated to find ΔR; it is not dated itself',
      'yr CE',
      {
        min: -20000,
        max: 2200,
      },
    ),
    paired_with: reference('determinations', 'terrestrial date of its own time, of a shell dated to find ΔR'),
    systematic_error: number(
      '1 sigma of the part of the error that dates measured together share; the error includes it',
      'yr',
      {
        min: 0,
        max: 100000,
      },
    ),
    systematic_group: text('determinations that share that error: one name for all of them'),
    reported_as: choice(
      'what the result is: age if empty; f14c, for radiocarbon; measurements, the age is computed from those of the sample even where value states one',
      ['age', 'f14c', 'measurements'],
    ),
    delta13c_permil: detail(number('δ13C as the laboratory gave it', '‰ VPDB', { min: -100, max: 50 })),
    fraction_dated: text('what was dated of the sample'),
    calibration_curve: choiceOrName(
      'calibration curve, or one of calibration_curves; a bomb zone is its atmosphere before 1942 too',
      PUBLISHED_CURVES,
      { table: 'calibration_curves', column: 'curve' },
    ),
    delta_r: renamed(
      'reservoir_offset',
      number('reservoir offset ΔR, added to the curve', '14C yr', { min: -2000, max: 5000 }),
    ),
    delta_r_error: renamed('reservoir_sd', number('1 sigma of ΔR', '14C yr', { min: 0, max: 2000 })),
    delta_r_group: renamed(
      'offset_group',
      text('name of the water: its dates share the error of one ΔR, its shells of known age give it'),
    ),
    marine_fraction: renamed('marine_share', number('fraction of marine carbon', '', { min: 0, max: 1 })),
    marine_fraction_error: number('1 sigma of the marine fraction', '', { min: 0, max: 1 }),
    reference_year: number('year the age counts back from, where it is not 1950', 'yr CE', {
      min: 1800,
      max: 2200,
    }),
    age_role: reworded(
      { dates: 'direct' },
      choice(
        'how the age applies: direct, it is the age of the layer; maximum, the layer is younger; minimum, the layer is older',
        ['direct', 'maximum', 'minimum'],
      ),
    ),
    pool_group: renamed('group', text('determinations of one thing, to be pooled')),
    event_group: text('determinations of different things of one event'),
    status: choice('whether it is used', STATUS),
    reason: text('why it is rejected'),
  }),
  calibration_curves: table('a row of a calibration curve of your own: straight between its rows', {
    curve: required(text('name of the curve, by which dates name it; the same in each of its rows')),
    age_cal_bp: required(number('calendar age', 'cal BP', { min: -200, max: 60000 })),
    c14_age: required(number('radiocarbon age of the curve', '14C yr BP', { min: -6000, max: 70000 })),
    c14_error: required(number('1 sigma of it, above 0', '14C yr', { min: 0, max: 10000 })),
    reservoir: choice('whose carbon it is the curve of; atmosphere if empty', ['atmosphere', 'marine']),
    source: text('where it comes from'),
  }),
  age_densities: table(
    'a row of an age known as a curve of probability, as of a tephra: straight between its rows, nothing beyond them',
    {
      density: required(text('name of the age, by which dates name it; the same in each of its rows')),
      age_cal_bp: required(number('calendar age', 'cal BP', { min: -200, max: 1000000 })),
      weight: required(
        number('how probable a year there is, on any scale', 'as stated', { min: 0, max: 1e12 }),
      ),
      source: text('where it comes from'),
    },
  ),
  points: table("a sample's claim on the sea", {
    point: label('label of the point'),
    sample: required(reference('samples', 'the sample')),
    age_from: choice(
      'where its age comes from; age_depth: all clocks of its hole together, for all points of the hole; between: the nearest dates above and below it in its hole; event: the event of its determination',
      ['determination', 'age_depth', 'pooled', 'between', 'event'],
    ),
    determination: reference('determinations', 'which determination, where the sample has several'),
    indicator: text('what kind of deposit it is, from the vocabulary'),
    kind: required(choice('index point or limiting point', ['index', 'terrestrial', 'marine'])),
    lower: tide('lower limit of the indicative meaning; for terrestrial, the level the sea lay below'),
    upper: tide('upper limit of the indicative meaning; for marine, the level the sea lay above'),
    position: choice('what lies below', ['basal', 'base_of_basal', 'intercalated']),
    compressible_below: length('compressible sediment below', { min_m: 0, max_m: 200 }),
    status: choice('whether it is used', STATUS),
    reason: text('why it is rejected'),
  }),
  point_errors: table("one part of a point's height error", {
    point: required(reference('points', 'the point')),
    component: reworded(OLD_COMPONENTS, required(text('name of the part'))),
    value_m: required(
      number('size: 1 or 2 sigma of a normal, half width of a uniform, scale of a one-sided', 'm', {
        min: 0,
        max: 100,
      }),
    ),
    sigma_level: choice('how many sigma the value is', ['1', '2']),
    shape: choice('shape of the error', ['normal', 'uniform', 'one_sided']),
    shared_group: text('group whose points share this error'),
  }),
  other_curves: table('a level at one age of another curve, or of a prediction of a part of the level', {
    curve: required(text('name of that curve or prediction; the same in each of its rows')),
    use: choice('another curve to compare with; or a prediction (isostasy, land motion) to subtract', [
      'compare',
      'subtract',
    ]),
    age_cal_bp: required(number('age', 'cal BP', { min: -200, max: 1000000 })),
    level_m: required(
      // The sea of the last glacial stood 130 m lower (Lambeck et al. 2014, PNAS 111:15296); an uplifted coast, some hundreds.
      number('level; of a prediction its part of relative sea level', 'm', { min: -500, max: 500 }),
    ),
    level_sigma_m: sigma('the level'),
    datum: reference('datums', 'zero of its level, of a curve to compare with; not said if empty'),
    source: text('where it comes from'),
  }),
  correlations: table('a contact correlated between holes', {
    hole_a: required(reference('holes', 'one hole')),
    unit_a: renamed(
      'contact_a',
      required(
        naming(
          text('unit of that hole whose base is correlated: its label, or the identity of a row of it'),
          {
            table: 'units',
            column: 'unit',
            scope: { hole: 'hole_a' },
            byRow: true,
          },
        ),
      ),
    ),
    hole_b: required(reference('holes', 'the other hole')),
    unit_b: renamed(
      'contact_b',
      required(
        naming(
          text('unit of the other hole whose base is correlated: its label, or the identity of a row of it'),
          {
            table: 'units',
            column: 'unit',
            scope: { hole: 'hole_b' },
            byRow: true,
          },
        ),
      ),
    ),
    horizon: text('horizon the contact belongs to'),
    confidence: reworded(
      { sure: 'certain', likely: 'probable' },
      detail(choice('how certain it is', ['certain', 'probable', 'possible'])),
    ),
    status: choice('whether a person has accepted it; accepted if empty', [
      'proposed',
      'accepted',
      'refused',
    ]),
  }),
  field_days: formerly(
    'days',
    table('a field day', {
      date: required(date('day in the field')),
      crew: text('roles of the crew'),
      weather: text('wind, sky and sea, as met'),
      permits: text('permits seen, and who carries them'),
      contacts: text('whom to call ashore, and how'),
      leave_by: time('when the place must be left'),
      access: detail(choice('how the place is reached', ['foot', 'boat'])),
      access_level_m: detail(
        elevation('on foot, lowest point of the route; by boat, level the water must reach; campaign datum'),
      ),
      access_margin_m: detail(number('kept below the one, above the other', 'm', { min: 0, max: 20 })),
      access_minutes: detail(
        number('from the last tool packed to beyond that point', 'min', { min: 0, max: 1440 }),
      ),
      emergency_contact: text('whom to call in an emergency, and how'),
      emergency_position: text('position to tell the rescuers, and how the place is reached'),
      plan_next: text('plan for the next day'),
    }),
  ),
  permits: table('a permission that drilling needs, or what was found out about the ground', {
    permit: label('what it is called'),
    kind: required(
      choice('what it is about', [
        'landowner',
        'protected_ground',
        'heritage',
        'buried_services',
        'unexploded_ordnance',
        'sediment_import',
        'access',
        'other',
      ]),
    ),
    site: reference('sites', 'the site it is for; empty: all of them'),
    state: choice('how it is; of buried services and ordnance granted once they were located or cleared', [
      'to_ask',
      'asked',
      'granted',
      'refused',
      'not_needed',
    ]),
    reference: text('its number'),
    issued_by: text('who gives it'),
    held_by: text('who carries it in the field'),
    from: date('first day it is valid'),
    until: date('last day it is valid'),
    conditions: text('what it demands while drilling'),
    closing_seal: text('what it demands of the seal of the hole'),
    closing_pipe: text('what it demands of pipe and gear left'),
    closing_report: text('whom it demands a report for'),
    report_due: date('the day that report is due'),
  }),
  risks: table('a hazard of the work, who it could harm, and what is done about it', {
    hazard: label('the hazard'),
    check: text('name of the safety check it goes with; empty: of the crew'),
    site: reference('sites', 'the site it is for; empty: all of them'),
    who: text('who could be harmed'),
    control: text('what is done about it'),
    controlled_by: text('who sees to it'),
    residual: choice('what risk is left', ['low', 'medium', 'high']),
    reviewed: date('the day it was last gone through'),
  }),
  checks: readings('a line of a checklist answered', {
    hole: reference('holes', "the hole; empty for a day's check"),
    date: naming(date('the day it is for'), { table: 'field_days', column: 'date' }),
    question: renamed('item', required(text('the question as it was put'))),
    check: text('name of the check, the same however the question is put; empty for a question of the crew'),
    answer: choice('the answer', ['yes', 'no', 'not_needed']),
  }),
  settings: table('a choice of a computation or of the crew', {
    name: reworded(OLD_SETTINGS, label('name of the setting')),
    value: required(naming(text('its value'), { table: 'datums', where: ['name', 'datum'] })),
  }),
  pipe_stock: table(
    'a joint or fitting, wherever it is',
    {
      stock_item: label('label painted on it'),
      item: choice('what it is', ['joint', 'shoe', 'coupling', 'drive_head']),
      pipe: reference('pipes', 'kind of pipe'),
      length: detail(length('length, of a joint end to end', { min_m: 0, max_m: 20 })),
      makeup_loss: length('length lost in its thread; that of its kind of pipe if empty', {
        min_m: 0,
        max_m: 0.5,
      }),
      condition: detail(choice('how it is', ['sound', 'damaged', 'lost'])),
      condition_at: time(
        'when its condition was found; readings of the string after it count, without it the worse counts',
      ),
    },
    ['item'],
  ),
  rated_gear: table('a part that carries load, and what is marked on it', {
    part: label('label of the part: rope, shackle, sheave, hook, winch, anchor, mast'),
    rated_load_kn: detail(
      number('rated load marked on it; empty to take it from the marking', 'kN', { min: 0, max: 5000 }),
    ),
    marking: text('the marking as it reads, with its unit: WLL 2 t, 20 kN, 2000 kg'),
  }),
  gear: table('something to be taken along', {
    gear: label('what it is'),
    count: detail(number('how many', '', { min: 0, max: 10000 })),
    for: text('what it is needed for'),
    kind: detail(
      choice('kind of gear', ['cable', 'rope', 'vibrator', 'tape', 'pump', 'anchor', 'tool', 'other']),
    ),
    marks: text('what is painted or taped on it, e.g. every metre red'),
    condition: detail(choice('how it is', ['sound', 'damaged', 'lost'])),
    left_in: reference('holes', 'hole it stayed in'),
  }),
  packing: table('a line of the gear list: an amount of the crew’s own, and whether it is packed', {
    item: label('what it is'),
    line: text('name of the computed line it belongs to; empty: a line of the crew'),
    amount: detail(number('how much is taken, instead of what was computed', '', { min: 0, max: 100000 })),
    unit: text('unit of the amount'),
    packed: date('the day it was last packed for'),
  }),
  cable_marks: readings(
    'tape put on the sampler cable before a run: each is the depth of the tip below the collar when that tape passes it',
    {
      hole: hole(),
      sediment: length('tip where it meets the sediment', depth),
      interval: length('from there a tape at every such length, up to the stop', { min_m: 0, max_m: 20 }),
      full: length('tip where the sampler is full', depth),
      stop: length('tip where the sampler must stop', depth),
    },
  ),
  events: readings('something that happened at a hole or in a day', {
    hole: reference('holes', 'the hole; empty for the day'),
    date: date('the day'),
    kind: required(
      choice('what kind of event', ['note', 'breakdown', 'weather', 'injury', 'hand_over', 'call_in']),
    ),
    text: text('what happened; at a hand-over the state of the hole'),
    with_whom: text('who takes over, or whom a call-in is with'),
    next: text('at a hand-over what comes next'),
    confirmed: detail(boolean('confirmed by the crew that takes over')),
    due: time('when the next call-in is due; empty: no further one'),
  }),
  instrument_checks: readings('an instrument held against a known length or a known mark', {
    instrument: required(text('which one: what is painted on it')),
    kind: required(choice('what it is', ['staff', 'tape', 'cable', 'receiver'])),
    known: required(
      length('known length; for a satellite receiver the known height', { min_m: -500, max_m: 9000 }),
    ),
    observed: required(length('what it reads there', { min_m: -500, max_m: 9000 })),
    position_off_m: detail(
      number('for a receiver how far its position is off the mark', 'm', { min: 0, max: 10000 }),
    ),
    date: date('the day'),
  }),
  tide_reductions: table(
    'tide levels of a site that are computed from a gauge; stated ones take precedence',
    {
      site: required(reference('sites', 'the site they are for')),
      gauge: required(reference('gauges', 'the gauge')),
      method: choice(
        'how: constants, the prediction over 19 years (used if empty); means, of the high and low waters it was read at',
        ['constants', 'means'],
      ),
      from: date('first day used, UTC; of constants, its year is the first of the 19'),
      to: date('last day used, UTC; not used with constants'),
    },
  ),
  lead_profiles: table('a profile of lead-210 and caesium-137 in a core', {
    profile: label('label of the profile'),
    hole: required(reference('holes', 'the hole')),
    supported_bq_kg: number(
      'supported lead-210 of all its slices; if empty, that measured in each, or the deepest slices’ total',
      'Bq/kg',
      { min: 0, max: 10000 },
    ),
    supported_sigma_bq_kg: number('1 sigma of it', 'Bq/kg', { min: 0, max: 10000 }),
    collected: date('when the core was taken'),
  }),
  sequences: table('a member of a sequence with known gaps, such as rings', {
    sequence: required(text('label of the sequence')),
    determination: required(reference('determinations', 'the date')),
    offset_yr: required(
      number('years from the middle of the first member to the middle of this, younger positive', 'yr', {
        min: -100000,
        max: 100000,
      }),
    ),
    offset_error_yr: number('1 sigma of it, its own', 'yr', { min: 0, max: 10000 }),
    block_yr: number('rings or varves in the sample; 1 if empty', 'yr', { min: 1, max: 1000 }),
  }),
  compiled_points: table('a sea-level point from the literature', {
    point: label('label of the point'),
    site: reference('sites', 'the site'),
    source: required(text('publication')),
    latitude_deg: detail(number('latitude, WGS 84', 'deg', { min: -90, max: 90 })),
    longitude_deg: detail(number('longitude, WGS 84', 'deg', { min: -180, max: 180 })),
    kind: required(choice('index point or limiting point', ['index', 'terrestrial', 'marine'])),
    rsl_m: required(elevation('relative sea level')),
    rsl_2sigma_m: required(number('2 sigma of it', 'm', { min: 0, max: 100 })),
    datum: reference('datums', 'zero of its elevation; the campaign datum if empty'),
    age_cal_bp: number('calendar age', 'cal BP', { min: -200, max: 1000000 }),
    age_2sigma_yr: number('2 sigma of it', 'yr', { min: 0, max: 100000 }),
    c14_age: number('radiocarbon age, instead of a calendar age', '14C yr BP', { min: -6000, max: 60000 }),
    c14_error: number('1 sigma of it', '14C yr', { min: 0, max: 10000 }),
    calibration_curve: text('calibration curve of that age'),
    delta_r: number(
      'local reservoir offset ΔR of a marine radiocarbon age, as published or from near by',
      '14C yr',
      {
        min: -2000,
        max: 5000,
      },
    ),
    delta_r_error: number('1 sigma of ΔR', '14C yr', { min: 0, max: 2000 }),
  }),
  section_lines: table('a line through holes', {
    line: label('label of the line'),
    holes: required(text('labels of its holes in their order, separated by ;')),
    within_m: number('other holes no further than this from the line are set on it too; empty: none', 'm', {
      min: 0,
      max: 10000,
    }),
  }),
  section_profile: table('ground along a section line', {
    line: required(reference('section_lines', 'the line')),
    distance_m: required(number('from its first hole', 'm', { min: -100000, max: 100000 })),
    elevation_m: required(elevation('ground there')),
  }),
  section_boundaries: table('how a horizon runs between two holes of a line', {
    line: required(reference('section_lines', 'the line')),
    horizon: required(text('the horizon, or the unit of the one hole whose base it is')),
    hole_a: required(reference('holes', 'one hole')),
    hole_b: reference('holes', 'the other hole; empty where it ends'),
    ending: choice('how it ends', ['continuous', 'pinch_out', 'truncated', 'interfingered', 'unknown']),
    at_fraction: number('where, from one hole to the other', '', { min: 0, max: 1 }),
    lift_m: number('its middle above a straight line', 'm', { min: -100, max: 100 }),
  }),
  training_sets: table('a modern sample for a transfer function', {
    set: required(text('label of the set')),
    sample: required(reference('samples', 'the modern sample')),
    standardised_elevation: number('standardised water-level index', '', { min: -1000, max: 1000 }),
  }),
} as const;

export type TableName = keyof typeof schemas;
export type Row<T extends TableName> = RowOf<(typeof schemas)[T]['columns']>;

/** True for the name of one of our tables. */
export const isTableName = (name: string): name is TableName => Object.hasOwn(schemas, name);
