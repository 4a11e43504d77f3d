/** Why a cell could not be read, and the reasons that numbers and lengths share. */

export interface Fault {
  /** Kebab-case kind of problem. */
  code: string;
  found: string;
  expected: string;
  fix: string;
}

/** A comma where the table writes points, or a point where it writes commas. */
export function decimalMarkFault(typed: string, decimal_comma: boolean): Fault {
  return decimal_comma
    ? {
        code: 'decimal-point',
        found: typed,
        expected: 'a decimal comma, as elsewhere in this table, and no thousands separators',
        fix: 'Write the number with a comma, without separators.',
      }
    : {
        code: 'decimal-comma',
        found: typed,
        expected: 'a decimal point, and no thousands separators',
        fix: /^[^.,]*,[^.,]*$/.test(typed)
          ? `Write ${typed.replace(',', '.')} if the comma is a decimal mark; leave it out if it separates thousands.`
          : 'Write the number without separators, with a point for the decimals.',
      };
}

/** A spreadsheet has turned what was typed into a date. */
export function dateFault(text: string, expected: string): Fault {
  return {
    code: 'date-for-number',
    found: text,
    expected,
    fix: 'A spreadsheet has probably turned the number into a date: type it again from the field sheet, in a spreadsheet as text.',
  };
}
