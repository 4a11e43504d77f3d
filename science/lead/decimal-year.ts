/** A decimal year CE: noon of a day as YYYY-MM-DD. */
export function decimalYear(day: string): number {
  const year = Number(day.slice(0, 4));
  const start = Date.UTC(year, 0, 1);
  const length = Date.UTC(year + 1, 0, 1) - start;
  return year + (Date.UTC(year, Number(day.slice(5, 7)) - 1, Number(day.slice(8, 10)), 12) - start) / length;
}
