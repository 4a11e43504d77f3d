/** Sections: each line with its holes, and what is drawn between them along accepted correlations. */
import type { Campaign } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import type { CorrelationResult, HoleHistory, HoleResult, SectionResult } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import {
  fillUnits,
  type ProfilePoint,
  type SectionBoundary,
  type SectionColumn,
  type SectionTie,
  timeLines,
} from '@stillstand/science/correlate';
import { complaints } from '../complaint.ts';
import { isBaseSeen } from '../hole/base-seen.ts';
import type { PlacedDate } from '../hole/compared-column.ts';
import type { Runner } from '../runner/runner.ts';
import { step } from '../runner/step.ts';
import { sectionAsResult } from './as-result.ts';
import { askedLines, type LineRow } from './asked.ts';
import { type BoundaryRow, boundariesOf } from './boundaries.ts';
import { traceContacts } from './contact-trace.ts';
import { complainOfFindings } from './findings.ts';
import { type HoleOnLine, placedLine } from './placed.ts';
import { type ProfileRow, profileOf } from './profile.ts';
import { agedHoles, roundAges } from './times.ts';
import { complainOfUndrawn } from './undrawn.ts';

interface Drawn {
  columns: readonly SectionColumn[];
  ties: readonly SectionTie[];
  boundaries: readonly SectionBoundary[];
  profile: readonly ProfilePoint[];
}

const filled = step('section', ({ columns, ties, boundaries, profile }: Drawn & Record<string, unknown>) =>
  fillUnits(columns, ties, boundaries, profile),
);

export function sections(
  run: Runner,
  campaign: Campaign,
  holes: readonly HoleResult[],
  known: {
    correlations: readonly CorrelationResult[];
    /** Of the line through all holes, by hole. */
    offsets_m: ReadonlyMap<string, number>;
    histories: readonly HoleHistory[];
    dates: ReadonlyMap<string, readonly PlacedDate[]>;
  },
): { made: SectionResult[]; problems: Problem[] } {
  const lines = complaints<LineRow>(campaign, 'section_lines', ({ line }) => line);
  const profiles = complaints<ProfileRow>(campaign, 'section_profile', ({ line }) => line);
  const boundaries = complaints<BoundaryRow>(
    campaign,
    'section_boundaries',
    ({ line, hole_a, hole_b }) => `${line}, ${hole_a}${hole_b === null ? '' : ` and ${hole_b}`}`,
  );
  const ties = known.correlations.map(
    ({ row_id, hole_a, unit_a_row_id, hole_b, unit_b_row_id, confidence, horizon }): SectionTie => ({
      row_id,
      hole_a,
      unit_a: unit_a_row_id,
      hole_b,
      unit_b: unit_b_row_id,
      confidence,
      horizon,
    }),
  );
  const made = askedLines(campaign, holes, lines.complain).flatMap((asked): SectionResult[] => {
    const line = placedLine(asked, holes, known.offsets_m, lines.complain);
    if (line.holes.length === 0) return [];
    const profile = profileOf(campaign, line, profiles.complain);
    const drawn: Drawn = {
      columns: line.holes.map(columnOf),
      ties,
      boundaries:
        line.row === null ? [] : boundariesOf(campaign, line.row.line, line.holes, known.correlations),
      profile,
    };
    const {
      value: { problems, ...shapes },
    } = run.untold(filled, {
      columns: run.plain(drawn.columns),
      ties: run.plain(drawn.ties),
      boundaries: run.plain(drawn.boundaries),
      profile: run.plain(drawn.profile),
    });
    complainOfFindings(campaign, line, problems, {
      ofLines: lines.complain,
      ofBoundaries: boundaries.complain,
    });
    const labels = new Map(
      line.holes.flatMap(({ hole }) => hole.units.map(({ row_id, unit }) => [row_id, unit] as const)),
    );
    const aged = agedHoles(line.holes, known.histories, known.dates);
    const { ground, ...between } = sectionAsResult(shapes, timeLines(aged, roundAges(aged)), (unit) => ({
      unit: labels.get(unit) ?? '',
      unit_row_id: unit,
    }));
    const along = line.holes.map(({ along_m }) => along_m);
    const section: SectionResult = {
      line: line.row?.line ?? null,
      row_id: line.row?.row_id ?? null,
      holes: line.holes.map(({ hole, along_m, offset_m }) => ({ hole: hole.hole, along_m, offset_m })),
      distances: line.areDistancesKnown ? 'measured' : 'unknown',
      length_m: Math.max(...along) - Math.min(...along),
      ground,
      is_profiled: profile.length > 0,
      ...between,
    };
    traceContacts(run, campaign, section);
    return [section];
  });
  const overHoles = complaints<Row<'correlations'>>(
    campaign,
    'correlations',
    ({ hole_a, hole_b }) => `${hole_a} and ${hole_b}`,
  );
  complainOfUndrawn(campaign, known.correlations, made, overHoles.complain);
  return {
    made,
    problems: [...lines.problems, ...profiles.problems, ...boundaries.problems, ...overHoles.problems],
  };
}

function columnOf({ hole, along_m }: HoleOnLine): SectionColumn {
  const ground_m = hole.ground_elevation_m!.value;
  const units = hole.units.map(({ row_id, sediment, contact_below, depth_top_m, depth_bottom_m }, i) => ({
    id: row_id,
    top_m: ground_m - depth_top_m.value,
    bottom_m: ground_m - depth_bottom_m.value,
    sediment,
    base: contact_below,
    isBaseSeen: isBaseSeen(hole.units, i),
  }));
  return { hole: hole.hole, along_m, ground_m, units };
}
