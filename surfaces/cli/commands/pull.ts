/** `stillstand pull`: what it may take to pull the string, against what is marked on the gear. */
import { type RatedPart, withMarks } from '@stillstand/campaign/holes';
import type { Problem } from '@stillstand/campaign/problems';
import { problem } from '@stillstand/campaign/problems';
import { type GearNumber, type PullingGear, readSettings } from '@stillstand/campaign/settings';
import { atMost } from '@stillstand/science/base';
import {
  CAUTIONS,
  FRICTION,
  overheadClearance,
  type PullCase,
  type PullEstimate,
  pullEstimate,
  type Range,
  rangeMassWords,
  rangeWords,
  ratingWords,
  readRating,
  SHEAVE_K,
} from '@stillstand/science/rig';
import { type Command, type ExitCode, type Words, WrongUse } from '../command.ts';
import { lengthWord, sayLength, typedUnit, unitWord } from '../crew-length.ts';
import { AT_OPTION, holeWords, missingReading, noString, openRigHole } from '../open-hole.ts';
import { PIPE_OPTIONS, pipeWords } from '../pipe-words.ts';
import { print, sayJson, sayProblems, sayTable } from '../say.ts';

/** Options for the marks on the gear, and the part each is of. */
const GEAR = [
  ['rope', 'rope'],
  ['winch', 'winch'],
  ['sheave', 'sheave block'],
  ['hook', 'hook'],
  ['shackle', 'shackle'],
  ['derrick', 'mast or tripod'],
  ['anchor', 'anchor'],
] as const;

/** Nothing said of the gear. */
const { pulling: UNSAID } = readSettings([]).settings;

export const pull: Command = {
  name: 'pull',
  summary: 'Estimate the load of pulling the string against the ratings of the gear.',
  usage: [
    'pull FOLDER HOLE [--at SEQ] [--parts 4] [--rope 20kN --shackle 2t] [--json]',
    'pull --pipe 3 --shoe 12m --penetration 10m [--plug 2m] [--parts 4] [--json]',
  ],
  options: {
    ...AT_OPTION,
    shoe: { type: 'string', value: 'LENGTH', about: 'collar to shoe' },
    penetration: { type: 'string', value: 'LENGTH', about: 'shoe below the ground' },
    plug: { type: 'string', value: 'LENGTH', about: 'sediment inside; all of the penetration if not known' },
    extra: { type: 'string', value: 'KG', about: 'drive head, vibrator, block on the hook; 0 if not given' },
    parts: { type: 'string', value: 'NUMBER', about: 'parts of line at the block; 1 if not given' },
    sheaves: { type: 'string', value: 'NUMBER', about: 'rolling sheaves; as many as parts if not given' },
    bearing: { type: 'string', value: 'roller|plain', about: 'bearings of the sheaves; plain if not given' },
    ...Object.fromEntries(
      GEAR.map(([option, part]) => [
        option,
        { type: 'string', value: 'LOAD', about: `load marked on ${part}: 20 (kN), 2t, 2000kg` },
      ]),
    ),
    overhead: { type: 'string', value: 'KV', about: 'voltage of an overhead line near by' },
    ...PIPE_OPTIONS,
    unit: {
      type: 'string',
      value: 'm|ft',
      about: 'the crew’s unit, also of bare numbers; as in the hole’s readings or the options, else m',
    },
  },
  more: [
    `Friction πD∫βσ′v dz, β ${FRICTION.beta.low} to ${FRICTION.beta.high}, buoyant weight ${FRICTION.buoyant_kn_m3.low} to ${FRICTION.buoyant_kn_m3.high} kN/m³; vibrated, ${FRICTION.vibrated.low} to ${FRICTION.vibrated.high} of it is left (our estimate).`,
    `Sheaves by API RP 9B, K ${SHEAVE_K.roller} (roller) or ${SHEAVE_K.plain} (plain). Overhead: 29 CFR 1926.1408 Table A. Exit code 1 where`,
    'a load rating could be exceeded. Loads are rounded up, ratings down; t is the metric tonne, 9.80665 kN. Rope and winch carry the',
    'line, hook and shackle the hook load, a sheave block its largest resultant, mast, tripod and anchor the load at the head.',
    '',
    `Caution. ${CAUTIONS.line_pull}`,
  ].join('\n'),
  run,
};

