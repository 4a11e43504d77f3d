/** What was chosen for the export of figures: as typed, kept on this device for each campaign. */
import {
  AGE_SCALES,
  type CurveAxes,
  checkedAxes,
  type FigureOptions,
  RATE_UNITS,
  WIDTHS_MM,
} from '@stillstand/output/figures';
import { useCallback, useState } from 'react';

export const FORMATS = ['svg', 'pdf', 'png'] as const;
export type Format = (typeof FORMATS)[number];

/** Columns and pages of journals, mm; common practice, no source. */
export const WIDTHS = ['90', '140', '190'] as const;

export interface Choices {
  formats: readonly Format[];
  /** One of `WIDTHS`, or `typed`. */
  width: string;
  typed: string;
  dots: string;
  journal: boolean;
  grey: boolean;
  decimals: 'point' | 'comma';
  ages: (typeof AGE_SCALES)[number];
  rates: (typeof RATE_UNITS)[number];
  older: 'left' | 'right';
  oldest: string;
  youngest: string;
  highest: string;
  lowest: string;
  /**
   * Names of figures: those alone that are exported, or, null, those that are left out. The figures of error budgets change with
   * the curve: one that comes later is exported where all were, and not where some were chosen from none.
   */
  only: readonly string[] | null;
  leftOut: readonly string[];
}

const AT_FIRST: Choices = {
  formats: FORMATS,
  width: '90',
  typed: '120',
  dots: '600',
  journal: true,
  grey: false,
  decimals: 'point',
  ages: 'bp',
  rates: 'mm/yr',
  older: 'left',
  oldest: '',
  youngest: '',
  highest: '',
  lowest: '',
  only: null,
  leftOut: [],
};

type Limit = 'oldest' | 'youngest' | 'highest' | 'lowest';
export type Faults = Partial<Record<'typed' | 'axes' | Limit, string>>;

type Named = Pick<Choices, 'only' | 'leftOut'>;

export const isTaken = ({ only, leftOut }: Named, name: string): boolean =>
  only === null ? !leftOut.includes(name) : only.includes(name);

/** With a figure taken or left out. */
export function withTaken({ only, leftOut }: Named, name: string, takes: boolean): Named {
  const without = (names: readonly string[]): string[] => names.filter((each) => each !== name);
  if (only !== null) return { only: takes ? [...without(only), name] : without(only), leftOut };
  return { only, leftOut: takes ? without(leftOut) : [...without(leftOut), name] };
}

/** As the figures take them; a choice with a fault is left out, so that there is always something to show. */
export function optionsOf(choices: Choices): { options: FigureOptions; faults: Faults } {
  const faults: Faults = {};
  const width = numberOf(choices.width === 'typed' ? choices.typed : choices.width);
  const fits = width !== null && width >= WIDTHS_MM.least && width <= WIDTHS_MM.most;
  if (!fits) {
    faults.typed = `Found “${choices.typed}”. Expected a width of ${WIDTHS_MM.least} to ${WIDTHS_MM.most} mm.`;
  }
  const axes: CurveAxes = { ages: choices.ages, rates: choices.rates, older: choices.older };
  const limit = (name: Limit): number | null => {
    if (choices[name].trim() === '') return null;
    const value = numberOf(choices[name]);
    if (value === null) faults[name] = `Found “${choices[name]}”. Expected a number, or leave it blank.`;
    return value;
  };
  const [oldest, youngest, highest, lowest] = [
    limit('oldest'),
    limit('youngest'),
    limit('highest'),
    limit('lowest'),
  ];
  const limits: CurveAxes = {
    ...(oldest === null ? {} : { oldest_cal_bp: oldest }),
    ...(youngest === null ? {} : { youngest_cal_bp: youngest }),
    ...(highest === null ? {} : { highest_m: highest }),
    ...(lowest === null ? {} : { lowest_m: lowest }),
  };
  try {
    Object.assign(axes, checkedAxes(limits));
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    faults.axes = `${error.message[0]?.toUpperCase()}${error.message.slice(1)}.`;
  }
  const { journal, grey, decimals } = choices;
  return { options: { ...(fits ? { width_mm: width } : {}), journal, grey, decimals, axes }, faults };
}

/** A comma counts as a decimal point, a true minus as a minus. */
function numberOf(typed: string): number | null {
  const value = Number(typed.trim().replace(',', '.').replace('−', '-'));
  return typed.trim() === '' || !Number.isFinite(value) ? null : value;
}

export function useChoices(campaign: string): [Choices, (changed: Partial<Choices>) => void] {
  const key = `stillstand.report.${campaign}.export`;
  const [choices, setChoices] = useState<Choices>(() => keptChoices(localStorage.getItem(key)));
  const change = useCallback(
    (changed: Partial<Choices>) =>
      setChoices((before) => {
        const next = { ...before, ...changed };
        localStorage.setItem(key, JSON.stringify(next));
        return next;
      }),
    [key],
  );
  return [choices, change];
}

/** Of what the device kept only what is still a choice. */
export function keptChoices(text: string | null): Choices {
  let kept: unknown = null;
  try {
    kept = JSON.parse(text ?? 'null');
  } catch {
    // Not ours, or cut off: the choices begin again.
  }
  if (typeof kept !== 'object' || kept === null) return AT_FIRST;
  const from = kept as Record<string, unknown>;
  const one = <T extends string>(name: keyof Choices, known: readonly T[]): T =>
    known.find((each) => each === from[name]) ?? (AT_FIRST[name] as T);
  const words = (name: keyof Choices): string =>
    typeof from[name] === 'string' ? from[name] : (AT_FIRST[name] as string);
  const flag = (name: keyof Choices): boolean =>
    typeof from[name] === 'boolean' ? from[name] : (AT_FIRST[name] as boolean);
  const { formats, only, leftOut } = from;
  const names = (kept: unknown[]): string[] => kept.filter((each) => typeof each === 'string');
  return {
    formats: Array.isArray(formats) ? FORMATS.filter((each) => formats.includes(each)) : AT_FIRST.formats,
    width: one('width', [...WIDTHS, 'typed']),
    typed: words('typed'),
    dots: one('dots', ['300', '600']),
    journal: flag('journal'),
    grey: flag('grey'),
    decimals: one('decimals', ['point', 'comma']),
    ages: one('ages', AGE_SCALES),
    rates: one('rates', RATE_UNITS),
    older: one('older', ['left', 'right']),
    oldest: words('oldest'),
    youngest: words('youngest'),
    highest: words('highest'),
    lowest: words('lowest'),
    only: Array.isArray(only) ? names(only) : null,
    leftOut: Array.isArray(leftOut) ? names(leftOut) : [],
  };
}
