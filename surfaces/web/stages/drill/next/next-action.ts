/**
 * What usually follows, from the readings alone: a suggestion, never a gate. Any reading can be entered at any time,
 * and whatever was entered, the next suggestion starts from there. The order of the job is common practice, no source:
 * add joint, confirm tight, drive, fill, sound, measure water levels, mark the cable, run, lift, refill, lay out, repeat
 * the sounding, until the plug is sampled; then the next joint; at the end pull, account for every item, remeasure the
 * ground. Water comes before the core on the ground: a string left low lets sand boil in while the crew looks at the
 * core. Levels read a moment ago are not asked again. What the safety questions make of it: safety-first.ts.
 */
import {
  ageText,
  fastestLift,
  type HoleAges,
  type HoleState,
  lastResponse,
  type StoppedDrive,
  stoppedDrive,
  weighedHead,
} from '@stillstand/campaign/holes';
import { isSounded, type RunReading } from '@stillstand/science/rig';
import { cableNow, roomForRun } from '../tape/cable.ts';
import { m2, m2Least, m2Most } from '../tape/lengths.ts';
import { type ActionName, LOAD, type NextAction, say } from './action.ts';
import { drawing, isLast, looseJoint, nameOf, stickUpWords } from './string-now.ts';

export interface Circumstances {
  /** The hole was left for hours or a night: what stands in the string may have moved. */
  resuming: boolean;
  /** Another hole already names this one as the one it replaces. */
  replaced: boolean;
  /** The last run came up and no piece of it is laid out yet. */
  unlaid?: boolean;
  /** How old the readings are now. */
  ages: HoleAges;
}

/** A run shorter than this is not worth its trip: common practice, no source. */
const LEAST_RUN_M = 0.25;
/** Collar this far above the ground can still be driven: below it the next joint is easier to thread. */
const LEAST_STICK_UP_M = 0.8;

const HOIST = 'Nobody under the load or in line with it.';
const DRIVE = 'Hands off the pipe. Wear ear protection.';
const BOIL = 'Low water inside lets sand boil in at the shoe.';

