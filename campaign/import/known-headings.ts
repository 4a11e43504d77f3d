/**
 * Words people head their columns with, by what they are in ours. Common practice and the tables named in
 * `checks/import/README.md`; no source lists them. The first that fits takes the column.
 */
import { leadMeasurement } from '@stillstand/science/lead';
import { type Heading, readHeading } from './heading.ts';
import { KINDS, type Kind } from './mapping.ts';
import { targetsOf } from './targets.ts';

type Words = readonly (readonly [to: string, pattern: RegExp])[];

const CORE =
  /^(?:(?:core|hole|bore ?hole|drill ?hole|boring|log|station|well|profile)(?: (?:id|name|no|nr|number|code|label|location))?|core ?id|hole ?id)$/;
const SITE =
  /^(?:site|locality|location|area|marsh|place)(?: (?:id|name|code|or subregion))?$|^site or subregion$/;
const SAMPLE =
  /^(?:(?:field |your |client |submitter'?s? )?sample(?: (?:id|name|no|nr|number|code|label|ref(?:erence)?))?|specimen(?: (?:id|no))?|your (?:ref|id|code)|field (?:id|no|code)|submitter(?:'s)? (?:id|code)|client (?:ref|id|code|sample)|sample ?id)$/;
const TOP =
  /^(?:(?:depth|sample|interval|layer|unit)? ?(?:top|from|upper|start|min(?:imum)?)(?: (?:depth|of sample|bound(?:ary)?|contact))?|(?:top|upper|min(?:imum)?) (?:of )?(?:sample|interval|depth|layer|unit)|depth (?:top|from|min|upper|start))$/;
const BOTTOM =
  /^(?:(?:depth|sample|interval|layer|unit)? ?(?:bottom|base|to|lower|end|max(?:imum)?)(?: (?:depth|of sample|bound(?:ary)?|contact))?|(?:bottom|base|lower|max(?:imum)?) (?:of )?(?:sample|interval|depth|layer|unit)|depth (?:bottom|base|to|max|lower|end))$/;
const DEPTH =
  /^(?:(?:sample|core|mean|mid(?:dle)?|average)? ?depth(?: (?:mid(?:dle|point)?|in (?:the )?core|below (?:the )?(?:ground )?surface|interval|range))?|interval|distance below (?:the )?(?:ground )?surface|mid ?point depth)$/;
const THICKNESS = /^(?:sample )?thick(?:ness)?$/;
const LATITUDE = /^(?:(?:core|location|position|site|co-?ordinates?) )?(?:lat(?:itude)?|y)(?: wgs ?84| n)?$/;
const LONGITUDE =
  /^(?:(?:core|location|position|site|co-?ordinates?) )?(?:lon(?:g)?(?:itude)?|x)(?: wgs ?84| [ew])?$/;
const NOTE = /^(?:comments?|remarks?|notes?|description)$/;
const ERROR =
  /^[±σ]|\+\s*\/?\s*-|±$|\berr(?:ors?)?\b|\bunc\b|uncert|\bsigma\b|σ|\bs\.?[de]\.?$|\bstd\b|precision|accuracy/;

const IN_CORE: Words = [
  ['hole', CORE],
  ['top', TOP],
  ['bottom', BOTTOM],
  ['depth', DEPTH],
  ['thickness', THICKNESS],
];

/** The words an elevation is headed with. */
const ELEVATION =
  /^(?:(?:surface|ground|core(?: ?top)?|marsh|collar|top) )?(?:elev(?:ation)?|elv|altitude|height|level)(?: (?:of (?:core )?top|surface|above))?$|^z$/;

