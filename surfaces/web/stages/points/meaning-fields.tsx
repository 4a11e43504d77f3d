/** What kind of deposit a point is, and what that says of the tide; and whether the point counts. */
import type { PointResult } from '@stillstand/campaign/results';
import { type IndicatorType, indicatorTypes } from '@stillstand/published/vocabularies';
import { useState } from 'react';
import { RejectionReason } from '../../claim/index.ts';
import { Button, ColumnField, columnHelp, Field, Mark } from '../../parts/index.ts';
import { type DocRow, useStore } from '../../store/index.ts';
import { AgeSource, OWN_DATE } from './age-source.tsx';

const KINDS: { kind: PointResult['kind']; words: string }[] = [
  { kind: 'index', words: 'fix the sea' },
  { kind: 'terrestrial', words: 'the sea was below' },
  { kind: 'marine', words: 'the sea was above' },
];
const OWN_WORDS = 'in your own words';

/** Cells a kind of deposit fills in: what its source states, nothing else. */
function cellsOf(type: IndicatorType): Record<string, string> {
  return {
    indicator: type.indicator,
    kind: type.kind,
    ...(type.lower === null && type.upper === null
      ? {}
      : { lower: type.lower ?? '', upper: type.upper ?? '' }),
  };
}

export function IndicatorField({
  value,
  disabled = false,
  onChoose,
}: {
  value: string;
  disabled?: boolean;
  onChoose: (cells: Record<string, string>) => void;
}) {
  const known = indicatorTypes.find((type) => type.indicator === value);
  const [isOwn, setOwn] = useState(false);
  if (isOwn || (value !== '' && known === undefined)) {
    return (
      <div>
        <ColumnField
          table="points"
          column="indicator"
          value={value}
          disabled={disabled}
          onCommit={(indicator) => onChoose({ indicator })}
        />
        {disabled ? null : (
          <Button
            kind="bare"
            onClick={() => {
              setOwn(false);
              onChoose({ indicator: '' });
            }}
          >
            Choose from the list
          </Button>
        )}
      </div>
    );
  }
  return (
    <div>
      <Field name="Kind of deposit" help={columnHelp('points', 'indicator')}>
        {(input) => (
          <select
            {...input}
            value={value}
            disabled={disabled}
            onChange={(event) => {
              const type = indicatorTypes.find((each) => each.indicator === event.target.value);
              if (event.target.value === OWN_WORDS) setOwn(true);
              else onChoose(type === undefined ? { indicator: '' } : cellsOf(type));
            }}
          >
            <option value="">not stated</option>
            {KINDS.map(({ kind, words }) => (
              <optgroup key={kind} label={words}>
                {indicatorTypes
                  .filter((type) => type.kind === kind)
                  .map((type) => (
                    <option key={type.indicator}>{type.indicator}</option>
                  ))}
              </optgroup>
            ))}
            <option>{OWN_WORDS}</option>
          </select>
        )}
      </Field>
      {known === undefined ? null : <Source type={known} />}
    </div>
  );
}

function Source({ type }: { type: IndicatorType }) {
  return (
    <p className="meaning-source">
      {type.lower === null && type.upper === null
        ? `Its source has ${type.reference_water_level}, range ${type.indicative_range}: write the limits in levels of your site. `
        : ''}
      {type.source}.{' '}
      {type.status === 'from_memory' ? (
        <span className="unsure">
          <Mark name="close" size={14} /> From memory: hold it against a modern survey of this coast.
        </span>
      ) : (
        'A modern survey of this coast wins.'
      )}
    </p>
  );
}

export function MeaningFields({ row }: { row: DocRow }) {
  const store = useStore();
  const cells = row.cells;
  const edit = (patch: Record<string, string>): boolean => store.editRow('points', row.row_id, patch);
  const field = (column: string, labels?: readonly string[]) => (
    <ColumnField
      key={column}
      table="points"
      column={column}
      value={cells[column] ?? ''}
      disabled={store.readOnly}
      onCommit={(typed) => edit({ [column]: typed })}
      {...(labels === undefined ? {} : { labels })}
    />
  );
  const codes = store
    .rows('determinations')
    .filter((each) => each.cells['sample'] === cells['sample'])
    .map((each) => each.cells['lab_code'] ?? '');
  const kind = cells['kind'] ?? '';
  const source = cells['age_from']?.trim() ?? '';
  const isOneOfSeveral = codes.length > 1 && (source === '' || source === OWN_DATE);
  return (
    <div className="fields">
      <div className="wide">
        <IndicatorField value={cells['indicator'] ?? ''} disabled={store.readOnly} onChoose={edit} />
      </div>
      {field('kind')}
      {kind === 'marine' ? null : field('lower')}
      {kind === 'terrestrial' ? null : field('upper')}
      {kind === 'index' ? [field('position'), field('compressible_below')] : null}
      <div className="wide">
        <AgeSource
          sample={cells['sample']?.trim() ?? ''}
          value={source}
          disabled={store.readOnly}
          onChoose={(age_from) => edit({ age_from })}
        />
      </div>
      {isOneOfSeveral || (cells['determination'] ?? '') !== '' ? field('determination', codes) : null}
    </div>
  );
}

/** Whether the point counts; a rejected one says why. */
export function Standing({ row }: { row: DocRow }) {
  const store = useStore();
  const isRejected = row.cells['status']?.trim() === 'rejected';
  const set = (status: string): boolean => store.editRow('points', row.row_id, { status });
  return (
    <div className="standing">
      <fieldset className="either" aria-label="Whether the point counts">
        <Button
          mark="tick"
          aria-pressed={!isRejected}
          disabled={store.readOnly}
          onClick={() => set('accepted')}
        >
          Accepted
        </Button>
        <Button
          mark="rejected"
          aria-pressed={isRejected}
          disabled={store.readOnly}
          onClick={() => set('rejected')}
        >
          Rejected
        </Button>
      </fieldset>
      {isRejected ? <RejectionReason row={row} /> : null}
    </div>
  );
}
