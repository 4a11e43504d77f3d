/** What holds for a whole tide table: its clock, its unit, and where its heights begin. Asked for of each table. */
import { Field, printed, signed } from '../../../../parts/index.ts';
import { useStore } from '../../../../store/index.ts';
import { clockOf, type TableFacts } from './table-lines.ts';
import { latOf, tableGauges } from './table-zero.ts';

export function TableFactFields({
  facts,
  site,
  datum,
  onFact,
}: {
  facts: TableFacts;
  site: string;
  datum: string;
  onFact: (facts: Partial<TableFacts>) => void;
}) {
  const store = useStore();
  const above = datum === '' || datum === 'as stated' ? 'the campaign datum' : datum;
  const gauges = tableGauges(store, site);
  const datums = store.rows('datums').flatMap(({ cells }) => cells['datum']?.trim() || []);
  const LAT = latOf(store.rows('tide_levels'), site, datum);
  return (
    <div className="fields table-facts">
      <Field
        name="Clock of the table"
        help={{
          about:
            'Hours ahead of UTC, without summer time. Many tables keep standard time through the summer: the table says which',
          range: '-12:00 to +14:00',
        }}
        fault={clockOf(facts) === null ? 'Enter hours and minutes ahead of UTC, such as +08:00.' : null}
      >
        {(input) => (
          <input
            {...input}
            value={facts.clock.replace(/^-/, '−')}
            autoComplete="off"
            onChange={(event) => onFact({ clock: event.target.value.replace('−', '-') })}
          />
        )}
      </Field>
      <Field
        name="Summer time"
        help={{
          about: 'Whether the times of the table have summer time in them, an hour ahead of its clock',
        }}
      >
        {(input) => (
          <select
            {...input}
            value={facts.summer}
            onChange={(event) => onFact({ summer: event.target.value })}
          >
            <option value="">no</option>
            <option value="yes">yes, +1 h</option>
          </select>
        )}
      </Field>
      <Field name="Heights in" help={{ about: 'Unit of the heights that state none; kept in metres' }}>
        {(input) => (
          <select {...input} value={facts.unit} onChange={(event) => onFact({ unit: event.target.value })}>
            <option value="m">metres</option>
            <option value="ft">feet</option>
          </select>
        )}
      </Field>
      <Field
        name="Zero of the table"
        help={{
          about:
            'Where its heights begin: chart datum, most often near LAT. Another port’s table may have another zero',
          source: 'The table’s own page on levels',
        }}
      >
        {(input) => (
          <select {...input} value={facts.zero} onChange={(event) => onFact({ zero: event.target.value })}>
            <option value="">choose</option>
            <option value="below">metres below {above}</option>
            {gauges.map(({ gauge, datum: on, zero }) => (
              <option key={gauge} value={`gauge:${gauge}`}>
                as in {gauge}
                {zero === '' ? ', not known' : `, ${signed(Number(zero), 2)} m on ${on || above}`}
              </option>
            ))}
            {datums
              .filter((label) => label !== datum)
              .map((label) => (
                <option key={label} value={`datum:${label}`}>
                  {label}
                </option>
              ))}
            <option value="unknown">not known yet</option>
          </select>
        )}
      </Field>
      {facts.zero !== 'below' ? null : (
        <Field
          name={`Metres below ${above}`}
          help={{
            about: `How far the table’s zero is below ${above}. Added to nothing twice: heights stay as the table has them`,
            unit: 'm',
            range: '0 to 8',
            source:
              LAT === null
                ? 'The table’s own page on levels'
                : `LAT of the site is ${printed(-LAT, 2)} m below ${above}; check the table’s own page`,
          }}
        >
          {(input) => (
            <input
              {...input}
              inputMode="decimal"
              value={facts.below_m}
              autoComplete="off"
              onChange={(event) => onFact({ below_m: event.target.value })}
            />
          )}
        </Field>
      )}
    </div>
  );
}
