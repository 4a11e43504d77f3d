/** The cells of one determination; what is typed is drawn before it is written. */
import { capital, columnName } from '@stillstand/campaign/tables';
import { sampleMaterials } from '@stillstand/published/vocabularies';
import { Button, ColumnField, type Help, Mark } from '../../parts/index.ts';
import { useNavigate } from '../../shell/index.ts';
import type { DocRow } from '../../store/index.ts';
import { type Cells, isReportedAsF14C } from './age.ts';
import { type OfferedOffset, OwnOffsets } from './own-offsets.tsx';
import { Rejection } from './rejection.tsx';
import './determination-form.css';

const ALWAYS = ['lab_code', 'sample', 'method', 'value', 'error'] as const;
const RADIOCARBON = [
  'reported_as',
  'calibration_curve',
  'delta_r',
  'delta_r_error',
  'delta_r_group',
  'marine_fraction',
  'marine_fraction_error',
  'delta13c_permil',
  'event_group',
  'known_age_ce',
  'paired_with',
] as const;
const CALENDAR = [
  'reference_year',
  'error_shape',
  'age_density',
  'systematic_error',
  'systematic_group',
] as const;
const MORE = ['fraction_dated', 'age_role', 'pool_group'] as const;

/** Methods whose age may be computed from measurements. */
const MEASURED: readonly string[] = ['luminescence', 'u_series'];

/** F14C has no unit, and is not what the schema says of ages. */
const F14C_HELP: Readonly<Record<string, Help>> = {
  value: {
    about: 'Radiocarbon as F14C, the fraction modern corrected for δ13C',
    range: '0.3 to 1 in the Holocene, above 1 after 1950',
  },
  error: { about: '1 sigma of F14C as reported', range: '0.001 to 0.005' },
};

export function DeterminationForm({
  row,
  draft,
  curves,
  densities,
  samples,
  sampleRow,
  material,
  isPerhapsF14C,
  offsets,
  codes,
  isReadOnly,
  kept,
  onType,
  onCommit,
  onRemove,
}: {
  row: DocRow;
  /** Its cells with what is being typed. */
  draft: Cells;
  /** The campaign's own calibration curves, by name. */
  curves: readonly string[];
  /** Names of its age densities. */
  densities: readonly string[];
  samples: readonly string[];
  /** Row of its sample, where there is one. */
  sampleRow: string | null;
  /** What its sample is made of. */
  material: string;
  /** To be asked: value is said to be an age and looks like an F14C. */
  isPerhapsF14C: boolean;
  /** ΔR of the campaign's own shells, for its curve. */
  offsets: readonly OfferedOffset[];
  /** Of all determinations. */
  codes: readonly string[];
  isReadOnly: boolean;
  /** Why it cannot be deleted; null where it can. */
  kept: string | null;
  onType: (column: string, typed: string) => void;
  onCommit: (cells: Record<string, string>) => boolean;
  onRemove: () => void;
}) {
  const navigate = useNavigate();
  const method = draft['method']?.trim() ?? '';
  const isF14C = isReportedAsF14C(draft);
  const field = (column: string) => (
    <ColumnField
      key={column}
      table="determinations"
      column={column}
      name={nameOf(column, draft)}
      value={row.cells[column] ?? ''}
      disabled={isReadOnly}
      {...(column === 'sample' ? { labels: samples } : {})}
      {...(column === 'calibration_curve' ? { labels: curves } : {})}
      {...(column === 'age_density' ? { labels: densities } : {})}
      {...(column === 'paired_with'
        ? { labels: codes.filter((code) => code !== row.cells['lab_code']?.trim()) }
        : {})}
      {...(isF14C && F14C_HELP[column] !== undefined ? { help: F14C_HELP[column] } : {})}
      onType={(typed) => onType(column, typed)}
      onCommit={(typed) => onCommit({ [column]: typed })}
    />
  );
  const filled = (columns: readonly string[]): string[] =>
    columns.filter((column) => (row.cells[column] ?? '') !== '');
  const columns = new Set([
    ...ALWAYS,
    ...(MEASURED.includes(method) ? ['reported_as'] : []),
    ...(method === 'radiocarbon' ? RADIOCARBON : filled(RADIOCARBON)),
    ...(method === 'radiocarbon' ? filled(CALENDAR) : CALENDAR),
    ...MORE,
  ]);
  const known = sampleMaterials.find((m) => m.word === material);
  return (
    <section className="determination" aria-label="The chosen determination">
      <h2>{row.cells['lab_code']?.trim() || 'A new determination'}</h2>
      {known === undefined || known.caution === '' ? null : (
        <p className="caution-line">
          <Mark name="close" size={18} /> {known.word}: {known.caution}
        </p>
      )}
      <Rejection row={row} isReadOnly={isReadOnly} onCommit={onCommit} />
      <div className="fields">
        {[...columns].map((column) =>
          column in F14C_HELP ? (
            <div key={column} className={isF14C ? 'without-unit' : undefined}>
              {field(column)}
              {column === 'value' && isPerhapsF14C ? (
                <p className="ask-f14c" role="status">
                  Is {draft['value']?.trim()} an F14C?{' '}
                  <Button disabled={isReadOnly} onClick={() => onCommit({ reported_as: 'f14c' })}>
                    It is F14C
                  </Button>
                </p>
              ) : null}
            </div>
          ) : column === 'delta_r' ? (
            <div key={column}>
              {field(column)}
              <OwnOffsets cells={row.cells} offsets={offsets} isReadOnly={isReadOnly} onCommit={onCommit} />
            </div>
          ) : (
            field(column)
          ),
        )}
      </div>
      {field('note')}
      <p className="acts">
        {sampleRow === null ? null : (
          <Button mark="sample" onClick={() => navigate('Describe', { table: 'samples', row: sampleRow })}>
            Open the sample
          </Button>
        )}
        <Button kind="danger" mark="remove" disabled={isReadOnly || kept !== null} onClick={onRemove}>
          Delete date
        </Button>
        <span className="quiet">{kept ?? 'Reject doubtful dates rather than deleting them.'}</span>
      </p>
    </section>
  );
}

/** An age counts back from 1950 or a year of its own; the error of a range is half of it. */
function nameOf(column: string, cells: Cells): string {
  const isRadiocarbon = cells['method']?.trim() === 'radiocarbon';
  if (column === 'value') {
    if (isReportedAsF14C(cells)) return 'F14C';
    return isRadiocarbon ? 'Conventional age' : `Age before ${cells['reference_year']?.trim() || '1950'}`;
  }
  const isRange = !isRadiocarbon && cells['error_shape']?.trim() === 'uniform';
  return column === 'error' && isRange ? 'Half of the range' : capital(columnName('determinations', column));
}
