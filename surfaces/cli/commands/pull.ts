/** `stillstand pull`: what it may take to pull the string, against what is marked on the gear. */
import type { Problem } from '@stillstand/campaign/problems';
import { problem } from '@stillstand/campaign/problems';
import type { PullingGear } from '@stillstand/campaign/settings';
import { atLeast } from '@stillstand/science/base';
import {
  CAUTIONS,
  FRICTION,
  overheadClearance,
  type PullCase,
  type PullEstimate,
  pullEstimate,
  type Range,
  type RatedLoad,
  SHEAVE_K,
} from '@stillstand/science/rig';
import { type Command, type ExitCode, type Words, WrongUse } from '../command.ts';
import { lengthWord, sayLength, typedUnit, unitWord } from '../crew-length.ts';
import { AT_OPTION, holeWords, missingReading, noString, openRigHole } from '../open-hole.ts';
import { PIPE_OPTIONS, pipeWords } from '../pipe-words.ts';
import { print, sayJson, sayProblems, sayTable } from '../say.ts';

export const pull: Command = {
  name: 'pull',
  summary: 'Estimate the load of pulling the string against the ratings of the gear.',
  usage: [
    'pull FOLDER HOLE [--at SEQ] [--parts 4] [--rope 20 --derrick 40] [--json]',
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
    rope: { type: 'string', value: 'KN', about: 'rated load of the rope' },
    winch: { type: 'string', value: 'KN', about: 'rated load of the winch' },
    shackle: { type: 'string', value: 'KN', about: 'rated load of shackle, hook or clamp' },
    derrick: { type: 'string', value: 'KN', about: 'rated load of tripod, derrick or crown sheave' },
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
    'a load rating may be exceeded. Loads are rounded up.',
    '',
    `Caution. ${CAUTIONS.line_pull}`,
  ].join('\n'),
  run,
};

const GEAR: readonly [string, RatedLoad['on']][] = [
  ['rope', 'line'],
  ['winch', 'line'],
  ['shackle', 'hook'],
  ['derrick', 'head'],
];

/** The campaign's own marks: the line's goes for rope and winch, which are told apart only by options. */
function marked(gear: PullingGear, part: string): number | null {
  if (part === 'rope') return gear.rated_line_kn;
  if (part === 'shackle') return gear.rated_hook_kn;
  return part === 'derrick' ? gear.rated_head_kn : null;
}

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
  const estimate =
    shoe_m === null || penetration_m === null
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
          rated: GEAR.flatMap(([part, on]) => {
            const rated_kn = words.number(part, { min: 0.01 }) ?? (gear === null ? null : marked(gear, part));
            return rated_kn === null ? [] : [{ part, rated_kn, on }];
          }),
        });
  if (estimate === null && shoe_m !== null && penetration_m !== null) {
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
    sayJson({ hole: label, collar_to_shoe_m: shoe_m, penetration_m, estimate, overhead });
  } else {
    if (estimate !== null) say(estimate);
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
            found: `${kn(load_kn)} kN, ${how}: ${verdict} the rating`,
            expected: `at most the ${rated_kn} kN marked on it`,
            fix: 'Use more parts of line or heavier gear, or vibrate while pulling. Do not exceed any load rating marked on the gear.',
          }),
        ],
  );
}

/** Loads are never shown smaller than they are. */
const kn = ({ low, high }: Range): string =>
  `${atLeast(low, 1).toFixed(1)} to ${atLeast(high, 1).toFixed(1)}`;

function say(e: PullEstimate): void {
  sayTable([
    ['kN, least to most', 'still', 'vibrated'],
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
      `${a.part}, rated ${a.rated_kn}`,
      a.verdict,
      e.vibrated.against[i]!.verdict,
    ]),
  ]);
  print(`Caution. ${e.caution}`);
}