const KNOWN: Readonly<Record<Kind, Words>> = {
  cores: [
    [
      'reference_sigma_m',
      /(?:elev(?:ation)?|elv|altitude|height|vertical).*(?:error|uncert|sigma|accuracy|\bs[de]\b)/,
    ],
    ['latitude_deg', LATITUDE],
    ['longitude_deg', LONGITUDE],
    ['easting', /^(?:utm )?east(?:ing)?\b|^utm ?e$/],
    ['northing', /^(?:utm )?(?:north(?:ing)?|nrth)\b|^utm ?n$/],
    ['utm_zone', /^(?:utm )?zone$/],
    ['reference_elevation_m', ELEVATION],
    [
      'method',
      /^(?:(?:coring|drilling|sampling|core) )?(?:method|device|technique|equipment)$|^(?:corer|core type|type)$/,
    ],
    ['site', SITE],
    ['hole', CORE],
    ['hole', /^(?:name|id|label|no)$/],
    ['target_depth', /^(?:target|planned) depth$/],
    ['note', NOTE],
  ],
  'tide-levels': [
    ['site', SITE],
    ['site', /^(?:station|gauge|name)(?: name)?$/],
    ['level', /^(?:tidal |tide )?(?:level|datum)(?: name)?$/],
    ['sigma_m', ERROR],
    ['elevation_m', /^(?:elev(?:ation)?|height|value|level above .*)$/],
    ['datum', /^(?:(?:reference|vertical|zero) ?)?(?:datum|zero)$/],
    ['epoch', /epoch/],
    ['source', /^(?:source|reference)s?$/],
    ['note', NOTE],
  ],
  levelling: [
    ['loop', /^(?:loop|line|traverse|run|survey)(?: (?:id|no|name))?$/],
    ['seq', /^(?:seq|order|no|nr|row|set ?up)$/],
    ['point', /^(?:point|station|stn|id|name|mark|target|benchmark|bm)(?: (?:id|name|no))?$/],
    ['backsight_m', /^(?:back ?sight|bs)(?: reading)?$/],
    ['intermediate_m', /^(?:inter(?:mediate)?(?: ?sight)?|is)(?: reading)?$/],
    ['foresight_m', /^(?:fore ?sight|fs)(?: reading)?$/],
    ['distance_m', /^(?:dist(?:ance)?|sight length)$/],
    ['time', /^(?:time|date ?time)$/],
    ['note', NOTE],
  ],
  pushes: [
    ['hole', CORE],
    ['push', /^(?:push|drive|section|thrust|segment|run)(?: (?:id|no|name|number))?$/],
    ['from', TOP],
    ['to', BOTTOM],
    ['length', /^(?:length (?:pushed|driven)|penetration|advance)$/],
    ['shortening', /shortening|compaction/],
    ['hole', /^(?:name|id)$/],
    [
      'recovered',
      /^(?:recover(?:y|ed)(?: length)?|length recovered|core length|(?:sample|sampl) (?:length|lgth))$/,
    ],
    ['inside_top', /^inside(?: top)?$/],
    ['outside_top', /^outside(?: top)?$/],
    ['seq', /^(?:seq|order)$/],
    ['note', NOTE],
  ],
  layers: [
    ...IN_CORE,
    ['hole', /^(?:name|id)$/],
    ['unit', /^(?:unit|layer|stratum|facies unit|bed)(?: (?:id|no|nr|number|name|code))?$/],
    [
      'sediment',
      /^(?:sediment|lithology|material|main sediment|texture|soil type|lithofacies|sediment type|deposit|facies)$/,
    ],
    ['secondary_sediment', /^(?:second(?:ary)?|minor|admixture)(?: sediment| lithology)?$/],
    ['colour', /colou?r|munsell/],
    ['contact_below', /contact|boundary/],
    ['organic', /^organics?(?: matter| content)?$|^plant remains$|^roots$/],
    [
      'event_bed',
      /^(?:event|storm|washover|flood|tsunami) (?:bed|deposit|layer)$|^(?:tempestite|turbidite)$/,
    ],
    ['structures', /structure|bedding/],
    ['fossils', /fossil|shells?$|macrofauna/],
    ['environment', /environment|interpretation/],
    ['facies', /^facies/],
    ['note', NOTE],
  ],
  samples: [
    ['sample', SAMPLE],
    ...IN_CORE,
    ['material', /^(?:material|type|what)$/],
    ['elevation_sigma_m', /(?:elev(?:ation)?|altitude|height).*(?:error|uncert|sigma|accuracy)/],
    ['elevation_m', /^(?:sample )?(?:elev(?:ation)?|altitude|height)$/],
    ['site', SITE],
    ['parent', /^parent/],
    ['run', /^(?:run|push|drive|section)$/],
    ['note', NOTE],
  ],
  'calibration-curves': [
    ['curve', /^(?:calibration )?curve(?: (?:name|id))?$|^name$/],
    [
      'age_cal_bp',
      /^(?:cal(?:\.|ibrated|endar)?|theta|θ)(?: (?:age|years?|yrs?))?(?: \(?(?:cal\.? )?bp\)?)?$|^(?:age |years? |yrs? )?cal\.? ?(?:yr )?bp$/,
    ],
    [
      'c14_error',
      /^(?:(?:14 ?c|c ?14|radiocarbon|curve|age)(?: age)?\b.*)?(?:[±σ]|\+\s*\/?\s*-|\berror|\buncert|\bsigma\b|\bs\.?[de]\.?$|\bstd\b)/,
    ],
    ['c14_age', /^(?:(?:conventional )?(?:14 ?c|c ?14|radiocarbon)(?: age)?(?: (?:yrs? )?bp)?|mu|μ)$/],
    ['reservoir', /^(?:reservoir|carbon|curve of)$/],
    ['source', /^(?:references?|sources?|citations?|publications?)$/],
    ['note', NOTE],
  ],
  'age-densities': [
    [
      'density',
      /^(?:(?:age|density|curve|tephra|event|marker|horizon|eruption) ?)?(?:name|id|label)$|^(?:tephra|event|marker|horizon|eruption|curve)$/,
    ],
    ['age_b2k', /\bb2k\b/],
    ['age_cal_bp', /\bbp\b|^(?:cal(?:ibrated|endar)? )?ages?$|^cal$|^years? before 1950$/],
    [
      'age_ce',
      /^(?:cal(?:endar)? )?(?:ages?|years?|yrs?|dates?)?[ (]*(?:(?:bce?[/ ]+)?(?:ce|ad)(?:[/ ]+bce?)?)\)?$|^(?:cal(?:endar)? )?(?:years?|dates?)$|^calendar$/,
    ],
    ['age_bce', /^(?:cal(?:endar)? )?(?:ages?|years?|yrs?|dates?)?[ (]*bce?\)?$/],
    [
      'weight',
      /^(?:(?:relative|posterior|prior|calibrated|normali[sz]ed|age) )?(?:probabilit(?:y|ies)|prob|likelihood|weights?)(?: density| mass)?$|^(?:probability )?densit(?:y|ies)(?: function)?$|^(?:pdf|p|frequency)$/,
    ],
    ['source', /^(?:references?|sources?|citations?|publications?)$/],
    ['note', NOTE],
  ],
  dates: [
    ['delta13c_permil', /(?:d|δ|delta)\s*-?\s*(?:13\s*c|c\s*-?\s*13)|13c/],
    ['delta_r_error', /(?:(?:delta|δ|d)\s*-?r|reservoir).*(?:±|sd|sigma|error|uncert)/],
    ['delta_r', /^(?:delta|δ|d)\s*-?r\b|reservoir/],
    ['hole', CORE],
    ['sample', SAMPLE],
    [
      'lab_code',
      /lab(?:oratory)?\b.*\b(?:code|no|nr|num|number|id|ref)|^lab$|^code$|analysis (?:id|no|number)|lab ?(?:code|id)|accession/,
    ],
    [
      'error',
      /^(?:[±σ]|\+\s*\/?\s*-)|(?:c ?14|14 ?c|age|date|bp|radiocarbon).*(?:±|\+\s*\/?\s*-|\berror|uncert|sigma|\bs\.?[de]\.?\b|std|\b1s\b)|^(?:(?:1 )?(?:error|uncertainty|sigma|sd|se|std))$/,
    ],
    [
      'value',
      /(?:conventional|radiocarbon|\b14 ?c|\bc-? ?14|uncal\w*).*(?:age|bp|date|years)|^age(?: bp)?$|^bp$|\byr?s? bp\b|^value$|^(?:14 ?c|c ?14)$/,
    ],
    ['top', TOP],
    ['bottom', BOTTOM],
    ['depth', DEPTH],
    ['thickness', THICKNESS],
    ['material', /^(?:sample )?material(?: (?:dated|type))?$|^dated (?:material|facies)$/],
    ['fraction_dated', /fraction dated|pre-?treat|treatment|dated (?:part|fraction)|what was dated/],
    ['method', /^(?:dating )?(?:method|technique)$/],
    ['calibration_curve', /curve/],
    ['marine_fraction', /marine (?:share|fraction|carbon|%)/],
    ['status', /^(?:status|accepted|rejected|reject code)$/],
    ['reason', /^(?:reason|why rejected)/],
    ['note', NOTE],
  ],
  measurements: [
    ['sample', SAMPLE],
    ...IN_CORE,
    ['hole', /^(?:name|id)$/],
    ['property', /^(?:property|parameter|variable|analyte|proxy|measurement|element)$/],
    ['value', /^(?:value|result|measured value|concentration)$/],
    ['sigma', /^(?:error|uncertainty|sigma|sd|se|std|±)$/],
    ['unit', /^units?$/],
    ['method', /^(?:method|technique|instrument)$/],
    ['batch', /^(?:batch|run no|tray)$/],
    ['material', /^material$/],
    ['note', NOTE],
  ],
  'lead-profiles': [
    ['sample', SAMPLE],
    ['sample', /^(?:slice|section)(?: (?:id|no|nr|number))?$/],
    ...IN_CORE,
    ['hole', /^(?:name|id)$/],
    [
      'collected',
      /^(?:date )?(?:collected|sampled|collection|cored)(?: date)?$|^(?:coring|sampling|collection) date$|^date of (?:collection|coring|sampling)$/,
    ],
    ['method', /^(?:method|technique|instrument)$/],
    ['batch', /^(?:batch|run no|tray)$/],
    ['note', NOTE],
  ],
  points: [
    ['point', /^(?:(?:index |sea-?level )?point|slip|id)(?: (?:id|no|name|code))?$/],
    ['sample', SAMPLE],
    ...IN_CORE,
    ['determination', /^(?:lab(?:oratory)? code|date|determination|dated by)$/],
    ['kind', /^(?:kind|type|point type|category)$/],
    ['indicator', /indicator|deposit/],
    ['lower', /^(?:lower|indicative (?:range |meaning )?lower|lower (?:limit|bound).*)$/],
    ['upper', /^(?:upper|indicative (?:range |meaning )?upper|upper (?:limit|bound).*)$/],
    ['position', /^(?:position|stratigraphic position|basal)/],
    ['note', NOTE],
  ],
  'published-points': [
    ['point', /^(?:(?:index |sea-?level )?point(?: (?:id|no|name|code))?|sample ?(?:id)?|id|number)$/],
    ['point', /^lab(?:oratory)? (?:code|no|id)$/],
    [
      'source',
      /^(?:(?:primary|full|original) )?(?:references?|sources?|citations?|publications?|authors?)(?: keys?)?$/,
    ],
    ['site', SITE],
    ['site', /^region$/],
    ['latitude_deg', LATITUDE],
    ['longitude_deg', LONGITUDE],
    ['rsl error up', /rsl.*(?:up|plus|\+|upper)/],
    ['rsl error down', /rsl.*(?:down|minus|lower)/],
    ['rsl_2sigma_m', /rsl.*(?:error|uncert|sigma|\bs[de]\b|±)/],
    ['rsl_m', /^(?:published |corrected )?(?:rsl|relative sea ?-?level)$/],
    ['delta_r_error', /(?:(?:delta|δ|d)\s*-?r|reservoir).*(?:±|sd|sigma|error|uncert)/],
    ['delta_r', /^(?:delta|δ|d)\s*-?r\b|reservoir/],
    ['c14_error', /(?:14 ?c|c ?14|radiocarbon).*(?:error|uncert|sigma|\bs[de]\b|±)/],
    ['c14_age', /(?:14 ?c|c ?14|radiocarbon|conventional).*age|uncal/],
    ['age error older', /age.*(?:plus|older|up|\+)/],
    ['age error younger', /age.*(?:minus|younger|down)/],
    ['age_2sigma_yr', /^(?:cal )?age.*(?:error|uncert|sigma|±)/],
    ['age_ce', /^age (?:ce|ad)$|^year (?:ce|ad)$/],
    ['age_cal_bp', /^(?:(?:median|published|mean) )?(?:cal(?:ibrated|endar)? ?)?age(?: cal)?(?: bp)?$/],
    ['calibration_curve', /curve/],
    ['kind', /^(?:kind|type|type code|point type|category|class)$/],
    ['note', NOTE],
  ],
};

