/** `stillstand water`: how full the string is, what holds the sediment down, and what a run and a lift take away. */
import { type Problem, problem } from '@stillstand/campaign/problems';
import { atLeast, atMost } from '@stillstand/science/base';
import {
  bore_mm,
  boreVolume_l,
  CAUTIONS,
  CRITICAL_GRADIENTS,
  type ExitGradient,
  exitGradient,
  fastestLift_m_s,
  levelForHead_m,
  type PlugKind,
  pressureHead_m,
  rigDefaults,
  runLowers_m,
  type SamplerShape,
  type Suction,
  suctionOf,
  USUAL_RUN_M,
  type WaterColumns,
  type WaterKind,
  waterToAdd_l,
} from '@stillstand/science/rig';
import { type Command, type ExitCode, type Words, WrongUse } from '../command.ts';
import { type CrewUnit, lengthWord, sayLength, typedUnit, unitWord } from '../crew-length.ts';
import { AT_OPTION, holeWords, missingReading, noString, openRigHole, type RigHole } from '../open-hole.ts';
import { PIPE_OPTIONS, pipeWords } from '../pipe-words.ts';
import { print, sayJson, sayProblems, sayTable } from '../say.ts';

export const water: Command = {
  name: 'water',
  summary: 'Show water levels, plug stability and the effect of a run.',
  usage: [
    'water FOLDER HOLE [--at SEQ] [--lift 0.3] [--json]',
    'water --pipe 3 --shoe 12m --sediment 9m --inside 0.5m --outside 1.2m [--json]',
  ],
  options: {
    ...AT_OPTION,
    shoe: { type: 'string', value: 'LENGTH', about: 'collar to shoe' },
    sediment: { type: 'string', value: 'LENGTH', about: 'collar to the sediment inside' },
    inside: { type: 'string', value: 'LENGTH', about: 'collar to the water inside' },
    outside: {
      type: 'string',
      value: 'LENGTH',
      about: 'collar down to the water outside (sea or water table)',
    },
    'water-inside': {
      type: 'string',
      value: 'fresh|sea',
      about: 'water in the string; as entered, else sea',
    },
    'water-outside': { type: 'string', value: 'fresh|sea', about: 'water around it; sea if not given' },
    to: {
      type: 'string',
      value: 'LENGTH',
      about: 'level to fill to, below the collar; the collar if not given',
    },
    plug: {
      type: 'string',
      value: Object.keys(CRITICAL_GRADIENTS).join('|'),
      about: 'what the plug is; organic, the worst case, if not given',
    },
    removed: {
      type: 'string',
      value: 'LENGTH',
      about: 'length one run takes; if not given, what the sampler holds (1.2 m) above the margin',
    },
    lift: { type: 'string', value: 'M/S', about: 'speed the sampler is lifted at; 0.3 if not given' },
    'sampler-outside-mm': { type: 'string', value: 'MM', about: 'outside diameter of the sampler' },
    'sampler-bore-mm': { type: 'string', value: 'MM', about: 'its bore' },
    'sampler-length': { type: 'string', value: 'LENGTH', about: 'its length' },
    ...PIPE_OPTIONS,
    unit: {
      type: 'string',
      value: 'm|ft',
      about: 'the crew’s unit, also of bare numbers; as in the hole’s readings or the options, else m',
    },
  },
  more: [
    'Head is water inside above water outside; pressure head counts their densities (1000 and 1025 kg/m³), as metres of',
    'the water outside. Negative, the head is reversed: water flows up through the plug, and its gradient is compared with the critical',
    'one. Exit code 1 where the head is reversed or a needed reading is missing. Options given with a hole override its',
    'readings. Lengths and speeds are rounded to the safe side.',
    '',
    `Caution. ${CAUTIONS.water}`,
  ].join('\n'),
  run,
};

