/** Contacts of a section as they can be edited: each with the two holes it is between and the row that says how it runs. */
import type { Results, SectionResult } from '@stillstand/campaign/results';
import { schemas } from '@stillstand/campaign/tables';

export type Contact = SectionResult['contacts'][number];
export type Ending = Contact['ending'];

export interface EditableContact {
  /** The same before and after an edit. */
  id: string;
  contact: Contact;
  /** Where its first hole and the next one on its way stand, m along; the second is not where the contact ends. */
  hole_b: string;
  from_m: number;
  to_m: number;
  /** How it ends is a person's to say: no correlation takes it through. */
  isEnding: boolean;
}

/** Contacts between two neighbouring holes; what is beyond the last hole is not edited. */
export function contactsToEdit(section: SectionResult | null): EditableContact[] {
  if (section === null) return [];
  const holes = [...section.holes].sort((a, b) => a.along_m - b.along_m);
  const seen = new Map<string, number>();
  return section.contacts.flatMap((contact): EditableContact[] => {
    const first = holes.findIndex(({ hole }) => hole === contact.hole_a);
    const own = holes[first];
    if (own === undefined) return [];
    const middle =
      contact.line.reduce((sum, { along_m }) => sum + along_m, 0) / Math.max(1, contact.line.length);
    const other =
      contact.hole_b === null
        ? holes[middle >= own.along_m ? first + 1 : first - 1]
        : holes.find(({ hole }) => hole === contact.hole_b);
    if (other === undefined || other.along_m === own.along_m) return [];
    const plain = JSON.stringify([contact.hole_a, contact.unit_a_row_id, other.hole, contact.is_lateral]);
    const count = seen.get(plain) ?? 0;
    seen.set(plain, count + 1);
    return [
      {
        id: count === 0 ? plain : `${plain} ${count}`,
        contact,
        hole_b: other.hole,
        from_m: own.along_m,
        to_m: other.along_m,
        isEnding: contact.tie === null,
      },
    ];
  });
}

/** "Base of T3 unit 7 towards M1", "Base of T2 unit 5 and of T3 unit 6", "Side of T2 unit 5 and T3 unit 6". */
export function nameOf({ contact, hole_b }: EditableContact): string {
  const first = `${contact.hole_a} unit ${contact.unit_a}`;
  if (contact.hole_b === null) return `Base of ${first} towards ${hole_b}`;
  const second = `${contact.hole_b} unit ${contact.unit_b}`;
  return contact.is_lateral ? `Side of ${first} and ${second}` : `Base of ${first} and of ${second}`;
}

/** Where along the way from its first hole it ends, 0 to 1; half way where nobody has said. */
export function fractionOf({ contact, from_m, to_m }: EditableContact): number {
  const shares = contact.line.map(({ along_m }) => (along_m - from_m) / (to_m - from_m));
  const far = contact.is_lateral
    ? shares.reduce((sum, share) => sum + share, 0) / Math.max(1, shares.length)
    : Math.max(...shares);
  return Math.min(1, Math.max(0, far));
}

/** Elevation of the base at its first hole, with its error; null where it is not known. */
export function elevationOf({ contact }: EditableContact, { holes }: Results) {
  const unit = holes
    .find(({ hole }) => hole === contact.hole_a)
    ?.units.find(({ row_id }) => row_id === contact.unit_a_row_id);
  return unit?.elevation_bottom_m ?? null;
}

/** How certain a correlation may be. */
export const CONFIDENCE = schemas.correlations.columns.confidence.choices;

/** In words, as a field or a sentence has them. */
export const ENDINGS: Record<Ending, string> = {
  unknown: 'not known',
  pinch_out: 'pinches out',
  truncated: 'cut off by erosion',
  interfingered: 'interfingers',
  continuous: 'continuous',
};

/** How it may run: a correlation takes it through; two units that meet, or one that ends, do so in their ways. */
export function choicesOf({ contact }: EditableContact): readonly Ending[] {
  const own: readonly Ending[] =
    contact.tie !== null
      ? ['continuous', 'unknown']
      : contact.hole_b === null
        ? ['unknown', 'pinch_out', 'truncated']
        : ['unknown', 'interfingered'];
  return own.includes(contact.ending) ? own : [contact.ending, ...own];
}
