/** The sample that a date or a measurement is of: named, found at its depth in its core, or made there. */
import type { Fault } from '@stillstand/campaign/tables';
import { nearest, parseLength, readLabelCode } from '@stillstand/campaign/tables';
import type { PlaceInCore } from './core-place.ts';
import { type Decimal, middle, writeDecimal } from './decimal.ts';
import type { Here } from './here.ts';
import type { FoundSample, ProposedRow } from './proposal.ts';

interface KnownSample {
  sample: string;
  /** In the campaign, not made for a line of this table: two lines at 35.0 and 35.4 cm are of two samples. */
  isHere: boolean;
  hole: string;
  basis: string;
  run: string;
  top_m: number;
  bottom_m: number;
}

export interface Wanted {
  line: number;
  /** Label they give it; empty for none. */
  label: string;
  /** Label of the core in ours; empty for none. */
  hole: string;
  basis: string;
  run: string;
  place: PlaceInCore;
  material: string;
  note: string;
}

export type SampleOf = { sample: string; made: boolean } | { fault: Fault; column: string };

const bare = (label: string): string => label.toLowerCase().replace(/[^\p{L}\p{N}]/gu, '');

/** Our label for theirs where it differs by signs and capitals alone, and only one does. */
export function labelHere(typed: string, labels: ReadonlySet<string>): string | null {
  if (labels.has(typed)) return typed;
  const same = [...labels].filter((label) => bare(label) === bare(typed));
  return typed !== '' && bare(typed) !== '' && same.length === 1 ? same[0]! : null;
}

/** Samples of the campaign and those that are made on the way. */
export function samplesAt(here: Here, same_depth: string) {
  const read = parseLength(same_depth);
  // Lengths come from binary fractions.
  const tolerance_m = (read.ok ? read.metres : 0) + SAME_M;
  const reach = Math.ceil(tolerance_m / BUCKET_M);
  const holes = new Set(here.rows('holes').map((row) => row['hole'] ?? ''));
  const labels = new Set<string>();
  const byIdentifier = new Map<string, string>();
  const byPlace = new Map<string, KnownSample[]>();
  const made: ProposedRow[] = [];
  const found: FoundSample[] = [];
  const know = (sample: KnownSample): void => {
    const key = placeKey(sample, bucketOf(sample));
    if (!byPlace.has(key)) byPlace.set(key, []);
    byPlace.get(key)!.push(sample);
  };
  for (const row of here.rows('samples')) {
    const sample = row['sample'] ?? '';
    if (sample === '') continue;
    labels.add(sample);
    const identifier = row['identifier'] ?? '';
    if (identifier !== '') byIdentifier.set(identifier.toLowerCase(), sample);
    const top_m = here.metres('samples', row['top'] ?? '');
    const bottom_m = here.metres('samples', row['bottom'] ?? '') ?? top_m;
    if (top_m === null || bottom_m === null) continue;
    know({
      sample,
      isHere: true,
      hole: row['hole'] ?? '',
      basis: row['depth_basis'] ?? '',
      run: row['run'] ?? '',
      top_m,
      bottom_m,
    });
  }

  function of(wanted: Wanted): SampleOf {
    const { line, label, hole, place } = wanted;
    const scanned = byCode(label);
    if (typeof scanned === 'object' && scanned !== null) return scanned;
    const named = scanned ?? (label === '' ? null : labelHere(label, labels));
    if (named !== null) {
      found.push({ line, sample: named, how: 'label' });
      return { sample: named, made: false };
    }
    const [fault] = place.faults;
    if (fault !== undefined) return fault;
    if (hole === '' || place.top === null) {
      const near = label === '' ? null : nearest(label, labels);
      return label === ''
        ? missing(hole === '' ? 'hole' : 'depth')
        : {
            column: 'sample',
            fault: {
              code: 'unknown-sample',
              found: label,
              expected: 'a sample of the campaign, or the core and depth of a new one',
              fix: `This line states no ${hole === '' ? 'core' : 'depth'}: fill it in, or import the sample first.${near === null ? '' : ` Perhaps ${near} is meant.`}`,
            },
          };
    }
    if (!holes.has(hole)) return unknownCore(hole, holes);
    if (label === '') {
      const there = at(wanted);
      if (there.length > 1) return severalThere(there);
      if (there.length === 1) {
        found.push({ line, sample: there[0]!.sample, how: 'depth' });
        return { sample: there[0]!.sample, made: false };
      }
    }
    return make(wanted);
  }

  /** The sample of a label's code or of a registered identifier; null where it is none of these. */
  function byCode(label: string): string | SampleOf | null {
    if (label === '' || labels.has(label)) return null;
    const identified = byIdentifier.get(label.toLowerCase());
    if (identified !== undefined) return identified;
    const code = readLabelCode(here.id, label);
    if (!code.ok) return code.reason === 'another campaign' ? unknownCode(label, 'another campaign') : null;
    if (code.thing.kind !== 'sample') return unknownCode(label, 'a core, not a sample');
    return labelHere(code.thing.sample, labels) ?? unknownCode(label, 'no sample that there is');
  }

  /** Samples of that place; one that lies exactly there before those within the tolerance. */
  function at({ hole, basis, run, place }: Wanted): KnownSample[] {
    const ends = { top_m: metres(place.top_m), bottom_m: metres(place.bottom_m ?? place.top_m) };
    const bucket = bucketOf(ends);
    const within = (tolerance: number, from: readonly KnownSample[]): KnownSample[] =>
      from.filter((sample) =>
        place.isPoint
          ? Math.abs(sample.top_m + sample.bottom_m - ends.top_m - ends.bottom_m) / 2 <= tolerance
          : Math.abs(sample.top_m - ends.top_m) <= tolerance &&
            Math.abs(sample.bottom_m - ends.bottom_m) <= tolerance,
      );
    const around: KnownSample[] = [];
    for (let i = bucket - reach; i <= bucket + reach; i++) {
      around.push(...(byPlace.get(placeKey({ hole, basis, run }, i)) ?? []));
    }
    const there = within(SAME_M, around);
    return there.length > 0
      ? there
      : within(
          tolerance_m,
          around.filter(({ isHere }) => isHere),
        );
  }

  function make({ line, label, hole, basis, run, place, material, note }: Wanted): SampleOf {
    const sample = label === '' ? freeLabel(`${hole} ${depthWords(place)}`) : label;
    labels.add(sample);
    know({
      sample,
      isHere: false,
      hole,
      basis,
      run,
      top_m: metres(place.top_m),
      bottom_m: metres(place.bottom_m ?? place.top_m),
    });
    const cells: Record<string, string> = { sample, hole, depth_basis: basis, top: place.top! };
    cells['bottom'] = place.bottom ?? place.top!;
    if (run !== '') cells['run'] = run;
    if (material !== '') cells['material'] = material;
    if (note !== '') cells['note'] = note;
    made.push({ table: 'samples', cells, line, made: true });
    return { sample, made: true };
  }

  function freeLabel(wish: string): string {
    for (let n = 1; ; n++) {
      const label = n === 1 ? wish : `${wish} (${n})`;
      if (!labels.has(label)) return label;
    }
  }

  /** A sample of the campaign by its label; null where there is none. */
  function named(label: string, line: number): string | null {
    const sample = labelHere(label, labels);
    if (sample !== null) found.push({ line, sample, how: 'label' });
    return sample;
  }

  return { of, named, made, found };
}

