/** The chosen contact of a section: how high, how it runs, how certain, and what can be done with it. */
import type { Results } from '@stillstand/campaign/results';
import { Button, printed, signed } from '../../../parts/index.ts';
import {
  CONFIDENCE,
  choicesOf,
  type EditableContact,
  ENDINGS,
  type Ending,
  elevationOf,
  fractionOf,
  nameOf,
} from './contacts.ts';

export function ContactPanel({
  each,
  results,
  lift_m,
  isReadOnly,
  onEnding,
  onConfidence,
  onBreak,
  onUnsay,
}: {
  each: EditableContact;
  results: Results;
  lift_m: number;
  isReadOnly: boolean;
  onEnding: (ending: Ending) => void;
  onConfidence: (confidence: string) => void;
  onBreak: () => void;
  onUnsay: () => void;
}) {
  const { contact, isEnding, hole_b, from_m, to_m } = each;
  const elevation = elevationOf(each, results);
  const choices = choicesOf(each);
  return (
    <section className="section-contact" aria-label="Chosen contact">
      <h2>{nameOf(each)}</h2>
      {elevation === null ? null : (
        <p className="contact-height">
          <strong>{signed(elevation.value, 2)}</strong> m ±{printed(2 * elevation.sigma, 2)}{' '}
          <span className="quiet">
            at {contact.hole_a}, above {results.datum.label}; ± is 2σ
          </span>
        </p>
      )}
      <p className="quiet">
        {isEnding && contact.hole_b === null
          ? `Drawn to ${Math.round(fractionOf(each) * 100)} % of the ${printed(Math.abs(to_m - from_m), 0)} m from ${contact.hole_a} to ${hole_b}.`
          : `Drawn from ${contact.hole_a} to ${hole_b}.`}
        {lift_m === 0 ? '' : ` Middle lifted by ${signed(lift_m, 2)} m.`}
        {contact.boundary === null ? ' No person has said how it runs.' : ''}
      </p>
      {isReadOnly ? null : (
        <>
          <p className="contact-fields">
            <label>
              How it runs{' '}
              <select
                aria-label="How it runs"
                value={contact.ending}
                onChange={(event) => onEnding(event.target.value as Ending)}
              >
                {choices.map((ending) => (
                  <option key={ending} value={ending}>
                    {ENDINGS[ending]}
                  </option>
                ))}
              </select>
            </label>
            {contact.tie === null ? null : (
              <label>
                Confidence{' '}
                <select
                  aria-label="Confidence"
                  value={contact.confidence ?? ''}
                  onChange={(event) => onConfidence(event.target.value)}
                >
                  {contact.confidence === null ? <option value="">not stated</option> : null}
                  {CONFIDENCE.map((word) => (
                    <option key={word}>{word}</option>
                  ))}
                </select>
              </label>
            )}
          </p>
          <p className="acts">
            {isEnding && contact.ending !== 'pinch_out' && choices.includes('pinch_out') ? (
              <Button onClick={() => onEnding('pinch_out')}>Add pinch-out</Button>
            ) : null}
            {contact.tie === null ? null : <Button onClick={onBreak}>Break correlation</Button>}
            {contact.boundary === null ? null : (
              <Button mark="remove" onClick={onUnsay}>
                Clear interpretation
              </Button>
            )}
          </p>
          <p className="quiet">
            Drag a square up or down, a wedge along the line; or choose it with Tab and use the arrows: 0.05
            m, with Shift 0.01 m; along, 2 % of the way, with Shift 0.5 %.
          </p>
        </>
      )}
    </section>
  );
}
