/**
 * What usually follows, from the readings alone: a suggestion, never a gate. Any reading can be entered at any time,
 * and whatever was entered, the next suggestion starts from there. The order of the job is common practice, no source:
 * add joint, confirm tight, drive, fill, sound, check water, mark the cable, run, lift, lay out, refill, sound again,
 * until the plug is taken; then the next joint; at the end pull, account for every item, level the ground again.
 * Long because it is one line of thought.
 */
import { roomForRun } from './cable.ts';
import type { HoleNow } from './hole-now.ts';
import { m2 } from './lengths.ts';
import { fastestLift, waterNow } from './water-now.ts';

export type ActionName =
  | 'check'
  | 'add'
  | 'tighten'
  | 'drive'
  | 'fill'
  | 'sound'
  | 'water'
  | 'mark'
  | 'run'
  | 'lift'
  | 'lay_out'
  | 'pieces'
  | 'push'
  | 'pull'
  | 'account'
  | 'ground'
  | 'close'
  | 'second_hole'
  | 'next_hole';

export interface NextAction {
  name: ActionName;
  /** Verb and noun. */
  title: string;
  /** Stands on the action it belongs to; null where none does. */
  caution: string | null;
  /** Why now, and what comes then: at the right of the action. */
  why: string;
  then: string;
  /** Other things a crew may well do now instead. */
  or: readonly ActionName[];
  urgent: boolean;
}

export interface Circumstances {
  /** The hole was left for hours or a night: what stands in the string may have moved. */
  resuming: boolean;
  /** Another hole already names this one as the one it replaces. */
  replaced: boolean;
  /** The last run came up and no piece of it is laid out yet. */
  unlaid?: boolean;
}

/** A run shorter than this is not worth its trip: common practice, no source. */
const LEAST_RUN_M = 0.25;
/** Collar this far above the ground can still be driven: below it the next joint is easier to thread. */
const LEAST_STICK_UP_M = 0.8;

const LOAD = 'Hands clear of the cable. Nobody under the load.';
const HOIST = 'Nobody under the load or in line with it.';

/** The usual next action. Pure: the same hole gives the same action. */
export function nextAction(now: HoleNow, { resuming, replaced, unlaid = false }: Circumstances): NextAction {
  const { fold, readings } = now;
  const lost = fold.account.some((i) => i.fate === 'lost');
  if (now.ended) {
    return lost && !replaced
      ? say(
          'second_hole',
          'Start a second hole',
          'beside it, named as its replacement',
          'joints, then the first drive',
        )
      : say('next_hole', 'Plan the next hole', `${now.row.hole} is closed`, '');
  }
  if (!readings.some((r) => r.kind === 'ground')) {
    return say('check', 'Check the place', 'before the first joint', 'add the shoe and the first joint', {
      caution: 'Locate what is buried and what hangs overhead first.',
    });
  }
  if (now.run !== null) return inHand(now);
  const lifted = readings.findLast((r) => r.kind === 'run');
  if (
    lifted !== undefined &&
    lifted.kind === 'run' &&
    lifted.recovered_m === null &&
    lifted.outcome === null &&
    isLast(now, lifted.row_id)
  ) {
    return say('lay_out', 'Lay out the core', `run ${lifted.run} is up`, 'refill the string');
  }
  const pulling = drawing(now);
  if (pulling || (lost && now.string.length === 0)) return ending(now, lost);
  const loose = looseJoint(now);
  if (loose !== null) {
    return say('tighten', `Confirm ${nameOf(loose)} tight`, 'before it goes down', 'drive', {
      caution: 'A string that parts below ground cannot be got back.',
      or: ['add', 'drive'],
    });
  }
  if (!now.string.some((i) => i.item === 'joint')) {
    const shoe = now.string.some((i) => i.item === 'shoe');
    return say(
      'add',
      shoe ? 'Add the first joint' : 'Add the shoe',
      shoe ? 'the shoe is in' : 'or the joint that carries it',
      'confirm it tight',
      {
        or: ['sound'],
      },
    );
  }
  if (resuming) {
    return say('sound', 'Sound before going on', 'the string has stood for hours', 'then as usual', {
      or: ['drive', 'fill', 'add'],
    });
  }
  return usual(now, unlaid ? ['pieces'] : []);
}

