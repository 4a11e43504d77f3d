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
import { t, translated } from '../../../language/index.ts';
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

const HOIST = t`Nobody under the load or in line with it.`;
const DRIVE = t`Hands off the pipe. Wear ear protection.`;
const BOIL = t`Low water inside lets sand boil in at the shoe.`;

/** The usual next action. Pure: the same hole gives the same action. */
export function nextAction(now: HoleState, circumstances: Circumstances): NextAction {
  const { resuming, unlaid = false, ages } = circumstances;
  const { fold, readings } = now;
  const lost = fold.account.some((i) => i.fate === 'lost');
  if (now.ended) return afterEnd(now, lost, circumstances);
  if (!readings.some((r) => r.kind === 'ground')) {
    return say(
      'ground',
      t`Measure ground level`,
      t`below the reference`,
      t`then add the shoe and the first joint`,
      {
        or: ['add'],
      },
    );
  }
  if (now.run !== null) return inHand(now, ages);
  const lifted = notLaidOut(now);
  if (lifted !== null && isLast(now, lifted.row_id)) {
    return isWaterLow(now, lifted.row_id)
      ? say('fill', t`Refill the string`, t`water lost with the run`, t`then lay out the core`, {
          caution: BOIL,
          or: ['lay_out', 'water'],
        })
      : layOut(lifted);
  }
  const pulling = drawing(now);
  if (pulling || (lost && now.string.length === 0)) return ending(now, lost);
  const loose = looseJoint(now);
  if (loose !== null) {
    return say('tighten', t`Confirm ${nameOf(loose)} tight`, t`before it goes down`, t`then drive`, {
      caution: t`A string that parts below ground cannot be recovered.`,
      or: ['add', 'drive'],
    });
  }
  if (!now.string.some((i) => i.item === 'joint')) {
    const shoe = now.string.some((i) => i.item === 'shoe');
    return say(
      'add',
      shoe ? t`Add the first joint` : t`Add the shoe`,
      shoe ? t`the shoe is in` : t`or the joint that carries it`,
      t`then confirm it tight`,
    );
  }
  if (resuming) {
    return say('sound', t`Repeat sounding`, t`string idle for hours`, t`then continue`, {
      or: ['drive', 'fill', 'add'],
    });
  }
  return usual(now, unlaid ? ['pieces'] : [], ages);
}

function afterEnd(now: HoleState, lost: boolean, { replaced }: Circumstances): NextAction {
  if (lost && !replaced)
    return say(
      'second_hole',
      t`Start replacement hole`,
      t`next to the lost hole`,
      t`then joints, then the first drive`,
    );
  if (lastResponse(now) === 'moved' && !replaced)
    return say(
      'second_hole',
      t`Start the next hole`,
      t`${now.row.hole} met an obstruction`,
      t`then site check`,
    );
  return say('next_hole', t`Plan the next hole`, t`${now.row.hole} has ended`, '');
}

/** The last run, where it is up and nobody has said what it recovered; null where the sediment was sounded since. */
function notLaidOut({ readings }: HoleState): RunReading | null {
  const run = readings.findLast((r) => r.kind === 'run' || isSounded(r));
  return run?.kind === 'run' && run.recovered_m === null && run.outcome === null ? run : null;
}

const layOut = ({ run }: RunReading): NextAction =>
  say('lay_out', t`Lay out the core`, t`run ${run} is up`, t`then repeat the sounding`);

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
    return say('lift', t`Lift the sampler`, t`${run.run} is still in the string`, t`then continue`, {
      caution:
        now.run_moved_by === 'drive'
          ? t`The string was driven with the sampler in it.`
          : t`The string was changed with the sampler in it.`,
      or: ['lay_out'],
      urgent: true,
    });
  }
  const told =
    advance === null
      ? ''
      : `: ${m2(advance)} m${run.strokes === null ? '' : run.strokes === 1 ? t` in 1 stroke` : t` in ${run.strokes} strokes`}`;
  const stop = verdict === 'stop' || verdict === 'past shoe';
  const fastest = ages.head?.weight === 'not read' ? null : fastestLift(now);
  return say(
    'lift',
    stop ? t`Lift the sampler now` : t`Lift the sampler`,
    t`ends run ${run.run}${told}`,
    fastest === null
      ? t`then lay out the core`
      : fastest.speed_m_s === 0
        ? t`fill while it is lifted`
        : t`lift at ${fastest.speed_m_s.toFixed(1)} m/s or slower${fastest.assumed ? t` (water type assumed)` : ''}`,
    { caution: LOAD, urgent: stop },
  );
}

