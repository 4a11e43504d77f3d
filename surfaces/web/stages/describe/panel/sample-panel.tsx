/** A chosen sample: its label, what it is made of, where it lies. */
import { type MeasurementResult, type SampleResult, traceId } from '@stillstand/campaign/results';
import type { LengthOptions } from '@stillstand/campaign/tables';
import { sampleMaterials } from '@stillstand/published/vocabularies';
import { Button, ColumnField, columnHelp, Mark, Quantity } from '../../../parts/index.ts';
import { useNavigate } from '../../../shell/index.ts';
import type { PlacedSample } from '../samples.ts';
import { LaboratoryValues } from './laboratory-values.tsx';
import { LengthField } from './length-field.tsx';

export function SamplePanel({
  sample,
  result,
  values,
  options,
  isReadOnly,
  kept,
  onEdit,
  onRemove,
}: {
  sample: PlacedSample;
  result: SampleResult | null;
  /** Measured on it. */
  values: readonly MeasurementResult[];
  options: LengthOptions;
  isReadOnly: boolean;
  /** Why it cannot be deleted; null where it can. */
  kept: string | null;
  onEdit: (cells: Record<string, string>) => void;
  onRemove: () => void;
}) {
  const navigate = useNavigate();
  const { cells } = sample.row;
  const material = sampleMaterials.find((m) => m.word === cells['material']);
  return (
    <section className="panel-part" aria-label="The chosen sample">
      <h2>Sample {sample.label}</h2>
      <dl className="placed">
        <div>
          <dt>in-situ depth</dt>
          <dd>
            <Quantity
              value={result?.depth_m?.value ?? sample.core.depthAt((sample.top_m + sample.bottom_m) / 2)}
              sigma={result?.depth_m?.sigma ?? null}
              unit="m"
              decimals={2}
              id={traceId.sample(sample.label).depth}
            />
          </dd>
        </div>
        {result?.elevation_m ? (
          <div>
            <dt>elevation</dt>
            <dd>
              <Quantity
                value={result.elevation_m.value}
                sigma={result.elevation_m.sigma}
                unit="m"
                sign
                id={traceId.sample(sample.label).elevation}
                decimals={2}
              />
            </dd>
          </div>
        ) : null}
      </dl>
      <LaboratoryValues values={values} />
      <div className="fields">
        <ColumnField
          table="samples"
          column="sample"
          name="Label"
          value={sample.label}
          disabled={isReadOnly}
          onCommit={(label) => onEdit({ sample: label })}
        />
        <ColumnField
          table="samples"
          column="material"
          value={cells['material'] ?? ''}
          labels={sampleMaterials.map((m) => m.word)}
          disabled={isReadOnly}
          onCommit={(typed) => onEdit({ material: typed })}
        />
        {(['top', 'bottom'] as const).map((column) => (
          <LengthField
            key={column}
            name={`${column === 'top' ? 'Top' : 'Bottom'} in ${sample.core.name}`}
            value={cells[column] ?? ''}
            options={options}
            disabled={isReadOnly}
            help={{
              ...columnHelp('samples', column),
              range: '1 to 3 cm from top to bottom',
              source: 'Common practice, no source',
            }}
            onCommit={(typed) => onEdit({ [column]: typed })}
          />
        ))}
      </div>
      {material === undefined || material.caution === '' ? null : (
        <p className="caution-line">
          <Mark name="close" size={18} /> {material.caution}
        </p>
      )}
      <ColumnField
        table="samples"
        column="note"
        value={cells['note'] ?? ''}
        disabled={isReadOnly}
        onCommit={(note) => onEdit({ note })}
      />
      <p className="acts">
        {sample.dated ? (
          <Button mark="dated" onClick={() => navigate('Date', { sample: sample.label })}>
            Open its date
          </Button>
        ) : null}
        <Button
          mark="on"
          onClick={() =>
            navigate('Describe', {
              view: 'chain',
              hole: cells['hole']?.trim() ?? '',
              sample: sample.label,
            })
          }
        >
          Open chain
        </Button>
        <Button kind="danger" mark="remove" disabled={isReadOnly || kept !== null} onClick={onRemove}>
          Delete sample
        </Button>
        {kept === null ? null : <span className="quiet">{kept}</span>}
      </p>
      <p className="keys">
        <kbd>↑</kbd> <kbd>↓</kbd> move it, with <kbd>Shift</kbd> ten times as far
      </p>
    </section>
  );
}