async function run(words: Words): Promise<ExitCode> {
  const place = holeWords(words.positionals);
  const hole = place === null ? null : await openRigHole(...place, words.number('at', { min: 0 }));
  const unit = unitWord(words) ?? hole?.unit ?? typedUnit(words, ['shoe', 'penetration', 'plug']) ?? 'm';
  const length = (option: string) => lengthWord(words, option, unit);
  const pipe = pipeWords(words) ?? hole?.pipe ?? null;
  const state = hole?.last ?? null;
  const shoe_m = length('shoe') ?? (hole?.fold.joints_in ? (state?.collar_to_shoe_m ?? null) : null);
  const penetration_m = length('penetration') ?? state?.penetration_now_m ?? state?.penetration_m ?? null;
  const gear = hole?.pulling ?? null;
  const gearParts = withMarks(hole?.campaign.rows.rated_gear ?? [], gear ?? UNSAID, marksGiven(words));
  const bearing = words.text('bearing') ?? gear?.bearing ?? 'plain';
  if (bearing !== 'roller' && bearing !== 'plain')
    throw new WrongUse(`--bearing: found “${bearing}”, expected roller or plain`);
  if (pipe === null) {
    throw new WrongUse(
      hole === null
        ? 'Expected a folder and a hole, or --pipe with --shoe and --penetration'
        : `The pipe of ${hole.name} has no diameter and wall; name it with --pipe`,
    );
  }
  if (hole === null && (shoe_m === null || penetration_m === null))
    throw new WrongUse('Expected --shoe and --penetration');
  const parts = words.number('parts', { min: 1, max: 32, integer: true }) ?? gear?.parts ?? 1;
  const kv = words.number('overhead', { min: 0 });
  const problems: Problem[] = (hole?.problems ?? []).filter((p) => p.severity === 'error');
  const label = hole?.name ?? null;
  if (shoe_m === null) {
    problems.push(noString(hole!));
  } else if (penetration_m === null) {
    problems.push(
      missingReading(
        'soundings',
        label,
        'the collar above the reference as it stands now',
        'Read the stick-up.',
      ),
    );
  }
  const unusable = unusableOf(words, gear);
  problems.push(
    ...unusable.map(({ name, words: found }) =>
      problem({
        severity: 'error',
        code: 'unusable-setting',
        table: 'settings',
        label: name,
        column: 'value',
        found,
        expected: 'a value within its range',
        fix: 'Correct the setting, or give the option. No load is computed.',
      }),
    ),
  );
  const estimate =
    shoe_m === null || penetration_m === null || unusable.length > 0
      ? null
      : pullEstimate({
          pipe,
          collar_to_shoe_m: shoe_m,
          penetration_m,
          plug_m: length('plug') ?? state?.plug_m ?? null,
          extra_kg: words.number('extra', { min: 0, max: 10_000 }) ?? gear?.hanging_kg ?? 0,
          reeving: {
            parts,
            sheaves: words.number('sheaves', { min: 0, max: 32, integer: true }) ?? gear?.sheaves ?? parts,
            bearing,
          },
          rated: gearParts.flatMap(({ part, rated_kn, on }) =>
            rated_kn === null ? [] : [{ part, rated_kn, on }],
          ),
        });
  if (estimate === null && shoe_m !== null && penetration_m !== null && unusable.length === 0) {
    throw new WrongUse(
      `A string of ${sayLength(shoe_m, unit)} cannot stand ${sayLength(penetration_m, unit)} in the ground`,
    );
  }
  const overhead = kv === undefined ? null : { kv, ...overheadClearance(kv) };
  if (estimate !== null) {
    problems.push(
      ...exceeded('still', estimate.still, label, 'danger'),
      ...exceeded('vibrated', estimate.vibrated, label, 'danger'),
    );
  }
  if (words.flag('json')) {
    sayJson({ hole: label, collar_to_shoe_m: shoe_m, penetration_m, estimate, gear: gearParts, overhead });
  } else {
    if (estimate !== null) say(estimate, gearParts);
    for (const { words: found } of unusable) print(`${found}: no load is computed.`);
    if (overhead !== null) {
      print(
        overhead.distance_m === null
          ? `Overhead line of ${overhead.kv} kV: its owner or a qualified engineer sets the distance.`
          : `Overhead line of ${overhead.kv} kV: keep everything at least ${sayLength(overhead.distance_m, unit, 'at least')} away.`,
      );
      print(`Caution. ${overhead.caution}`);
    }
  }
  return sayProblems(problems);
}