/** The usual next action. Pure: the same hole gives the same action. */
export function nextAction(now: HoleState, circumstances: Circumstances): NextAction {
  const { resuming, unlaid = false, ages } = circumstances;
  const { fold, readings } = now;
  const lost = fold.account.some((i) => i.fate === 'lost');
  if (now.ended) return afterEnd(now, lost, circumstances);
  if (!readings.some((r) => r.kind === 'ground')) {
    return say('ground', 'Measure ground level', 'below the reference', 'add the shoe and the first joint', {
      or: ['add'],
    });
  }
  if (now.run !== null) return inHand(now, ages);
  const lifted = notLaidOut(now);
  if (lifted !== null && isLast(now, lifted.row_id)) {
    return isWaterLow(now, lifted.row_id)
      ? say('fill', 'Refill the string', 'water lost with the run', 'lay out the core', {
          caution: BOIL,
          or: ['lay_out', 'water'],
        })
      : layOut(lifted);
  }
  const pulling = drawing(now);
  if (pulling || (lost && now.string.length === 0)) return ending(now, lost);
  const loose = looseJoint(now);
  if (loose !== null) {
    return say('tighten', `Confirm ${nameOf(loose)} tight`, 'before it goes down', 'drive', {
      caution: 'A string that parts below ground cannot be recovered.',
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
    );
  }
  if (resuming) {
    return say('sound', 'Repeat sounding', 'string idle for hours', 'continue', {
      or: ['drive', 'fill', 'add'],
    });
  }
  return usual(now, unlaid ? ['pieces'] : [], ages);
}

function afterEnd(now: HoleState, lost: boolean, { replaced }: Circumstances): NextAction {
  if (lost && !replaced)
    return say(
      'second_hole',
      'Start replacement hole',
      'next to the lost hole',
      'joints, then the first drive',
    );
  if (lastResponse(now) === 'moved' && !replaced)
    return say('second_hole', 'Start the next hole', `${now.row.hole} met an obstruction`, 'site check');
  return say('next_hole', 'Plan the next hole', `${now.row.hole} has ended`, '');
}

/** The last run, where it is up and nobody has said what it recovered; null where the sediment was sounded since. */
function notLaidOut({ readings }: HoleState): RunReading | null {
  const run = readings.findLast((r) => r.kind === 'run' || isSounded(r));
  return run?.kind === 'run' && run.recovered_m === null && run.outcome === null ? run : null;
}

const layOut = ({ run }: RunReading): NextAction =>
  say('lay_out', 'Lay out the core', `run ${run} is up`, 'repeat the sounding');

/** After a run, until the string was filled again and the water inside is known not to be low. */
function isWaterLow(now: HoleState, run_id: string): boolean {
  const at = now.readings.findIndex((r) => r.row_id === run_id);
  const head = weighedHead(now)?.head_m ?? null;
  return head === null ? !now.readings.slice(at + 1).some((r) => r.kind === 'water') : head < 0;
}

function inHand(now: HoleState, ages: HoleAges): NextAction {
  const run = now.run!;
  const verdict = now.clearance?.verdict ?? 'clear';
  const advance =
    run.start_mark_m === null || run.end_mark_m === null ? null : run.end_mark_m - run.start_mark_m;
  if (now.run_moved_by !== null) {
    return say('lift', 'Lift the sampler', `${run.run} is still in the string`, 'continue', {
      caution: `The string was ${now.run_moved_by === 'drive' ? 'driven' : 'changed'} with the sampler in it.`,
      or: ['lay_out'],
      urgent: true,
    });
  }
  const told =
    advance === null
      ? ''
      : `: ${m2(advance)} m${run.strokes === null ? '' : ` in ${run.strokes} ${run.strokes === 1 ? 'stroke' : 'strokes'}`}`;
  const stop = verdict === 'stop' || verdict === 'past shoe';
  const fastest = ages.head?.weight === 'not read' ? null : fastestLift(now);
  return say(
    'lift',
    stop ? 'Lift the sampler now' : 'Lift the sampler',
    `ends run ${run.run}${told}`,
    fastest === null
      ? 'then lay out the core'
      : fastest.speed_m_s === 0
        ? 'fill while it is lifted'
        : `lift at ${fastest.speed_m_s.toFixed(1)} m/s or slower${fastest.assumed ? ' (water type assumed)' : ''}`,
    { caution: LOAD, urgent: stop },
  );
}

/** After the string has begun to come out. */
function ending(now: HoleState, lost: boolean): NextAction {
  const top = now.string.at(-1);
  if (top !== undefined) {
    return say(
      'pull',
      `Pull ${nameOf(top)}`,
      `${now.string.length} ${now.string.length === 1 ? 'item' : 'items'} still in`,
      now.string.length === 1 ? 'remeasure ground level' : 'the next one',
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
      'not accounted for',
      'remeasure ground level',
    );
  }
  const lastOut = now.readings.findLastIndex((r) => r.kind === 'joint' && r.action !== 'add');
  const levelled = now.readings.slice(lastOut + 1).some((r) => r.kind === 'ground');
  if (!levelled) {
    return say(
      'ground',
      'Remeasure ground level',
      'every item is accounted for',
      lost ? 'start replacement hole' : 'end hole',
    );
  }
  return say(
    'close',
    'End hole',
    lost ? 'what is left is named' : 'all pipe is out',
    lost ? 'start replacement hole' : 'seal it',
  );
}

/** In the middle of the job: by what has happened since the last drive or run. */
function usual(now: HoleState, also: readonly ActionName[], ages: HoleAges): NextAction {
  const { readings } = now;
  const after = (at: number, is: (r: (typeof readings)[number]) => boolean) =>
    readings.slice(at + 1).some(is);
  const drive = readings.findLastIndex((r) => r.kind === 'drive');
  const run = readings.findLastIndex((r) => r.kind === 'run');
  const joint = readings.findLastIndex((r) => r.kind === 'joint');
  const change = Math.max(drive, run);
  if (drive < 0 || joint > change) {
    return say('drive', 'Drive the string', stickUpWords(now), 'fill, then sound', {
      caution: DRIVE,
      or: ['sound', 'fill', 'add'],
    });
  }
  const driven = change === drive;
  const stopped = stoppedDrive(now);
  const response = lastResponse(now);
  if (driven && stopped?.response === null) {
    return say('respond', 'Record response', `the drive ended in ${endWords(stopped)}`, 'lift, move or end', {
      caution: 'Stop the vibrator before the string becomes stuck.',
      or: ['fill', 'sound', 'drive', 'pull'],
    });
  }
  if (driven && response === 'lifted_and_retried' && !readings.slice(drive + 1).some(isOfWater)) {
    return say('drive', 'Drive the string again', 'lifted: read the stick-up', 'fill, then sound', {
      caution: DRIVE,
      or: ['fill', 'sound', 'pull'],
    });
  }
  if (!after(change, (r) => r.kind === 'water') && !after(change, isSounded)) {
    return say(
      'fill',
      driven ? 'Fill the string' : 'Refill the string',
      driven ? 'the shoe is in new ground' : 'water lost with the run',
      'take a sounding',
      {
        caution: BOIL,
        or: [...also, 'sound', 'drive'],
      },
    );
  }
  const lifted = notLaidOut(now);
  if (lifted !== null) return layOut(lifted);
  if (!after(change, isSounded)) {
    return say(
      'sound',
      driven ? 'Take sounding' : 'Repeat sounding',
      driven ? 'what entered with this drive' : 'what the run removed',
      driven ? 'measure water levels' : 'mark the cable',
      {
        or: [...also, 'fill', 'drive', 'run'],
      },
    );
  }
  const head = weighedHead(now)?.head_m ?? null;
  const isRead = head !== null && ages.head?.weight === 'fresh';
  if (!isRead && (driven || now.water.outside !== null)) {
    const age = ages.head?.age_min ?? null;
    const why = head === null || age === null ? 'inside against outside' : `last read ${ageText(age)} ago`;
    return say('water', 'Measure water levels', why, 'mark the cable', { or: ['mark', 'run', 'drive'] });
  }
  if (head !== null && head < 0) {
    return say('fill', 'Fill the string', `water inside ${m2Least(-head)} m low`, 'repeat the sounding', {
      caution: BOIL,
      or: ['sound', 'run', 'drive'],
    });
  }
  const room = roomForRun(now);
  if (room !== null && room >= LEAST_RUN_M) {
    const { marks, zero } = cableNow(now);
    return marks !== null && zero !== null
      ? say('run', 'Run the sampler', `${m2Most(room)} m to the stop mark`, 'read the cable as it goes', {
          caution: LOAD,
          or: ['sound', 'drive', 'add'],
        })
      : say('mark', 'Mark the cable', `${m2Most(room)} m left to sample`, 'run the sampler', {
          or: ['run', 'drive', 'add'],
        });
  }
  if (stopped !== null && response !== 'lifted_and_retried') {
    return say(
      'pull',
      'Pull the string',
      response === 'moved' ? 'the hole is moved' : `the last drive ended in ${endWords(stopped)}`,
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
      caution: DRIVE,
      or: ['add', 'sound', 'pull'],
    });
  }
  return say('add', 'Add a joint', 'plug fully sampled', 'confirm it tight', {
    or: ['drive', 'sound', 'pull'],
  });
}

const isOfWater = (r: HoleState['readings'][number]): boolean => r.kind === 'water' || r.kind === 'sounding';

/** "an obstruction", "refusal". */
const endWords = ({ by }: StoppedDrive): string => (by === 'obstruction' ? 'an obstruction' : by);
