/** Tide levels that follow from the site's constants, beside those that are stated; chosen ones are written down. */
import { siteTide } from '@stillstand/campaign/steps';
import { TIDE_LEVELS } from '@stillstand/campaign/tables';
import { formNumber, type PredictedLevels } from '@stillstand/science/tide';
import { useMemo, useState } from 'react';
import { useComputation } from '../../../compute/index.ts';
import { Button, Dialog, Field, printed, signed, Table } from '../../../parts/index.ts';
import { useStore } from '../../../store/index.ts';
import { useTideSum } from './use-tide-sum.ts';
import './levels-entry.css';

type Level = (typeof TIDE_LEVELS)[number];

/** Conventions of the one kind of tide are no use for the other. */
const SEMIDIURNAL: ReadonlySet<Level> = new Set(['MHWS', 'MHWN', 'MLWN', 'MLWS']);
const MIXED: ReadonlySet<Level> = new Set(['MHHW', 'DTL', 'MLLW']);

export function LevelsEntry({ site, datum, onClose }: { site: string; datum: string; onClose: () => void }) {
  const store = useStore();
  const { campaign } = useComputation();
  const epoch = store.rows('datums').find((row) => row.cells['datum'] === datum)?.cells['epoch_from'];
  const [changed, setTyped] = useState<string | null>(null);
  const typed = changed ?? (epoch === undefined || epoch === '' ? '2002' : epoch);
  const first_year = /^(1[89]|20|21)\d\d$/.test(typed.trim()) ? Number(typed) : null;
  const found = useMemo(
    () => (campaign === null ? null : siteTide(campaign, site === '' ? null : site, datum)),
    [campaign, site, datum],
  );
  const tide = found?.predicted?.tide ?? null;
  const asked = useMemo(
    () => (tide === null || first_year === null ? null : { kind: 'levels' as const, tide, first_year }),
    [tide, first_year],
  );
  const answer = useTideSum(asked);
  const levels = answer?.kind === 'levels' ? answer.levels : null;
  const stated = new Map(
    store
      .rows('tide_levels')
      .filter((row) => (row.cells['site'] ?? '') === site)
      .map((row) => [row.cells['level'] ?? '', row.cells['elevation_m'] ?? '']),
  );
  const isMixed = tide !== null && formNumber(tide.constants) > 0.25;
  const [turned, setTurned] = useState<Readonly<Record<string, boolean>>>({});
  const isChosen = (level: Level): boolean =>
    !stated.has(level) && (turned[level] ?? !(isMixed ? SEMIDIURNAL : MIXED).has(level));
  const chosen = TIDE_LEVELS.filter(isChosen);
  const write = (of: PredictedLevels): void => {
    store.together(() => {
      for (const level of chosen) {
        store.addRow('tide_levels', {
          ...(site === '' ? {} : { site }),
          level,
          ...(datum === '' ? {} : { datum }),
          elevation_m: of[`${level}_m`].toFixed(3),
          sigma_m: of.sigma_m[level].toFixed(3),
          epoch: `${first_year}-${first_year! + 18}`,
          source: `predicted from ${found!.predicted!.constituents.length} constituents of ${found!.predicted!.gauge}`,
        });
      }
    });
    onClose();
  };
  return (
    <Dialog
      title="Tide levels from the constants"
      onClose={onClose}
      foot={
        <Button
          kind="main"
          disabled={levels === null || chosen.length === 0}
          onClick={() => levels !== null && write(levels)}
        >
          Write {chosen.length === 1 ? '1 level' : `${chosen.length} levels`} down
        </Button>
      }
    >
      <div className="sums">
        <Field
          name="First year of 19"
          help={{
            about:
              'Levels are means and extremes of the prediction over 19 calendar years, which hold a whole turn of the moon’s node; the tidal epoch of the datum where it has one',
            unit: 'yr CE',
          }}
          fault={first_year === null ? 'Write a year, such as 2002.' : null}
        >
          {(input) => (
            <input
              {...input}
              inputMode="numeric"
              value={typed}
              onChange={(event) => setTyped(event.target.value)}
            />
          )}
        </Field>
        {tide === null ? (
          <p role="status">Needed: {found?.needs.join('; ') ?? 'the campaign is being read'}.</p>
        ) : levels === null ? (
          <p role="status">Computing 19 years…</p>
        ) : (
          <Table
            caption={
              <>
                Above {datum || 'the datum'} <small>± is 2σ</small>
              </>
            }
            columns={[
              { name: 'level' },
              { name: 'computed', unit: 'm', number: true },
              { name: 'stated', unit: 'm', number: true },
            ]}
          >
            {TIDE_LEVELS.map((level) => (
              <tr key={level}>
                <th scope="row">
                  {stated.has(level) ? (
                    level
                  ) : (
                    <label className="pick">
                      <input
                        type="checkbox"
                        checked={isChosen(level)}
                        onChange={() => setTurned((before) => ({ ...before, [level]: !isChosen(level) }))}
                      />
                      {level}
                    </label>
                  )}
                </th>
                <td className="number">
                  {signed(levels[`${level}_m`], 2)} ±{printed(2 * levels.sigma_m[level], 2)}
                </td>
                <td className="number">{stated.get(level)?.replace('-', '−') ?? ''}</td>
              </tr>
            ))}
          </Table>
        )}
        <p className="quiet small">
          MHWS to MLWS by the convention of mean ± (M2 ± S2), for semidiurnal tides. What the sea has risen
          since the constants were made is not in them. ± holds the method, the stated errors of the constants
          and that of the mean level.
        </p>
      </div>
    </Dialog>
  );
}
