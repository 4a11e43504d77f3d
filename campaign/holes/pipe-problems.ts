/** What is wrong with the labels, lengths and condition of pipe across holes and stock. */
import type { Campaign } from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import { tapeLength } from '@stillstand/science/base';
import { conditionOf, LENGTH_TOLERANCE_M, lastUse, whereWords } from './pipe-inventory.ts';
import { isLater } from './pipe-order.ts';
import { type ItemRecord, isBack, itemRecords, type Use } from './pipe-records.ts';
import { itemKey, kindOf, stockByItem, stockTwice } from './pipe-stock.ts';

type Tables = Pick<Campaign, 'rows' | 'skipped_rows' | 'lines'>;

/** Each is a warning: the reading is used as entered. */
export function pipeProblems(campaign: Tables): Problem[] {
  const records = itemRecords(campaign);
  return [
    ...records.flatMap((record) => [
      ...elsewhere(campaign, record),
      ...usedDamaged(campaign, record),
      ...lengthDiffers(campaign, record),
    ]),
    ...twice(campaign),
    ...notInStock(campaign),
  ];
}

const nameOf = ({ added }: Use): string => `${added.item.replace('_', ' ')} ${added.label}`;

function ofUse(
  { lines }: Tables,
  use: Use,
  column: string,
  said: Pick<Problem, 'code' | 'found' | 'expected' | 'fix'>,
): Problem {
  return problem({
    severity: 'warning',
    table: 'string_items',
    row_id: use.added.row_id,
    line: lines.get(use.added.row_id) ?? null,
    label: use.hole,
    column,
    ...said,
  });
}

/** Items that went into a hole while another hole, or the same one, still has them: one of the two labels is wrong. */
function elsewhere(campaign: Tables, { uses }: ItemRecord): Problem[] {
  return uses.flatMap((use) => {
    const before = uses.find(
      (u) => u !== use && !isBack(u) && u.whereabouts !== 'cut' && isLater(use, u) === true,
    );
    if (before === undefined) return [];
    return [
      ofUse(campaign, use, 'joint', {
        code: 'pipe-elsewhere',
        found: `${nameOf(use)}, ${whereWords(before)}`,
        expected: 'an item that is at hand',
        fix: `Correct its label here or in ${before.hole}, or enter in ${before.hole} that it came back. It is used as entered.`,
      }),
    ];
  });
}

/** Items that went in after somebody said that they are damaged or lost, and before anybody said that they are sound. */
function usedDamaged(campaign: Tables, { uses, findings }: ItemRecord): Problem[] {
  return uses.flatMap((use) => {
    const inIt = use.whereabouts === 'in string';
    const before = findings.filter((finding) => {
      const isBefore = isLater(use, finding);
      return isBefore === true || (isBefore === null && inIt);
    });
    const condition = conditionOf(before);
    if (condition !== 'damaged' && condition !== 'lost') return [];
    const hole = before.findLast((finding) => finding.condition === condition)?.hole ?? null;
    return [
      ofUse(campaign, use, 'joint', {
        code: 'pipe-damaged',
        found: `${nameOf(use)}, ${condition}${hole === null ? ' by the stock of pipe' : ` when it came out of ${hole}`}`,
        expected: 'a sound item',
        fix: 'Inspect it. State its condition and the date in the stock of pipe, or correct the label. It is used as entered.',
      }),
    ];
  });
}

/** The stock and the string have another length of one item. */
function lengthDiffers(campaign: Tables, { stock, uses }: ItemRecord): Problem[] {
  const last = lastUse(uses);
  if (last === null || stock?.length_m == null || last.added.length_m === null) return [];
  const { length_m, cut_m } = last.added;
  // cut, it may have been measured again since
  const isSame = (m: number): boolean => Math.abs(stock.length_m! - m) <= LENGTH_TOLERANCE_M + 1e-9;
  if (isSame(length_m) || (cut_m > 0 && stock.length_m <= length_m)) return [];
  return [
    ofUse(campaign, last, 'length', {
      code: 'pipe-length-differs',
      found: `${nameOf(last)} ${tapeLength(length_m, 'm')}, ${tapeLength(stock.length_m, 'm')} in the stock of pipe`,
      expected: 'lengths within 1 cm of each other',
      fix: 'Measure it again, and correct the reading or the stock. The string has the length entered in its hole.',
    }),
  ];
}

function twice({ rows, lines }: Tables): Problem[] {
  return stockTwice(rows.pipe_stock).map((row) => {
    const first = stockByItem(rows.pipe_stock).get(itemKey(kindOf(row), row.stock_item))!;
    return problem({
      severity: 'warning',
      code: 'stock-twice',
      table: 'pipe_stock',
      row_id: row.row_id,
      line: lines.get(row.row_id) ?? null,
      label: row.stock_item,
      column: 'stock_item',
      found: `“${row.stock_item}” and “${first.stock_item}”, one label`,
      expected: 'each label of a kind of item once; capitals and blanks do not distinguish',
      fix: 'Paint and enter another label on one of them. The first row is used until then.',
    });
  });
}

/** Readings that name an item of a stock that does not have it. */
function notInStock({ rows, lines }: Tables): Problem[] {
  const stock = stockByItem(rows.pipe_stock);
  return rows.string_items.flatMap((row) => {
    if (row.stock_item === null || stock.has(itemKey(row.item, row.stock_item))) return [];
    return [
      problem({
        severity: 'warning',
        code: 'stock-item-unknown',
        table: 'string_items',
        row_id: row.row_id,
        line: lines.get(row.row_id) ?? null,
        label: row.hole,
        column: 'stock_item',
        found: row.stock_item,
        expected: `a ${row.item.replace('_', ' ')} of the stock of pipe`,
        fix: 'Correct the label, or add the item to the stock. It is used as entered.',
      }),
    ];
  });
}
