/** How much pipe to carry for a hole of so much depth, from the joints the crew has or will buy. */
import { goneWords, inventoryOf, ofPipe, type PlannedDepth, pipeAtHand } from '@stillstand/campaign/holes';
import { parseLength } from '@stillstand/campaign/tables';
import { atLeast, atMost } from '@stillstand/science/base';
import { jointsNeeded } from '@stillstand/science/rig';
import { useState } from 'react';
import { asTyped } from '../../../holes/index.ts';
import { Field, Mark, Plate, printed } from '../../../parts/index.ts';
import { useStore } from '../../../store/index.ts';
import './pipe.css';

interface Asked {
  depth: string;
  joint: string;
  loss: string;
  stickUp: string;
  spare: string;
}

/** Usual sizes of a hand-carried rig; common practice, no source. */
const USUAL: Asked = { depth: '12 m', joint: '10 ft', loss: '1 1/4 in', stickUp: '0.8 m', spare: '2' };

/** `massPerMetre` of the chosen pipe, null where it is not known. */
export function PipeToCarry({
  pipes,
  targets,
}: {
  pipes: readonly { pipe: string; makeup_loss: string; mass_kg_per_m: number | null }[];
  /** Depths that planned holes are meant to reach, the deepest first. */
  targets: readonly PlannedDepth[];
}) {
  const first = pipes[0];
  const deepest = targets[0];
  const [typed, setTyped] = useState<Partial<Asked>>({});
  const asked: Asked = {
    ...USUAL,
    ...(deepest === undefined ? {} : { depth: `${atLeast(deepest.target_m, 3)} m` }),
    ...(first?.makeup_loss ? { loss: first.makeup_loss } : {}),
    ...typed,
  };
  const change = (part: Partial<Asked>) => setTyped((before) => ({ ...before, ...part }));
  const lengths = {
    depth: metres(asked.depth),
    joint: metres(asked.joint),
    loss: metres(asked.loss),
    stickUp: metres(asked.stickUp),
  };
  const spare = /^\d{1,3}$/.test(asked.spare.trim()) ? Number(asked.spare) : null;
  const { depth, joint, loss, stickUp } = lengths;
  const isKnown = depth !== null && joint !== null && loss !== null && stickUp !== null && joint > loss;
  const needed = isKnown
    ? jointsNeeded({
        target_depth_m: depth,
        stick_up_m: stickUp,
        makeup_loss_m: loss,
        collar_to_shoe_m: 0,
        at_hand: Array.from({ length: Math.ceil((depth + stickUp) / (joint - loss)) + 1 }, () => ({
          label: null,
          length_m: joint,
        })),
      })
    : null;
  const carried = needed === null || spare === null ? null : needed.joints.length + spare;
  const mass = first?.mass_kg_per_m ?? null;
  const field = (name: string, key: keyof Asked, about: string, range: string) => (
    <Field
      name={name}
      help={{ about, range, ...(key === 'spare' ? {} : { unit: 'm, cm, ft or in, as you type it' }) }}
      fault={
        key !== 'spare' && lengths[key] === null
          ? 'Enter a length with its unit, such as 3.05 m or 10 ft.'
          : null
      }
    >
      {(input) => (
        <input {...input} value={asked[key]} onChange={(event) => change({ [key]: event.target.value })} />
      )}
    </Field>
  );
  return (
    <section className="pipe" aria-labelledby="pipe-title">
      <h2 id="pipe-title">Pipe to carry</h2>
      <p className="answer" aria-live="polite">
        <b>{carried === null ? '–' : carried}</b>
        <span className="unit">joints</span>
        {needed === null || carried === null || joint === null ? null : (
          <span className="quiet">
            {needed.joints.length} joints reach{' '}
            {printed(atMost(needed.collar_to_shoe_m - (stickUp ?? 0), 2), 2)} m with {printed(stickUp, 2)} m
            stick-up; {spare} spare
            {mass === null ? '' : `; ${printed(atLeast(carried * joint * mass, 0), 0)} kg of ${first!.pipe}`}
          </span>
        )}
      </p>
      {loss === null || stickUp === null ? null : (
        <Recorded depth_m={depth} loss_m={loss} stickUp_m={stickUp} targets={targets} />
      )}
      <div className="fields">
        {field(
          'Depth to reach',
          'depth',
          'Shoe below ground; the deepest layer you hope for and a metre beyond',
          '3 to 30 m',
        )}
        {field('Length of a joint', 'joint', 'Nominal length, end to end', '1.5 to 3 m, or 5 and 10 ft')}
        {field(
          'Make-up loss per joint',
          'loss',
          'Overlap of two joints when made up; measure one pair',
          '2 to 5 cm',
        )}
        {field(
          'Stick-up at end',
          'stickUp',
          'Collar above ground that clamp and drive head need',
          '0.5 to 1 m',
        )}
        {field('Spare joints', 'spare', 'For a lost string, a bent joint, a deeper hole', '1 to 4')}
      </div>
      {carried === null || needed === null || joint === null || mass === null ? null : (
        <Plate state="caution" word="Lifting the string">
          <p>
            The whole string weighs at least {printed(atLeast(needed.joints.length * joint * mass, 0), 0)} kg
            and takes far more than its weight to pull. A competent person checks derrick, line, blocks and
            anchors against their rated loads.
          </p>
        </Plate>
      )}
    </section>
  );
}

/** What the campaign's own joints reach: only those at hand, made up; those that are not are named. */
function Recorded({
  depth_m,
  loss_m,
  stickUp_m,
  targets,
}: {
  depth_m: number | null;
  loss_m: number;
  stickUp_m: number;
  targets: readonly PlannedDepth[];
}) {
  const store = useStore();
  const items = inventoryOf(asTyped(store));
  const { joints, unmeasured, reach_m, gone } = pipeAtHand(items, loss_m, stickUp_m);
  if (joints + unmeasured.length + gone.length === 0) return null;
  const short_m = depth_m === null ? 0 : depth_m - reach_m;
  return (
    <div className="recorded-pipe">
      <p>
        Recorded: {joints} {joints === 1 ? 'joint' : 'joints'} at hand
        {joints === 0 ? '' : `, reaching ${printed(atMost(reach_m, 2), 2)} m`}
        {unmeasured.length === 0 ? '' : `; to be measured again: ${unmeasured.join(', ')}`}.
        {gone.length === 0 ? '' : ` Not at hand: ${goneWords(gone)}.`}
      </p>
      {joints === 0 || short_m <= 0 ? null : (
        <p className="short">
          <Mark name="close" size={18} /> {printed(atLeast(short_m, 2), 2)} m short of the depth to reach.
        </p>
      )}
      {joints === 0
        ? null
        : targets.map(({ hole, target_m, pipe }) => {
            const lacks_m = target_m - pipeAtHand(ofPipe(items, pipe), loss_m, stickUp_m).reach_m;
            return (
              <p key={hole} className={lacks_m > 0 ? 'short' : undefined}>
                <Mark name={lacks_m > 0 ? 'close' : 'tick'} size={18} /> {hole}, {printed(target_m, 2)} m:{' '}
                {lacks_m > 0 ? `${printed(atLeast(lacks_m, 2), 2)} m short` : 'the pipe at hand reaches'}
                {pipe === null ? '' : ` (${pipe})`}
              </p>
            );
          })}
    </div>
  );
}

function metres(typed: string): number | null {
  const read = parseLength(typed, {});
  return read.ok && read.metres >= 0 && read.metres <= 200 ? read.metres : null;
}