function inHand(now: HoleNow): NextAction {
  const run = now.run!;
  const verdict = now.clearance?.verdict ?? 'clear';
  const advance =
    run.start_mark_m === null || run.end_mark_m === null ? null : run.end_mark_m - run.start_mark_m;
  const told =
    advance === null
      ? ''
      : `: ${m2(advance)} m${run.strokes === null ? '' : ` in ${run.strokes} ${run.strokes === 1 ? 'stroke' : 'strokes'}`}`;
  const stop = verdict === 'stop' || verdict === 'past shoe';
  const fastest = fastestLift(now);
  return say(
    'lift',
    stop ? 'Lift the sampler now' : 'Lift the sampler',
    `ends run ${run.run}${told}`,
    fastest === null
      ? 'then lay out the core'
      : fastest.speed_m_s === 0
        ? 'fill while it is lifted'
        : `no faster than ${fastest.speed_m_s.toFixed(1)} m/s${fastest.assumed ? ', waters assumed' : ''}`,
    { caution: LOAD, urgent: stop },
  );
}

/** After the string has begun to come out. */
function ending(now: HoleNow, lost: boolean): NextAction {
  const top = now.string.at(-1);
  if (top !== undefined) {
    return say(
      'pull',
      `Pull ${nameOf(top)}`,
      `${now.string.length} ${now.string.length === 1 ? 'item' : 'items'} still in`,
      now.string.length === 1 ? 'level the ground again' : 'the next one',
      {
        caution: HOIST,
        or: ['account'],
      },
    );
  }
  const missing = now.fold.account.filter((i) => i.fate === 'in the string' || i.fate === 'missing');
  if (missing.length > 0) {
    return say(
      'account',
      `Account for ${missing.map(nameOf).join(', ')}`,
      'no word of it yet',
      'level the ground again',
    );
  }
  const lastOut = now.readings.findLastIndex((r) => r.kind === 'joint' && r.action !== 'add');
  const levelled = now.readings.slice(lastOut + 1).some((r) => r.kind === 'ground');
  if (!levelled) {
    return say(
      'ground',
      'Level the ground again',
      'every item is accounted for',
      lost ? 'start a second hole' : 'close the hole',
    );
  }
  return say(
    'close',
    'Close the hole',
    lost ? 'what is left is named' : 'all pipe is out',
    lost ? 'start a second hole' : 'seal it',
  );
}

