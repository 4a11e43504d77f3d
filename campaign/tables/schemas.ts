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
  date,
  detail,
  label,
  length,
  naming,
  number,
  type RowOf,
  reference,
  required,
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
  amends: text('row_id of the reading this row amends'),
  amend_kind: choice('what the amendment does', ['replace', 'withdraw']),
};

interface TableDescription<C extends Columns> {
  about: string;
  /** Append-only: rows are amended by later rows, never edited. */
  readings: boolean;
  /** Columns within whose values the label is unique; empty for the whole campaign. */
  scope: readonly string[];
  columns: C;
}

const table = <C extends Columns>(about: string, columns: C, scope: readonly string[] = []) =>
  ({
    about,
    readings: false,
    scope,
    columns: { ...columns, ...common },
  }) as const satisfies TableDescription<Columns>;

const readings = <C extends Columns>(about: string, columns: C, scope: readonly string[] = []) =>
  ({
    about,
    readings: true,
    scope,
    columns: { ...columns, ...reading, ...common },
  }) as const satisfies TableDescription<Columns>;

const hole = () => required(reference('holes', 'the hole'));
const depth = { min_m: 0, max_m: 200 };
const sigma = (of: string) => number(`1 sigma of ${of}`, 'm', { min: 0, max: 100 });
const elevation = (about: string) => number(about, 'm', { min: -12000, max: 9000 });
const STATUS = ['accepted', 'rejected'] as const;

