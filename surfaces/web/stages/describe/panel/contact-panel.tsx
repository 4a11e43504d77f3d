/** The contact that is being moved: where it lies, what it is, and taking it away. */
import type { UnitResult } from '@stillstand/campaign/results';
import type { LengthOptions } from '@stillstand/campaign/tables';
import { Button, Quantity } from '../../../parts/index.ts';
import { contactName } from '../drawing/contact-handle.tsx';
import type { Moving } from '../drawing/drawing.tsx';
import type { Contact } from '../layers.ts';
import { steps, writtenLength } from '../length.ts';
import { ContactKind } from './contact-kind.tsx';
import { LengthField } from './length-field.tsx';
import './contact-panel.css';

export function ContactPanel({
  contact,
  result,
  options,
  isReadOnly,
  isBase,
  onMove,
  onKind,
  onMerge,
}: {
  contact: Contact;
  /** The computed unit whose base it is, where there is one. */
  result: UnitResult | null;
  options: LengthOptions;
  isReadOnly: boolean;
  /** It is the base of a unit, not of a piece of it. */
  isBase: boolean;
  onMove: (to_m: number, how: Moving, typed?: string) => void;
  onKind: (kind: string) => void;
  onMerge: () => void;
}) {
  const { one_m } = steps(contact.unit);
  const isBetween = contact.above !== null && contact.below !== null;
  const step = writtenLength(one_m, contact.unit);
  return (
    <section className="panel-part" aria-label="The chosen contact">
      <h2>{contactName(contact)}</h2>
      <div className="nudge">
        <LengthField
          name={`Depth in ${contact.core.name}`}
          value={writtenLength(contact.at_m, contact.unit)}
          options={options}
          disabled={isReadOnly}
          help={{
            about: `Measured along ${contact.core.name} from its top`,
            range: `${writtenLength(contact.from_m, contact.unit)} to ${writtenLength(contact.to_m, contact.unit)}, between its neighbours`,
          }}
          onCommit={(typed, m) => onMove(m, 'let go', typed)}
        />
        <Button
          mark="up"
          disabled={isReadOnly}
          aria-label={`Up ${step}`}
          onClick={() => onMove(contact.at_m - one_m, 'key')}
        />
        <Button
          mark="down"
          disabled={isReadOnly}
          aria-label={`Down ${step}`}
          onClick={() => onMove(contact.at_m + one_m, 'key')}
        />
      </div>
      <dl className="placed">
        <div>
          <dt>in-situ depth</dt>
          <dd>
            {result === null ? (
              <Quantity value={contact.core.depthAt(contact.at_m)} unit="m" decimals={2} />
            ) : (
              <Quantity
                value={result.depth_bottom_m.value}
                sigma={result.depth_bottom_m.sigma}
                unit="m"
                decimals={2}
              />
            )}
          </dd>
        </div>
        {result === null || result.elevation_bottom_m === null ? null : (
          <div>
            <dt>elevation</dt>
            <dd>
              <Quantity
                value={result.elevation_bottom_m.value}
                sigma={result.elevation_bottom_m.sigma}
                unit="m"
                sign
                decimals={2}
              />
            </dd>
          </div>
        )}
      </dl>
      {isBase && contact.above !== null ? (
        <ContactKind
          value={contact.above.row.cells['contact_below'] ?? ''}
          disabled={isReadOnly}
          onChoose={onKind}
        />
      ) : null}
      {isBetween ? (
        <p className="acts">
          <Button disabled={isReadOnly} onClick={onMerge}>
            Merge the two units
          </Button>
          <span className="quiet">The upper one’s words, the lower one’s base.</span>
        </p>
      ) : null}
      <p className="keys">
        <kbd>↑</kbd> <kbd>↓</kbd> {step}, with <kbd>Shift</kbd>{' '}
        {writtenLength(steps(contact.unit).ten_m, contact.unit)}
        {isBetween ? (
          <>
            ; <kbd>Delete</kbd> merges
          </>
        ) : null}
      </p>
    </section>
  );
}