interface Answer {
  hole: string | null;
  bore_mm: number;
  volume_l: number | null;
  to_fill_l: number | null;
  head_m: number | null;
  pressure_head_m: number | null;
  /** Collar to the level at which nothing flows; negative: above the collar. */
  balance_level_m: number | null;
  exit: ExitGradient | null;
  run_lowers_m: number | null;
  pressure_head_after_run_m: number | null;
  suction: (Suction & { speed_m_s: number; fastest_m_s: number }) | null;
  /** When the levels of a hole were read, as written; null where nobody wrote a time, or they are options. */
  read_at: { inside: string | null; outside: string | null };
  cautions: string[];
}

async function run(words: Words): Promise<ExitCode> {
  const place = holeWords(words.positionals);
  const hole = place === null ? null : await openRigHole(...place, words.number('at', { min: 0 }));
  const unit =
    unitWord(words) ?? hole?.unit ?? typedUnit(words, ['shoe', 'sediment', 'inside', 'outside']) ?? 'm';
  const length = (option: string) => lengthWord(words, option, unit);
  const pipe = pipeWords(words) ?? hole?.pipe ?? null;
  if (pipe === null) {
    throw new WrongUse(
      hole === null
        ? 'Expected a folder and a hole, or --pipe with the levels'
        : `The pipe of ${hole.name} has no diameter and wall; name it with --pipe or --outside-mm and --wall-mm`,
    );
  }
  const state = hole?.last ?? null;
  const shoe_m = length('shoe') ?? (hole?.fold.joints_in ? (state?.collar_to_shoe_m ?? null) : null);
  const sediment_m =
    length('sediment') ?? (shoe_m === null || state?.plug_m == null ? null : shoe_m - state.plug_m);
  const inside_m = length('inside') ?? belowCollar(hole, 'inside');
  const outside_m = length('outside') ?? belowCollar(hole, 'outside');
  const inside = choice(words, 'water-inside', ['fresh', 'sea'] as const) ?? hole?.water.kind ?? 'sea';
  const outside =
    choice(words, 'water-outside', ['fresh', 'sea'] as const) ?? hole?.settings.water_outside ?? 'sea';
  const plugKind =
    choice(words, 'plug', Object.keys(CRITICAL_GRADIENTS) as PlugKind[]) ??
    hole?.settings.plug_kind ??
    ('organic' as const);
  const bore = bore_mm(pipe);
  const sampler = samplerOf(words, hole, unit);
  const holds = hole?.sampler?.capacity_m ?? USUAL_RUN_M;
  // a run takes no more than stands above the margin
  const margin_m = hole?.settings.margin_m ?? rigDefaults.margin_m;
  const removed =
    length('removed') ??
    (shoe_m === null || sediment_m === null
      ? holds
      : Math.max(0, Math.min(holds, shoe_m - sediment_m - margin_m)));
  const speed = words.number('lift', { min: 0, max: 5 }) ?? 0.3;

  const problems: Problem[] = (hole?.problems ?? []).filter((p) => p.severity === 'error');
  const label = hole?.name ?? null;
  if (hole !== null && shoe_m === null) {
    problems.push(noString(hole));
    if (words.flag('json')) sayJson(null);
    return sayProblems(problems);
  }
  if (inside_m === null)
    problems.push(missingReading('soundings', label, 'collar to the water inside', readInside(hole)));
  if (outside_m === null)
    problems.push(
      missingReading(
        'soundings',
        label,
        'the water outside',
        'Read the sea or the water table against the reference.',
      ),
    );
  const columns =
    inside_m === null || outside_m === null
      ? null
      : columnsOf(sediment_m ?? shoe_m ?? inside_m, inside_m, outside_m, inside, outside);
  const pressure = columns === null ? null : pressureHead_m(columns);
  const plug_m = shoe_m === null || sediment_m === null ? null : Math.max(0, shoe_m - sediment_m);
  const exit = pressure === null ? null : exitGradient(pressure, plug_m ?? 0, plugKind);
  const lowers =
    sampler === null || sampler.outside_mm >= bore
      ? null
      : runLowers_m(bore, removed, sampler, (inside_m ?? 0) < 0.1);
  const after =
    columns === null || lowers === null
      ? null
      : pressureHead_m({
          ...columns,
          to_sediment_m: columns.to_sediment_m + removed,
          to_water_inside_m: columns.to_water_inside_m + lowers,
        });
  const suction = sampler === null ? null : suctionOf(speed, bore, sampler, inside);
  const answer: Answer = {
    hole: label,
    bore_mm: bore,
    volume_l: shoe_m === null ? null : boreVolume_l(bore, sediment_m ?? shoe_m),
    to_fill_l: inside_m === null ? null : waterToAdd_l(bore, inside_m, length('to') ?? 0),
    head_m: inside_m === null || outside_m === null ? null : outside_m - inside_m,
    pressure_head_m: pressure,
    balance_level_m: columns === null ? null : levelForHead_m(columns, 0),
    exit,
    run_lowers_m: lowers,
    pressure_head_after_run_m: after,
    suction:
      suction === null || sampler === null
        ? null
        : {
            ...suction,
            speed_m_s: speed,
            fastest_m_s: fastestLift_m_s(Math.max(0, after ?? pressure ?? 0), bore, sampler, inside) ?? 0,
          },
    read_at: {
      inside: length('inside') == null ? (hole?.read_at.inside ?? null) : null,
      outside: length('outside') == null ? (hole?.read_at.outside ?? null) : null,
    },
    cautions: [CAUTIONS.water, ...(suction === null ? [] : [CAUTIONS.suction])],
  };
  problems.push(...reversed(answer, label, unit));
  if (words.flag('json')) sayJson(answer);
  else say(answer, unit, plugKind, removed);
  return sayProblems(problems);
}

