/** What a laboratory measured on a sample or in a core, each value a quantity that opens its row. */
import { type MeasurementResult, traceId } from '@stillstand/campaign/results';
import { Quantity } from '../../../parts/index.ts';

const LIMIT = { less_than: 'below', greater_than: 'above' } as const;

export function LaboratoryValues({ values }: { values: readonly MeasurementResult[] }) {
  if (values.length === 0) return null;
  return (
    <section aria-label="Laboratory values">
      <h3>Laboratory values</h3>
      <dl className="placed">
        {values.map((measured) => (
          <div key={measured.row_id}>
            <dt>
              {measured.property}
              {measured.method === null ? '' : `, ${measured.method}`}
            </dt>
            <dd>
              <Value measured={measured} />
            </dd>
          </div>
        ))}
      </dl>
    </section>
  );
}

function Value({ measured: { row_id, value, sigma, unit, qualifier } }: { measured: MeasurementResult }) {
  if (qualifier === 'not_determined') return <>not determined</>;
  if (value === null) return <>{qualifier === 'less_than' ? 'below detection' : 'no value'}</>;
  const decimals = /\.(\d+)$/.exec(String(value))?.[1]?.length ?? 0;
  return (
    <>
      {qualifier === null ? '' : `${LIMIT[qualifier]} `}
      <Quantity
        value={value}
        sigma={sigma}
        unit={unit ?? ''}
        decimals={decimals}
        id={traceId.measurement(row_id)}
      />
    </>
  );
}
