/** What is drawn of a section, as the results have it. */
import type { SectionResult } from '@stillstand/campaign/results';
import type { FilledSection, Point, TimeLine } from '@stillstand/science/correlate';

type Drawn = Pick<SectionResult, 'ground' | 'bodies' | 'contacts' | 'queries' | 'time_lines'>;

/** `named`: label and row of a unit by its identity in what was filled. */
export function sectionAsResult(
  { ground, bodies, contacts, queries }: Omit<FilledSection, 'problems'>,
  timeLines: readonly TimeLine[],
  named: (unit: string) => { unit: string; unit_row_id: string },
): Drawn {
  return {
    ground: places(ground),
    bodies: bodies.map(({ id, sediment, units, outline }) => ({
      id,
      sediment,
      units: units.map(({ hole, unit }) => ({ hole, ...named(unit) })),
      outline: places(outline),
    })),
    contacts: contacts.map((contact) => {
      const a = named(contact.unit_a);
      const b = contact.unit_b === null ? null : named(contact.unit_b);
      return {
        hole_a: contact.hole_a,
        unit_a: a.unit,
        unit_a_row_id: a.unit_row_id,
        hole_b: contact.hole_b,
        unit_b: b?.unit ?? null,
        unit_b_row_id: b?.unit_row_id ?? null,
        horizon: contact.horizon,
        confidence: contact.confidence,
        ending: contact.ending,
        is_erosional: contact.isErosional,
        is_lateral: contact.isLateral,
        line: places(contact.line),
        tie: contact.tie,
        boundary: contact.boundary,
      };
    }),
    queries: places(queries),
    time_lines: timeLines.map(({ age_cal_bp, line }) => ({ age_cal_bp, line: places(line) })),
  };
}

const places = (points: readonly Point[]) =>
  points.map(([along_m, elevation_m]) => ({ along_m, elevation_m }));
