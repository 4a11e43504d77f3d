/** How much pipe to carry for a hole of so much depth, from the joints the crew has or will buy. */
import { parseLength } from '@stillstand/campaign/tables';
import { jointsNeeded } from '@stillstand/science/rig';
import { useState } from 'react';
import { Field, Plate, printed } from '../../parts/index.ts';

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
}: {
  pipes: readonly { pipe: string; makeup_loss: string; mass_kg_per_m: number | null }[];
}) {
  const first = pipes[0];
  const [asked, setAsked] = useState<Asked>({
    ...USUAL,
    ...(first?.makeup_loss ? { loss: first.makeup_loss } : {}),
  });
  const change = (part: Partial<Asked>) => setAsked((before) => ({ ...before, ...part }));
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
          ? 'Write a length with its unit, such as 3.05 m or 10 ft.'
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
            {needed.joints.length} reach {printed(depth, 2)} m with {printed(needed.stick_up_m, 2)} m standing
            out; {spare} spare
            {mass === null ? '' : `; ${printed(carried * joint * mass, 0)} kg of ${first!.pipe}`}
          </span>
        )}
      </p>
      <div className="fields">
        {field(
          'Depth to reach',
          'depth',
          'Shoe below ground; the deepest layer you hope for and a metre beyond',
          '3 to 30 m',
        )}
        {field('Length of a joint', 'joint', 'End to end, as bought', '1.5 to 3 m, or 5 and 10 ft')}
        {field(
          'Lost in each thread',
          'loss',
          'What two joints overlap when made up; measure one pair',
          '2 to 5 cm',
        )}
        {field(
          'Standing out at the end',
          'stickUp',
          'Collar above ground that clamp and drive head need',
          '0.5 to 1 m',
        )}
        {field('Spare joints', 'spare', 'For a lost string, a bent joint, a deeper hole', '1 to 4')}
      </div>
      {carried === null || needed === null || joint === null || mass === null ? null : (
        <Plate state="caution" word="Lifting the string">
          <p>
            The whole string weighs about {printed(needed.joints.length * joint * mass, 0)} kg and pulls far
            heavier out of the ground. Derrick, line, blocks and anchors are checked against their marked
            loads by a competent person.
          </p>
        </Plate>
      )}
    </section>
  );
}

function metres(typed: string): number | null {
  const read = parseLength(typed, {});
  return read.ok && read.metres >= 0 && read.metres <= 200 ? read.metres : null;
}