/** After the string has begun to come out. */
function ending(now: HoleState, lost: boolean): NextAction {
  const top = now.string.at(-1);
  if (top !== undefined) {
    return say(
      'pull',
      t`Pull ${nameOf(top)}`,
      now.string.length === 1 ? t`1 item still in` : t`${now.string.length} items still in`,
      now.string.length === 1 ? t`then remeasure ground level` : t`then the next one`,
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
      t`Account for ${missing.map(nameOf).join(', ')}`,
      t`not accounted for`,
      t`then remeasure ground level`,
    );
  }
  const lastOut = now.readings.findLastIndex((r) => r.kind === 'joint' && r.action !== 'add');
  const levelled = now.readings.slice(lastOut + 1).some((r) => r.kind === 'ground');
  if (!levelled) {
    return say(
      'ground',
      t`Remeasure ground level`,
      t`every item is accounted for`,
      lost ? t`then start replacement hole` : t`then end hole`,
    );
  }
  return say(
    'close',
    t`End hole`,
    lost ? t`what is left is named` : t`all pipe is out`,
    lost ? t`then start replacement hole` : t`then seal it`,
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
    return say('drive', t`Drive the string`, stickUpWords(now), t`then fill, then sound`, {
      caution: DRIVE,
      or: ['sound', 'fill', 'add'],
    });
  }
  const driven = change === drive;
  const stopped = stoppedDrive(now);
  const response = lastResponse(now);
  if (driven && stopped?.response === null) {
    return say(
      'respond',
      t`Record response`,
      t`the drive ended in ${endWords(stopped)}`,
      t`then lift, move or end`,
      {
        caution: t`Stop the vibrator before the string becomes stuck.`,
        or: ['fill', 'sound', 'drive', 'pull'],
      },
    );
  }
  if (driven && response === 'lifted_and_retried' && !readings.slice(drive + 1).some(isOfWater)) {
    return say('drive', t`Drive the string again`, t`lifted: read the stick-up`, t`then fill, then sound`, {
      caution: DRIVE,
      or: ['fill', 'sound', 'pull'],
    });
  }
  if (!after(change, (r) => r.kind === 'water') && !after(change, isSounded)) {
    return say(
      'fill',
      driven ? t`Fill the string` : t`Refill the string`,
      driven ? t`the shoe is in new ground` : t`water lost with the run`,
      t`then take a sounding`,
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
      driven ? t`Take sounding` : t`Repeat sounding`,
      driven ? t`what entered with this drive` : t`what the run removed`,
      driven ? t`then measure water levels` : t`then mark the cable`,
      {
        or: [...also, 'fill', 'drive', 'run'],
      },
    );
  }
  const head = weighedHead(now)?.head_m ?? null;
  const isRead = head !== null && ages.head?.weight === 'fresh';
  if (!isRead && (driven || now.water.outside !== null)) {
    const age = ages.head?.age_min ?? null;
    const why = head === null || age === null ? t`inside against outside` : t`last read ${ageText(age)} ago`;
    return say('water', t`Measure water levels`, why, t`then mark the cable`, {
      or: ['mark', 'run', 'drive'],
    });
  }
  if (head !== null && head < 0) {
    return say(
      'fill',
      t`Fill the string`,
      t`water inside ${m2Least(-head)} m low`,
      t`then repeat the sounding`,
      {
        caution: BOIL,
        or: ['sound', 'run', 'drive'],
      },
    );
  }
  const room = roomForRun(now);
  if (room !== null && room >= LEAST_RUN_M) {
    const { marks, zero } = cableNow(now);
    return marks !== null && zero !== null
      ? say('run', t`Run the sampler`, t`${m2Most(room)} m to the stop mark`, t`read the cable as it goes`, {
          caution: LOAD,
          or: ['sound', 'drive', 'add'],
        })
      : say('mark', t`Mark the cable`, t`${m2Most(room)} m left to sample`, t`then run the sampler`, {
          or: ['run', 'drive', 'add'],
        });
  }
  if (stopped !== null && response !== 'lifted_and_retried') {
    return say(
      'pull',
      t`Pull the string`,
      response === 'moved' ? t`the hole is moved` : t`the last drive ended in ${endWords(stopped)}`,
      t`then every item accounted for`,
      {
        caution: HOIST,
        or: ['drive', 'add', 'sound'],
      },
    );
  }
  const stickUp = now.last?.stick_up_m ?? null;
  const aboveGround = stickUp === null ? null : stickUp + (now.ground_m ?? 0);
  if (aboveGround !== null && aboveGround >= LEAST_STICK_UP_M) {
    return say('drive', t`Drive the string on`, stickUpWords(now), t`then fill, then sound`, {
      caution: DRIVE,
      or: ['add', 'sound', 'pull'],
    });
  }
  return say('add', t`Add a joint`, t`plug fully sampled`, t`then confirm it tight`, {
    or: ['drive', 'sound', 'pull'],
  });
}

const isOfWater = (r: HoleState['readings'][number]): boolean => r.kind === 'water' || r.kind === 'sounding';

/** "an obstruction", "refusal". */
const endWords = ({ by }: StoppedDrive): string =>
  by === 'obstruction' ? t`an obstruction` : translated(by);