/** A water level as last read, from where the collar is now; null where nobody read it, or a drive or run has moved it. */
function belowCollar(hole: RigHole | null, level: 'inside' | 'outside'): number | null {
  const read = hole?.water[level] ?? null;
  const stickUp = hole?.last?.stick_up_m ?? null;
  return read === null || read.moved_by !== null || stickUp === null
    ? null
    : read.below_reference_m + stickUp;
}

/** Why the level inside is not known, and what to do. */
function readInside(hole: RigHole | null): string {
  const read = hole?.water.inside ?? null;
  if (read === null || read.moved_by === null) return 'Read the water inside.';
  const at = hole?.read_at.inside;
  return `Read the water inside again: a ${read.moved_by} has moved it since it was read${at == null ? '' : ` (${at})`}.`;
}

const columnsOf = (
  to_sediment_m: number,
  to_water_inside_m: number,
  to_water_outside_m: number,
  inside: WaterKind,
  outside: WaterKind,
): WaterColumns => ({ to_sediment_m, to_water_inside_m, to_water_outside_m, inside, outside });

function samplerOf(words: Words, hole: RigHole | null, unit: CrewUnit): SamplerShape | null {
  const known = hole?.sampler ?? null;
  const outside_mm = words.number('sampler-outside-mm', { min: 5, max: 600 }) ?? known?.outside_mm ?? null;
  const shape = {
    outside_mm,
    bore_mm: words.number('sampler-bore-mm', { min: 5, max: 500 }) ?? known?.bore_mm ?? outside_mm,
    length_m: lengthWord(words, 'sampler-length', unit) ?? known?.length_m ?? null,
  };
  return shape.outside_mm === null || shape.bore_mm === null || shape.length_m === null
    ? null
    : { outside_mm: shape.outside_mm, bore_mm: shape.bore_mm, length_m: shape.length_m };
}

function choice<const Choice extends string>(
  words: Words,
  option: string,
  choices: readonly Choice[],
): Choice | undefined {
  const typed = words.text(option);
  if (typed === undefined) return undefined;
  const found = choices.find((c) => c === typed);
  if (found === undefined)
    throw new WrongUse(`--${option}: found “${typed}”, expected ${choices.join(', ')}`);
  return found;
}

