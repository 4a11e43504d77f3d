/** A day in the field: its tide, when the access is open, the hour to leave by, and the tide of this minute. */
export { switchedTo, type Way, wayIn, withWay } from './access.ts';
export {
  campaignOffset,
  clockAt,
  type DayTide,
  dateAt,
  dayBounds,
  dayTide,
  isoAt,
  leastMargin,
  type OpenSpan,
  offsetIn,
  offsetWords,
  WEATHER_SD_M,
} from './day-tide.ts';
export { TABLE_ENTRIES, type TableCells, type TableEntry } from './table-water.ts';
export { type TideNow, tideAt, tideNow } from './tide-now.ts';
export { readTableLines, type TableRead, tableCellsIn } from './tide-table.ts';
