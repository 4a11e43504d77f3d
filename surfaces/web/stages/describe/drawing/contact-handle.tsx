/**
 * A contact as a thing to take hold of: it takes the focus, the arrows move it. Chosen, it is the only bold line of the
 * page, from the core across its tie to where it lies in the ground.
 */
import { SIZE, Text, useInk } from '@stillstand/output/drawing';
import type { Contact } from '../layers.ts';
import { writtenLength } from '../length.ts';
import { coreY, type Frame } from './lanes.ts';

const BOLD = 1.9;

export const handleId = (contact: Contact): string => `contact-${contact.id}`;

export function contactName(contact: Contact): string {
  const label = (piece: Contact['above']): string => piece?.row.cells['unit'] || 'without a number';
  if (contact.above !== null && contact.below !== null) {
    return `Contact of unit ${label(contact.above)} on ${label(contact.below)}`;
  }
  return contact.above === null
    ? `Top of unit ${label(contact.below)} in ${contact.core.name}`
    : `Bottom of unit ${label(contact.above)} in ${contact.core.name}`;
}

export function ContactHandle({
  frame,
  contact,
  isChosen,
  groundWords,
  onFocus,
  onKey,
}: {
  frame: Frame;
  contact: Contact;
  isChosen: boolean;
  /** Where it lies in the ground, in words. */
  groundWords: string;
  onFocus: () => void;
  onKey: (event: React.KeyboardEvent) => void;
}) {
  const ink = useInk();
  const { lanes } = frame;
  const onCore = coreY(frame, contact.core, contact.at_m);
  const ground = frame.depth(contact.core.depthAt(contact.at_m));
  const right = lanes.column + lanes.gravel + 2;
  const path =
    onCore === null
      ? `M${lanes.column - 2} ${ground}H${right}`
      : `M${lanes.core[0] - 3} ${onCore}H${lanes.ties[0]}L${lanes.ties[1]} ${ground}M${lanes.column - 2} ${ground}H${right}`;
  const at = writtenLength(contact.at_m, contact.unit);
  return (
    <g
      id={handleId(contact)}
      role="slider"
      tabIndex={0}
      aria-label={contactName(contact)}
      aria-orientation="vertical"
      aria-valuemin={Math.round(contact.from_m * 1000)}
      aria-valuemax={Math.round(contact.to_m * 1000)}
      aria-valuenow={Math.round(contact.at_m * 1000)}
      aria-valuetext={`${at} in ${contact.core.name}; ${groundWords} in the ground`}
      className="handle"
      onFocus={onFocus}
      onKeyDown={onKey}
    >
      <path className="focus-line" d={path} fill="none" stroke={ink.ink} strokeWidth={6} strokeOpacity={0} />
      {isChosen ? (
        <path d={path} fill="none" stroke={ink.ink} strokeWidth={BOLD} strokeLinejoin="round" />
      ) : null}
      {isChosen ? (
        <Text
          x={onCore === null ? lanes.column + 4 : lanes.core[0] + 3}
          y={(onCore ?? ground) - 3}
          size={SIZE.caption}
          weight={600}
          halo
        >
          {at}
        </Text>
      ) : null}
    </g>
  );
}