/** Never one of ours, whatever else is said in the heading. */
const NOT_OURS: Readonly<Partial<Record<Kind, RegExp>>> = {
  dates:
    /calibrat(?:ed|ion) (?:age|date|range)|cal\.? ?(?:bp|bc|ad|ce)\b|f\s*14\s*c|pmc|percent modern|fraction modern|d14c|δ14c|date (?:received|reported|sampled)|invoice|\bmass\b|weight|published|as published|corrected/,
  samples: /weight|mass|volume/,
  'age-densities':
    /14 ?c|c ?14|radiocarbon|conventional|depth|\blab\b|\berr(?:or)?s?\b|±|sigma|uncert|\bs\.?[de]\.?$/,
  'calibration-curves': /lab|sample|(?:d|δ|delta) ?-?14 ?c|\bpmc\b|f ?14 ?c/,
};

/** Nor these, in any table. */
const NEVER = /\bbounds?\b/;

/** A column of flags beside each column of data. */
const FLAG = /^(?:flag|qc|quality)\b/;

/**
 * What of ours the words of a heading mean in a table of that kind; null where nothing is known. Of two headings that
 * mean the same the one of the lower rank is the better known.
 */
export function knownHeading(kind: Kind, text: string, words: string): { to: string; rank: number } | null {
  if (words === '' || FLAG.test(words)) return null;
  const own = text
    .trim()
    .toLowerCase()
    .replace(/[\s-]+/g, '_');
  if (targetsOf(kind).get(own)?.way === 'own') return { to: own, rank: -1 };
  if (NEVER.test(words) || NOT_OURS[kind]?.test(words)) return null;
  const rank = KNOWN[kind].findIndex(([, pattern]) => pattern.test(words));
  return rank === -1 ? null : { to: KNOWN[kind][rank]![0], rank };
}

