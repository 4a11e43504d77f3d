/** Numbers of a drawing in languages with a decimal comma. */

/** A number as `printed` writes it, standing alone: no part of a name, as in T3.1 or AB-1.5. */
const NUMBER = /(?<![\p{L}\d.,_/-])\d{1,3}(?:,\d{3})*(?:\.\d+)?(?![\p{L}\d_/-]|[.,]\d)/gu;

/** "8,719.5" as "8 719,5": a comma for the decimals, a thin space at thousands (ISO 80000-1). */
export const withDecimalComma = (text: string): string =>
  text.replace(NUMBER, (number) => number.replaceAll(',', '\u2009').replace('.', ','));
