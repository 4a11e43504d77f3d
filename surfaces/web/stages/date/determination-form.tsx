/** The cells of one determination; what is typed is drawn before it is written. */
import { sampleMaterials } from '@stillstand/published/vocabularies';
import { Button, ColumnField, Mark } from '../../parts/index.ts';
import { useNavigate } from '../../shell/index.ts';
import type { DocRow } from '../../store/index.ts';
import type { Cells } from './age.ts';
import { Rejection } from './rejection.tsx';

const ALWAYS = ['lab_code', 'sample', 'method', 'value', 'error'] as const;
const RADIOCARBON = [
  'reported_as',
  'calibration_curve',
  'reservoir_offset',
  'reservoir_sd',
  'offset_group',
  'marine_share',
  'delta13c_permil',
] as const;
const CALENDAR = ['reference_year'] as const;
const MORE = ['fraction_dated', 'age_role', 'group'] as const;

const NAMES: Readonly<Record<string, string>> = {
  lab_code: 'Laboratory code',
  error: 'Its 1 sd',
  reservoir_offset: 'Reservoir offset ΔR',
  reservoir_sd: '1 sd of ΔR',
  offset_group: 'Offset shared by',
  marine_share: 'Marine share',
  delta13c_permil: 'δ13C',
  fraction_dated: 'What was dated',
  age_role: 'What the age says',
  group: 'Pooled as',
  reference_year: 'Counted back from',
};

export function DeterminationForm({
  row,
  draft,
  samples,
  sampleRow,
  material,
  isReadOnly,
  onType,
  onCommit,
  onRemove,
}: {
  row: DocRow;
  /** Its cells with what is being typed. */
  draft: Cells;
  samples: readonly string[];
  /** Row of its sample, where there is one. */
  sampleRow: string | null;
  /** What its sample is made of. */
  material: string;
  isReadOnly: boolean;
  onType: (column: string, typed: string) => void;
  onCommit: (cells: Record<string, string>) => void;
  onRemove: () => void;
}) {
  const navigate = useNavigate();
  const method = draft['method']?.trim() ?? '';
  const field = (column: string) => (
    <ColumnField
      key={column}
      table="determinations"
      column={column}
      name={
        column === 'value' && method === 'radiocarbon'
          ? 'Conventional age'
          : column === 'value'
            ? 'Age before 1950'
            : (NAMES[column] ?? label(column))
      }
      value={row.cells[column] ?? ''}
      disabled={isReadOnly}
      {...(column === 'sample' ? { labels: samples } : {})}
      onType={(typed) => onType(column, typed)}
      onCommit={(typed) => onCommit({ [column]: typed })}
    />
  );
  const filled = (columns: readonly string[]): string[] =>
    columns.filter((column) => (row.cells[column] ?? '') !== '');
  const columns = [
    ...ALWAYS,
    ...(method === 'radiocarbon' ? RADIOCARBON : filled(RADIOCARBON)),
    ...(method === 'radiocarbon' ? filled(CALENDAR) : CALENDAR),
    ...MORE,
  ];
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
      <div className="fields">{columns.map(field)}</div>
      {field('note')}
      <p className="acts">
        {sampleRow === null ? null : (
          <Button mark="sample" onClick={() => navigate('Describe', { table: 'samples', row: sampleRow })}>
            Open the sample
          </Button>
        )}
        <Button kind="danger" mark="remove" disabled={isReadOnly} onClick={onRemove}>
          Take it out
        </Button>
        <span className="quiet">A date that is doubted is rejected, not taken out.</span>
      </p>
    </section>
  );
}

const label = (column: string): string => {
  const words = column.replaceAll('_', ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
};