/** Lengths that differ by less are one length. */
const SAME_M = 1e-6;
/** Samples are looked for in such lengths of core, by their middles. */
const BUCKET_M = 0.01;

const bucketOf = ({ top_m, bottom_m }: { top_m: number; bottom_m: number }): number =>
  Math.floor((top_m + bottom_m) / (2 * BUCKET_M));

const placeKey = (
  { hole, basis, run }: Pick<KnownSample, 'hole' | 'basis' | 'run'>,
  bucket: number,
): string => [hole, basis, run, bucket].join('\u0000');

const metres = (decimal: Decimal | null): number =>
  decimal === null ? Number.NaN : Number(writeDecimal(decimal));

/** "35 cm", "12–14 cm". */
function depthWords({ top, bottom, top_m, bottom_m, isPoint }: PlaceInCore): string {
  if (isPoint || bottom === null || bottom === top) return top!;
  const [a, b] = [top!, bottom].map((text) => /^(\S+) (\S+)$/.exec(text));
  if (a != null && b != null && a[2] === b[2]) return `${a[1]}–${b[1]} ${b[2]}`;
  return top_m === null || bottom_m === null
    ? `${top} to ${bottom}`
    : `${writeDecimal(middle(top_m, bottom_m))} m`;
}

const missing = (what: 'hole' | 'depth'): SampleOf => ({
  column: what,
  fault: {
    code: 'no-sample',
    found: '',
    expected: what === 'hole' ? 'a sample, or a core and a depth in it' : 'a depth in the core',
    fix: 'Choose the columns that have them, or fill in the cell.',
  },
});

function unknownCore(hole: string, holes: ReadonlySet<string>): SampleOf {
  const near = nearest(hole, holes);
  const fix = near === null ? 'Import the cores first, or leave the line out.' : `Perhaps ${near} is meant.`;
  return {
    column: 'hole',
    fault: { code: 'unknown-core', found: hole, expected: 'a core of the campaign', fix },
  };
}

const unknownCode = (found: string, of: string): SampleOf => ({
  column: 'sample',
  fault: {
    code: 'unknown-code',
    found,
    expected: 'the code of a sample of this campaign',
    fix: `This is the code of ${of}: correct the cell, or import the line where it belongs.`,
  },
});

const severalThere = (there: readonly KnownSample[]): SampleOf => ({
  column: 'depth',
  fault: {
    code: 'several-samples',
    found: there.map(({ sample }) => sample).join(', '),
    expected: 'one sample at that depth',
    fix: 'Name the sample in a column of its own.',
  },
});
