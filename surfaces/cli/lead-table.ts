/** A table of slices with lead-210 and caesium-137, handed to `lead`. */
import { ACTIVITY_UNITS, type Activity, activityFactor, type LeadSlice } from '@stillstand/science/lead';
import { WrongUse } from './command.ts';
import { type PlainRow, type PlainTable, readPlainTable } from './plain-table.ts';

/** Ends of headings, and the unit each means. */
const UNITS = { bq_kg: 'Bq/kg', mbq_g: 'mBq/g', bq_g: 'Bq/g', dpm_g: 'dpm/g', pci_g: 'pCi/g' } as const;
type UnitEnd = keyof typeof UNITS;

/** @throws WrongUse for a table without depths, or with none of the activities. */
export async function readLeadTable(path: string): Promise<{ table: PlainTable; slices: LeadSlice[] }> {
  const table = await readPlainTable(path, []);
  const length = (['m', 'cm'] as const).find((unit) =>
    ['top', 'bottom'].every((end) => table.columns.includes(`${end}_${unit}`)),
  );
  const activities = ['total', 'excess', 'supported', 'caesium'].map((name) => reader(table, name));
  if (length === undefined)
    throw new WrongUse(
      `${table.name}: found the columns ${table.columns.join(', ')}; expected top_cm and bottom_cm, or top_m and bottom_m`,
    );
  const [total, excess, supported, caesium] = activities as [Read, Read, Read, Read];
  if (activities.every((read) => read === NOTHING))
    throw new WrongUse(
      `${table.name}: found the columns ${table.columns.join(', ')}; expected total_bq_kg, excess_bq_kg or caesium_bq_kg, or the same in ${ACTIVITY_UNITS} (total_dpm_g)`,
    );
  const perMetre = length === 'm' ? 1 : 100;
  const slices = table.rows.flatMap((row): LeadSlice[] => {
    const [top, bottom] = [row.needed(`top_${length}`), row.needed(`bottom_${length}`)];
    const density_g_cm3 = row.number('density_g_cm3');
    const own = { total: total(row), excess: excess(row), supported: supported(row), caesium: caesium(row) };
    if (top === null || bottom === null) return [];
    return [
      {
        id: row.text('id') || `${row.text(`top_${length}`)}–${row.text(`bottom_${length}`)} ${length}`,
        top_m: top / perMetre,
        bottom_m: bottom / perMetre,
        total: own.total ?? own.excess,
        // Of an excess nothing is supported any more.
        supported: own.total === null && own.excess !== null ? { bq_kg: 0, sigma_bq_kg: 0 } : own.supported,
        density_g_cm3,
        caesium: own.caesium,
      },
    ];
  });
  return { table, slices };
}

type Read = (row: PlainRow) => Activity | null;
const NOTHING: Read = () => null;

/** Reads the columns NAME_UNIT and NAME_sigma_UNIT; `<12` is a limit. */
function reader({ columns }: PlainTable, name: string): Read {
  const unit = (Object.keys(UNITS) as UnitEnd[]).find((end) => columns.includes(`${name}_${end}`));
  if (unit === undefined) return NOTHING;
  const factor = activityFactor(UNITS[unit])!;
  const [value, sigma] = [`${name}_${unit}`, `${name}_sigma_${unit}`];
  return (row) => {
    const typed = row.text(value);
    if (typed === '') return null;
    if (typed.startsWith('<')) {
      const limit = Number(typed.slice(1));
      if (limit > 0) return { bq_kg: limit * factor, sigma_bq_kg: 0, is_limit: true };
      row.problem(value, typed, 'a number behind <', 'Correct it; it counts as not measured until then.');
      return null;
    }
    const [of, error] = [row.number(value), row.number(sigma, { min: 0 })];
    if (of === null) return null;
    if (error === null && row.text(sigma) === '')
      row.problem(
        sigma,
        '',
        '1 sigma of the activity',
        'Fill it in. The activity counts as not measured until then.',
      );
    return error === null ? null : { bq_kg: of * factor, sigma_bq_kg: error * factor };
  };
}