export const schemas = {
  sites: table('a place', {
    site: label('label of the site'),
    name: text('name of the site'),
    latitude_deg: detail(number('latitude, WGS 84', 'deg', { min: -90, max: 90 })),
    longitude_deg: detail(number('longitude, WGS 84', 'deg', { min: -180, max: 180 })),
    frame: text('reference frame of the coordinates, if not WGS 84'),
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
    date: date('when it was determined'),
    source: text('where it comes from'),
  }),
  levelling: readings('one sight group of a levelling loop', {
    loop: required(text('label of the loop')),
    point: required(naming(text('bench mark, hole reference or turning point'), { table: 'benchmarks' })),
    backsight_m: number('staff reading back', 'm', { min: 0, max: 10 }),
    intermediate_m: number('staff reading between', 'm', { min: 0, max: 10 }),
    foresight_m: number('staff reading forward', 'm', { min: 0, max: 10 }),
    distance_m: number('length of the sight pair', 'm', { min: 0, max: 1000 }),
  }),
  gauges: table('a tide gauge', {
    gauge: label('label of the gauge'),
    site: detail(reference('sites', 'where it stands')),
    datum: reference('datums', 'zero of its readings'),
    zero_m: number('elevation of its zero on that datum', 'm'),
    sigma_m: sigma('the zero'),
  }),
  gauge_readings: readings('one reading of a tide gauge', {
    gauge: required(reference('gauges', 'the gauge')),
    height_m: required(number('water above the gauge zero', 'm', { min: -30, max: 30 })),
    flag: text('doubt about the reading'),
  }),
  constituents: table('a tidal constant', {
    gauge: required(reference('gauges', 'the gauge')),
    constituent: required(text('name of the constituent')),
    amplitude_m: required(number('amplitude of the constituent', 'm', { min: 0, max: 15 })),
    phase_deg: required(number('phase lag, Greenwich', 'deg', { min: -360, max: 360 })),
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
    latitude_deg: detail(number('latitude, WGS 84', 'deg', { min: -90, max: 90 })),
    longitude_deg: detail(number('longitude, WGS 84', 'deg', { min: -180, max: 180 })),
    reference_point: naming(text('levelled point that is the reference of the hole (in levelling)'), {
      table: 'benchmarks',
    }),
    reference_elevation_m: elevation('elevation of the reference, where it is not levelled here'),
    reference_sigma_m: sigma('the reference elevation'),
    reference_datum: reference('datums', 'zero of the reference elevation'),
    reference_group: text('what its error is shared with, e.g. a bench mark'),
    pipe: reference('pipes', 'kind of pipe'),
    replaces: detail(reference('holes', 'lost hole that this one replaces')),
    offset_m: detail(number('distance from the hole it replaces', 'm', { min: 0, max: 1000 })),
    state: detail(
      choice('how it stands', ['planned', 'open', 'suspended', 'finished', 'refused', 'lost', 'abandoned']),
    ),
    end_reason: text('why it ended'),
    left_in_ground: text('pipe and gear left in the ground'),
    sealed_with: text('what the hole was sealed with'),
    lean_deg: number('lean off the vertical, measured', 'deg', { min: 0, max: 45 }),
  }),
  ground: readings('ground level next to a hole', {
    hole: hole(),
    ground_below_reference: required(
      length('ground below the reference, positive down', { min_m: -20, max_m: 20 }),
    ),
    cause: text('what moved it: tide, boots, sand drawn down'),
  }),
  joints: readings('an item added to or taken from the string', {
    hole: hole(),
    action: required(choice('what was done', ['add', 'remove', 'pull', 'cut', 'left', 'lost'])),
    item: required(choice('what went in or came out', ['joint', 'shoe', 'coupling', 'drive_head'])),
    joint: text('label painted on the item'),
    length: length('length, of a joint end to end', { min_m: 0, max_m: 20 }),
    tight: detail(boolean('thread confirmed tight before it goes below ground')),
    line_load_kn: detail(number('load on the line when pulled', 'kN', { min: 0, max: 2000 })),
  }),
  drives: readings('a spell of driving the string', {
    hole: hole(),
    stick_up_start: required(length('collar above the reference before', { min_m: -20, max_m: 20 })),
    stick_up_end: required(length('collar above the reference after', { min_m: -20, max_m: 20 })),
    duration_s: detail(number('time the vibrator ran', 's', { min: 0, max: 86400 })),
    ended_by: detail(
      choice('what ended the drive', ['length', 'slowing', 'refusal', 'obstruction', 'tide', 'fault']),
    ),
    speed_hz: detail(number('vibrator speed', 'Hz', { min: 0, max: 1000 })),
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
    to_sediment: length('collar to the sediment inside; at a zero check what the cable reads at the collar', {
      min_m: -2,
      max_m: 200,
    }),
    to_water_inside: length('collar to the water inside', { min_m: -2, max_m: 200 }),
    water_outside: length('water outside below the reference; negative above it', { min_m: -50, max_m: 50 }),
    collar_to_shoe: length('collar to shoe as believed then, for comparison', depth),
    stick_up: length('collar above the reference then', { min_m: -20, max_m: 20 }),
    sigma: length('1 sigma of the reading', { min_m: 0, max_m: 5 }),
  }),
  water: readings('water put into the string', {
    hole: hole(),
    volume_l: detail(number('volume poured in', 'L', { min: 0, max: 100000 })),
    kind: detail(choice('kind of water', ['fresh', 'sea'])),
    to_water_before: length('collar to the water before', { min_m: -2, max_m: 200 }),
    to_water_after: length('collar to the water after', { min_m: -2, max_m: 200 }),
  }),
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
      fall_in_top: length('disturbed fall-in on top of what came up, excluded', { min_m: 0, max_m: 20 }),
      loss_at: choice('where what was removed but not recovered is missing', [
        'top',
        'base',
        'spread',
        'unknown',
      ]),
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
    basis: required(choice('what its depths are measured in', ['run', 'push', 'entered', 'in_situ'])),
    run: text('the run or push, where that is the basis'),
    top: required(length('top of the layer on its basis', depth)),
    bottom: required(length('bottom of the layer on its basis', depth)),
    sediment: required(text('main sediment, from the vocabulary')),
    second: text('second sediment, less than half'),
    colour: text('colour, Munsell or words'),
    organic: text('organic matter: roots, wood, leaves'),
    contact_below: detail(choice('contact at its base', ['sharp', 'gradational', 'erosional', 'uncertain'])),
    structures: text('structures, separated by ;'),
    fossils: text('fossils, separated by ;'),
    environment: text('interpreted environment'),
  }),
  photos: table('a picture', {
    hole: detail(reference('holes', 'the hole')),
    basis: detail(choice('what its depths are measured in', ['run', 'push', 'entered', 'in_situ'])),
    run: text('the run or push'),
    top: detail(length('top of what the picture shows, on its basis', depth)),
    bottom: detail(length('bottom of what the picture shows, on its basis', depth)),
    file: required(text('file, named by the hash of its content')),
  }),
  samples: table('a piece taken', {
    sample: label('label of the sample'),
    hole: reference('holes', 'the hole; empty for a surface sample'),
    basis: choice('what its depths are measured in', ['run', 'push', 'entered', 'in_situ', 'elevation']),
    run: text('the run or push, where that is the basis'),
    top: length('top of the sample on its basis', { min_m: -50, max_m: 200 }),
    bottom: length('bottom of the sample on its basis', { min_m: -50, max_m: 200 }),
    elevation_m: elevation('elevation of its middle, where the basis is elevation'),
    elevation_sigma_m: sigma('that elevation'),
    elevation_datum: reference('datums', 'zero of that elevation'),
    site: reference('sites', 'the site, where there is no hole'),
    parent: reference('samples', 'sample it was taken from'),
    material: text('what it is made of'),
  }),
  measurements: table('a number measured on a sample', {
    sample: required(reference('samples', 'the sample')),
    property: required(text('what was measured')),
    value: required(number('value as measured', 'as stated')),
    sigma: number('1 sigma', 'as stated', { min: 0 }),
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
    value: required(
      number(
        'radiocarbon: conventional age, 14C yr BP (below 0 after 1950), or F14C; otherwise calendar age, yr before 1950',
        'yr',
        { min: -6000, max: 1000000 },
      ),
    ),
    error: required(number('1 sigma as reported', 'yr', { min: 0, max: 100000 })),
    reported_as: choice('what value and error are, for radiocarbon; age if empty', ['age', 'f14c']),
    delta13c_permil: detail(number('δ13C as the laboratory gave it', '‰ VPDB', { min: -100, max: 50 })),
    fraction_dated: text('what was dated of the sample'),
    calibration_curve: choice('calibration curve; a bomb zone is its atmosphere before 1942 too', [
      'intcal20',
      'shcal20',
      'marine20',
      'bomb21_nh1',
      'bomb21_nh2',
      'bomb21_nh3',
      'bomb21_sh1_2',
      'bomb21_sh3',
    ]),
    reservoir_offset: number('reservoir offset ΔR, added to the curve', '14C yr', { min: -2000, max: 5000 }),
    reservoir_sd: number('1 sigma of the reservoir offset', '14C yr', { min: 0, max: 2000 }),
    offset_group: text('determinations that share the error of one reservoir offset'),
    marine_share: number('share of marine carbon', '', { min: 0, max: 1 }),
    reference_year: number('year the age counts back from, where it is not 1950', 'yr CE', {
      min: 1800,
      max: 2200,
    }),
    age_role: choice(
      'how the age applies: dates, it is the age of the layer; maximum, the layer is younger; minimum, the layer is older',
      ['dates', 'maximum', 'minimum'],
    ),
    group: text('determinations of one thing, to be pooled'),
    status: choice('whether it is used', STATUS),
    reason: text('why it is rejected'),
  }),
  points: table("a sample's claim on the sea", {
    point: label('label of the point'),
    sample: required(reference('samples', 'the sample')),
    age_from: choice('where its age comes from', ['determination', 'age_depth', 'pooled']),
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
    component: required(text('name of the part')),
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
  correlations: table('a tie between holes drawn by hand', {
    hole_a: required(reference('holes', 'one hole')),
    contact_a: required(
      naming(text('unit of that hole whose base is tied'), {
        table: 'units',
        column: 'unit',
        scope: { hole: 'hole_a' },
      }),
    ),
    hole_b: required(reference('holes', 'the other hole')),
    contact_b: required(
      naming(text('unit of the other hole whose base is tied'), {
        table: 'units',
        column: 'unit',
        scope: { hole: 'hole_b' },
      }),
    ),
    confidence: detail(choice('how sure the tie is', ['sure', 'likely', 'possible'])),
  }),
  days: table('a field day', {
    date: required(date('day in the field')),
    crew: text('roles of the crew'),
    weather: text('wind, sky and sea, as met'),
    permits: text('permits seen, and who carries them'),
    contacts: text('whom to call ashore, and how'),
    leave_by: time('when the place must be left'),
  }),
  checks: readings('a line of a checklist answered', {
    hole: reference('holes', "the hole; empty for a day's check"),
    date: naming(date('the day it is for'), { table: 'days', column: 'date' }),
    item: required(text('what was asked')),
    answer: choice('the answer', ['yes', 'no', 'not_needed']),
  }),
  settings: table('a choice of a computation or of the crew', {
    name: label('name of the setting'),
    value: required(naming(text('its value'), { table: 'datums', where: ['name', 'datum'] })),
  }),
} as const;

export type TableName = keyof typeof schemas;
export type Row<T extends TableName> = RowOf<(typeof schemas)[T]['columns']>;

/** True for the name of one of our tables. */
export const isTableName = (name: string): name is TableName => Object.hasOwn(schemas, name);
