/** Something wrong, unsafe or suspicious in the readings of a hole: plain data, the worst word first. */
export type FindingCode =
  // danger: gear or people
  | 'sampler-past-shoe'
  | 'sampler-inside-margin'
  | 'joint-not-tight'
  | 'string-lost'
  // error: the reading, or a number in it, cannot be used
  | 'not-a-number'
  | 'joint-length-missing'
  | 'joint-twice'
  | 'item-not-in-string'
  | 'collar-to-shoe-unknown'
  | 'drive-without-string'
  | 'drive-after-loss'
  | 'stick-up-missing'
  | 'plug-longer-than-string'
  | 'sediment-below-shoe'
  | 'marks-reversed'
  | 'fall-in-longer-than-recovered'
  // warning: used, but unsafe or suspicious
  | 'sampler-close'
  | 'water-inside-low'
  | 'water-inside-light'
  | 'zero-check-off'
  | 'entered-falling'
  | 'recovery-over-one'
  | 'sediment-rising'
  | 'inflow-during-run'
  | 'stick-up-jump'
  | 'drive-rises'
  | 'shoe-above-ground'
  | 'run-without-soundings'
  | 'recovered-more-than-removed'
  | 'start-mark-disagrees'
  | 'collar-to-shoe-disagrees'
  | 'out-of-order'
  | 'pipe-unaccounted'
  | 'seq-twice'
  | 'drive-slowing'
  // note: used as stated here
  | 'plug-settled'
  | 'string-settled'
  | 'string-rebounded'
  | 'ground-assumed'
  | 'left-in-ground';

export interface RigFinding {
  code: FindingCode;
  severity: 'danger' | 'error' | 'warning' | 'note';
  /** Kind of the reading it is about. */
  kind: 'joint' | 'drive' | 'sounding' | 'run' | 'ground' | 'water';
  row_id: string;
  seq: number;
  found: string;
  expected: string;
  fix: string;
}

/**
 * Metres as a person reads them, with a true minus: to the centimetre, or to as many more decimals as tell them from
 * the limit they are told against.
 */
export function metres(m: number, limit_m?: number): string {
  const size = limit_m === undefined ? Math.abs(m).toFixed(2) : apart(Math.abs(m), Math.abs(limit_m));
  return `${m < 0 ? '−' : ''}${size} m`;
}

/** To two decimals, or as many more (at most six) as show on which side of the limit it is: 1.054 against 1.05. */
export function apart(value: number, limit: number): string {
  const side = Math.sign(value - limit);
  let decimals = 2;
  while (decimals < 6 && Math.sign(Number(value.toFixed(decimals)) - limit) !== side) decimals++;
  return value.toFixed(decimals);
}