/** In the middle of the job: by what has happened since the last drive or run. */
function usual(now: HoleNow, also: readonly ActionName[]): NextAction {
  const { readings } = now;
  const after = (at: number, is: (r: (typeof readings)[number]) => boolean) =>
    readings.slice(at + 1).some(is);
  const drive = readings.findLastIndex((r) => r.kind === 'drive');
  const run = readings.findLastIndex((r) => r.kind === 'run');
  const joint = readings.findLastIndex((r) => r.kind === 'joint');
  const change = Math.max(drive, run);
  const isSounding = (r: (typeof readings)[number]) =>
    r.kind === 'sounding' && r.to_sediment_m !== null && r.purpose !== 'zero_check';
  if (drive < 0 || joint > change) {
    return say('drive', 'Drive the string', stickUpWords(now), 'fill, then sound', {
      caution: 'Nobody holds the pipe. Ears covered.',
      or: ['sound', 'fill', 'add'],
    });
  }
  const driven = change === drive;
  if (!after(change, (r) => r.kind === 'water') && !after(change, isSounding)) {
    return say(
      'fill',
      driven ? 'Fill the string' : 'Refill the string',
      driven ? 'the shoe is in new ground' : 'the run took water with it',
      'sound the sediment',
      {
        caution: 'Low water inside draws sand in at the shoe.',
        or: [...also, 'sound', 'drive'],
      },
    );
  }
  if (!after(change, isSounding)) {
    return say(
      'sound',
      driven ? 'Sound the sediment' : 'Sound again',
      driven ? 'what came in with this drive' : 'what the run took out',
      'check the water',
      {
        or: [...also, 'fill', 'drive', 'run'],
      },
    );
  }
  if (
    driven &&
    !after(change, (r) => r.kind === 'sounding' && r.to_water_inside_m !== null && r.water_outside_m !== null)
  ) {
    return say('water', 'Check the water', 'inside against outside', 'mark the cable', {
      or: ['mark', 'run', 'drive'],
    });
  }
  const head = waterNow(now)?.head_m ?? null;
  const sounded = readings.findLastIndex(isSounding);
  if (head !== null && head < 0) {
    return say('fill', 'Fill the string', `water inside ${m2(-head)} m low`, 'sound again', {
      caution: 'Low water inside draws sand in at the shoe.',
      or: ['sound', 'run', 'drive'],
    });
  }
  const room = roomForRun(now);
  if (room !== null && room >= LEAST_RUN_M) {
    const marked = readings.slice(sounded).some((r) => r.kind === 'sounding' && r.purpose === 'zero_check');
    return marked
      ? say('run', 'Run the sampler', `${m2(room)} m to the stop mark`, 'read the cable as it goes', {
          caution: LOAD,
          or: ['sound', 'drive', 'add'],
        })
      : say('mark', 'Mark the cable', `${m2(room)} m to take`, 'run the sampler', {
          or: ['run', 'drive', 'add'],
        });
  }
  const last = readings[drive]!;
  const blocked = last.kind === 'drive' && (last.ended_by === 'refusal' || last.ended_by === 'obstruction');
  if (blocked) {
    return say(
      'pull',
      'Pull the string',
      `the last drive ended by ${last.kind === 'drive' ? last.ended_by : ''}`,
      'every item accounted for',
      {
        caution: HOIST,
        or: ['drive', 'add', 'sound'],
      },
    );
  }
  const stickUp = now.last?.stick_up_m ?? null;
  const aboveGround = stickUp === null ? null : stickUp + (now.ground_m ?? 0);
  if (aboveGround !== null && aboveGround >= LEAST_STICK_UP_M) {
    return say('drive', 'Drive the string on', stickUpWords(now), 'fill, then sound', {
      caution: 'Nobody holds the pipe. Ears covered.',
      or: ['add', 'sound', 'pull'],
    });
  }
  return say('add', 'Add a joint', 'the plug is taken', 'confirm it tight', {
    or: ['drive', 'sound', 'pull'],
  });
}

/** The threaded item that goes below ground unconfirmed, the lowest first. */
export function looseJoint(now: HoleNow): HoleNow['string'][number] | null {
  return (
    now.string.find(
      (i, at) =>
        (i.item === 'joint' || i.length_m !== null) && (i.tight === false || (i.tight === null && at > 0)),
    ) ?? null
  );
}

/** The string is on its way out: something was pulled since anything last went in or down. */
export function drawing(now: HoleNow): boolean {
  const last = now.readings.findLast((r) => r.kind === 'joint' || r.kind === 'drive');
  return (
    last?.kind === 'joint' &&
    (last.action === 'pull' || last.action === 'left' || last.action === 'lost' || last.action === 'cut')
  );
}

function isLast(now: HoleNow, row_id: string): boolean {
  const at = now.readings.findIndex((r) => r.row_id === row_id);
  return !now.readings
    .slice(at + 1)
    .some(
      (r) =>
        r.kind === 'drive' ||
        r.kind === 'joint' ||
        r.kind === 'run' ||
        (r.kind === 'sounding' && r.to_sediment_m !== null),
    );
}

const nameOf = (i: { item: string; label: string | null }): string =>
  i.item === 'joint'
    ? `joint ${i.label ?? ''}`.trim()
    : `${i.item.replace('_', ' ')} ${i.label ?? ''}`.trim();

function stickUpWords(now: HoleNow): string {
  const stickUp = now.last?.stick_up_m ?? null;
  return stickUp === null ? 'every thread is tight' : `stick-up ${m2(stickUp)} m`;
}

export function say(
  name: ActionName,
  title: string,
  why: string,
  then: string,
  more: { caution?: string; or?: readonly ActionName[]; urgent?: boolean } = {},
): NextAction {
  return {
    name,
    title,
    why,
    then,
    caution: more.caution ?? null,
    or: more.or ?? [],
    urgent: more.urgent ?? false,
  };
}
