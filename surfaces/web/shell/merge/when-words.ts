/** Times as devices wrote them, never moved to another zone; who wrote. */
import { clockOf, dateOf } from '@stillstand/campaign/tables';
import type { Written } from '../../store/index.ts';

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** "15 Feb 2026, 18:20"; the clock alone for a time on `day`. What is no time is given back as it is. */
export function whenWords(time: string, day: string | null = null): string {
  const date = dateOf(time);
  if (date === null) return time;
  if (date === day) return clockOf(time);
  const [year, month, dayOfMonth] = date.split('-').map(Number);
  return `${dayOfMonth} ${MONTHS[month! - 1] ?? month} ${year}, ${clockOf(time)}`;
}

/** "driller, tablet B"; empty where nobody said. */
export const whoWords = ({ by, device }: Pick<Written, 'by' | 'device'>): string =>
  [by, device].filter(Boolean).join(', ');