function exceeded(how: string, of: PullCase, label: string | null, severity: Problem['severity']): Problem[] {
  return of.against.flatMap(({ part, rated_kn, load_kn, verdict }) =>
    verdict === 'within'
      ? []
      : [
          problem({
            severity,
            code: 'rated-load-exceeded',
            table: 'the gear',
            label,
            column: part,
            found: `${kn(load_kn)}, ${how}: ${verdict} the rating`,
            expected: `at most the ${ratingWords(rated_kn)} marked on it`,
            fix: 'Use more parts of line or heavier gear, or vibrate while pulling. Do not exceed any load rating marked on the gear.',
          }),
        ],
  );
}

/** The option that says otherwise than a setting of the gear. */
const INSTEAD: Readonly<Record<GearNumber, readonly string[]>> = {
  line_parts: ['parts'],
  line_sheaves: ['sheaves'],
  hanging_kg: ['extra'],
  rated_line_kn: ['rope', 'winch'],
  rated_hook_kn: ['hook', 'shackle'],
  rated_head_kn: ['derrick', 'anchor'],
};

/** What the campaign says of the gear, cannot be used, and no option replaces. */
const unusableOf = (words: Words, gear: PullingGear | null): PullingGear['unusable'] =>
  (gear?.unusable ?? []).filter(({ name }) =>
    INSTEAD[name].every((option) => words.text(option) === undefined),
  );

/** The marks given as options; one that cannot be read is wrong use. */
function marksGiven(words: Words): { part: string; marking: string }[] {
  return GEAR.flatMap(([option, part]) => {
    const typed = words.text(option);
    if (typed === undefined) return [];
    const { kn, doubt } = readRating(typed, 'kN');
    if (kn === null)
      throw new WrongUse(`--${option}: found “${typed}”, expected a load such as 20, 2t or 2000kg: ${doubt}`);
    return [{ part, marking: /^[\d.]+$/.test(typed.trim()) ? `${typed.trim()} kN` : typed.trim() }];
  });
}

/** "1.2–3.4 kN (130–350 kg)": never shown smaller than they are. */
const kn = (load: Range): string => `${rangeWords(load)} kN (${rangeMassWords(load)})`;

function say(e: PullEstimate, parts: readonly RatedPart[]): void {
  sayTable([
    ['least to most', 'still', 'vibrated'],
    [
      'weight, in water to in air',
      kn({ low: e.weight_water_kn, high: e.weight_air_kn }),
      kn({ low: e.weight_water_kn, high: e.weight_air_kn }),
    ],
    ['sediment and water in it', kn(e.content_kn), kn(e.content_kn)],
    ['friction of the ground', kn(e.friction_kn), kn(e.friction_vibrated_kn)],
    ['on the hook', kn(e.still.hook_kn), kn(e.vibrated.hook_kn)],
    ['on the line to the winch', kn(e.still.fast_line_kn), kn(e.vibrated.fast_line_kn)],
    ['on tripod or derrick', kn(e.still.head_kn), kn(e.vibrated.head_kn)],
    ...e.still.against.map((a, i) => [
      `${a.part}, rated ${ratingWords(a.rated_kn)}`,
      `${kn(a.load_kn)}: ${a.verdict}`,
      e.vibrated.against[i]!.verdict,
    ]),
  ]);
  const weakest = e.still.against.toSorted(
    (a, b) => a.rated_kn / a.load_kn.high - b.rated_kn / b.load_kn.high,
  )[0];
  if (weakest !== undefined) {
    const ratio = atMost(weakest.rated_kn / weakest.load_kn.high, 1).toFixed(1);
    print(`Weakest part: ${weakest.part}, rated ${ratio} times the highest estimate (still).`);
  }
  const unread = parts.filter(({ rated_kn }) => rated_kn === null).map(({ part }) => part);
  if (unread.length > 0) print(`Not read: ${unread.join(', ')}.`);
  for (const { part, doubt } of parts)
    if (doubt !== null) print(`Unclear: ${part}: ${doubt}. A competent person decides.`);
  print(`Caution. ${e.caution}`);
}