function reversed(answer: Answer, label: string | null, unit: CrewUnit): Problem[] {
  const { exit, pressure_head_after_run_m: after, suction } = answer;
  const found: Problem[] = [];
  const say = (severity: Problem['severity'], code: string, what: string, expected: string, fix: string) =>
    found.push(problem({ severity, code, table: 'water_added', label, found: what, expected, fix }));
  if (exit !== null && exit.verdict !== 'held') {
    say(
      exit.verdict === 'boils' ? 'danger' : 'warning',
      'water-inside-low',
      `head reversed: pressure inside ${sayLength(-exit.pressure_head_m, unit, 'at least')} of water below the pressure outside`,
      'head inside above head outside',
      'Fill the string before anything is lifted or driven.',
    );
  } else if (after !== null && after < 0) {
    say(
      'warning',
      'water-low-after-run',
      `one run reverses the head: ${sayLength(-after, unit, 'at least')} short`,
      'a string refilled during the run',
      'Pour while the sampler is lifted.',
    );
  }
  if (suction !== null && exit !== null && exit.pressure_head_m >= 0) {
    const spare = Math.min(exit.pressure_head_m, after ?? exit.pressure_head_m);
    if (spare >= 0 && suction.head_m > spare) {
      say(
        'warning',
        'lift-too-fast',
        `suction ${sayLength(suction.head_m, unit, 'at least')} of water at ${suction.speed_m_s} m/s`,
        `less than the ${sayLength(spare, unit, 'at most')} there is to spare`,
        `Lift at ${atMost(suction.fastest_m_s, 2).toFixed(2)} m/s or slower, or fill higher.`,
      );
    }
  }
  return found;
}

function say(a: Answer, unit: CrewUnit, plug: PlugKind, removed: number): void {
  const most = (x: number | null) => (x === null ? 'not known' : sayLength(x, unit, 'at most'));
  const least = (x: number | null) => (x === null ? 'not known' : sayLength(x, unit, 'at least'));
  const factor = a.exit?.factor ?? null;
  sayTable([
    [
      'water above the sediment, string full',
      a.volume_l === null ? 'not known' : `${atLeast(a.volume_l, 1).toFixed(1)} L`,
    ],
    ['to add', a.to_fill_l === null ? 'not known' : `${atLeast(a.to_fill_l, 1).toFixed(1)} L`],
    ['head, inside above outside', most(a.head_m)],
    ...(['inside', 'outside'] as const).flatMap((level) => {
      const at = a.read_at[level];
      return at === null ? [] : [[`water ${level} last read`, at]];
    }),
    ['pressure head, with densities', most(a.pressure_head_m)],
    [
      'nothing flows with the water inside',
      a.balance_level_m === null
        ? 'not known'
        : a.balance_level_m < 0
          ? `${least(-a.balance_level_m)} above the collar`
          : `${most(a.balance_level_m)} below the collar`,
    ],
    [
      `upward gradient at the shoe (${plug})`,
      a.exit === null
        ? 'not known'
        : a.exit.verdict === 'held'
          ? 'none: stable'
          : a.exit.gradient === null
            ? 'no plug: nothing holds'
            : `${atLeast(a.exit.gradient, 2).toFixed(2)}, critical ${atMost(a.exit.critical, 2).toFixed(2)}: factor of safety ${atMost(factor!, 1).toFixed(1)}`,
    ],
    [`a run of ${least(removed)} lowers the water by`, least(a.run_lowers_m)],
    ['pressure head after it, not refilled', most(a.pressure_head_after_run_m)],
    ...(a.suction === null
      ? []
      : [
          [
            `suction, lifting at ${a.suction.speed_m_s} m/s (estimate)`,
            `${least(a.suction.head_m)} of water`,
          ],
          [
            'fastest lift the head after the run allows',
            `${atMost(a.suction.fastest_m_s, 2).toFixed(2)} m/s`,
          ],
        ]),
  ]);
  for (const caution of a.cautions) print(`Caution. ${caution}`);
}