/** The column of ours that one heading means, as "BS" the back sight; null where nothing is known. */
export const columnOfHeading = (kind: Kind, heading: string): string | null =>
  knownHeading(kind, heading, readHeading(heading).words)?.to ?? null;

export const isErrorHeading = (words: string): boolean => ERROR.test(words);
export const isFlagHeading = (words: string): boolean => FLAG.test(words);

/** How many cells of a line are headings that some kind of table knows. */
export function headingScore(cells: readonly string[]): number {
  const headings = readAll(cells);
  return headings.length < 2 ? 0 : Math.max(...KINDS.map((kind) => scoreAs(kind, headings)));
}

export const readAll = (cells: readonly string[]): Heading[] =>
  cells
    .slice(0, 300)
    .filter((cell) => cell.trim() !== '' && cell.length <= 100)
    .map((cell) => readHeading(cell));

/** The same for one kind; of two that mean the same one counts. */
export function scoreAs(kind: Kind, headings: readonly Heading[]): number {
  const found = new Set<string>();
  for (const { text, words } of headings) {
    const known = knownHeading(kind, text, words);
    if (known !== null) found.add(known.to);
  }
  if (kind === 'age-densities') return scoreOfDensity(found, headings);
  return kind === 'lead-profiles' ? scoreOfLead(found.size, headings) : found.size;
}

/** Years and how probable each is; years alone are of many a table, and tell little. */
function scoreOfDensity(found: ReadonlySet<string>, headings: readonly Heading[]): number {
  if (![...found].some((to) => to.startsWith('age_'))) return 0;
  const isWeighted =
    found.has('weight') || headings.some(({ words, unit }) => words === 'density' && unit === null);
  return isWeighted ? found.size : 1;
}

/** No profile without lead-210; what belongs to one tells more than where it lies. */
function scoreOfLead(known: number, headings: readonly Heading[]): number {
  const measured = new Set(headings.flatMap(({ words }) => leadMeasurement(words) ?? []));
  return measured.has('total') || measured.has('excess') ? known + 2 * measured.size : 0;
}
