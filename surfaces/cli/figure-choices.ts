/** How figures are asked for on the command line: kinds of file, size, form and the axes of the curve. */
import {
  AGE_SCALES,
  type CurveAxes,
  checkedAxes,
  type FigureOptions,
  RATE_UNITS,
  WIDTHS_MM,
} from '@stillstand/output/figures';
import { type Command, type Words, WrongUse } from './command.ts';

const KINDS = ['svg', 'png', 'pdf'] as const;
export type FigureKind = (typeof KINDS)[number];

const DOTS = [300, 600] as const;

export interface FigureChoices {
  kinds: readonly FigureKind[];
  /** Of a PNG; as `figureToPng` has it otherwise. */
  dots_per_inch?: number;
  options: FigureOptions;
}

export const FIGURE_OPTIONS: Command['options'] = {
  figures: {
    type: 'string',
    value: 'KINDS',
    about: 'kinds of figure file: svg, png, pdf; all three if not given',
  },
  width: {
    type: 'string',
    value: 'MM',
    about: `figures laid out at this width, ${WIDTHS_MM.least} to ${WIDTHS_MM.most} mm; each has its own if not given`,
  },
  dpi: { type: 'string', value: 'DOTS', about: 'dots to the inch of a PNG: 300 or 600; 216 if not given' },
  journal: {
    type: 'boolean',
    about: 'figures without title, counts and caption: all captions are in figures/captions.txt',
  },
  grey: { type: 'boolean', about: 'figures in shades of grey' },
  decimals: { type: 'string', value: 'MARK', about: 'point or comma in the numbers of figures' },
  ages: {
    type: 'string',
    value: 'SCALE',
    about: 'ages of the curve figure: bp (cal BP), ce (BCE and CE), ka',
  },
  rates: { type: 'string', value: 'UNIT', about: `rates of the curve figure: ${RATE_UNITS.join(', ')}` },
  older: { type: 'string', value: 'SIDE', about: 'side of the older ages in the curve figure: left, right' },
  oldest: { type: 'string', value: 'AGE', about: 'oldest age of the curve figure, cal BP' },
  youngest: { type: 'string', value: 'AGE', about: 'youngest age of the curve figure, cal BP' },
  highest: { type: 'string', value: 'M', about: 'highest level of the curve figure, metres' },
  lowest: { type: 'string', value: 'M', about: 'lowest level of the curve figure, metres' },
};

/** Reads them; wrong use says what was found and what was expected. */
export function figureChoices(words: Words): FigureChoices {
  const dots = words.number('dpi');
  if (dots !== undefined && !DOTS.some((each) => each === dots)) {
    throw new WrongUse(`--dpi: found ${dots}, expected ${DOTS.join(' or ')}`);
  }
  const width_mm = words.number('width', { min: WIDTHS_MM.least, max: WIDTHS_MM.most });
  return {
    kinds: kindsOf(words),
    ...given({ dots_per_inch: dots }),
    options: {
      ...given({ width_mm, decimals: oneOf(words, 'decimals', ['point', 'comma']) }),
      journal: words.flag('journal'),
      grey: words.flag('grey'),
      axes: axesOf(words),
    },
  };
}

function kindsOf(words: Words): FigureKind[] {
  const asked = (words.text('figures') ?? KINDS.join(',')).split(',').map((word) => word.trim());
  return asked.map((word) => {
    const kind = KINDS.find((each) => each === word);
    if (kind === undefined) throw new WrongUse(`--figures: found “${word}”, expected ${KINDS.join(', ')}`);
    return kind;
  });
}

/** 60,000 cal BP: no calibration curve reaches farther. */
const AGES = { min: -100, max: 60_000 };
const LEVELS = { min: -500, max: 500 };

function axesOf(words: Words): CurveAxes {
  const axes: CurveAxes = given({
    oldest_cal_bp: words.number('oldest', AGES),
    youngest_cal_bp: words.number('youngest', AGES),
    highest_m: words.number('highest', LEVELS),
    lowest_m: words.number('lowest', LEVELS),
    older: oneOf(words, 'older', ['left', 'right']),
    ages: oneOf(words, 'ages', AGE_SCALES),
    rates: oneOf(words, 'rates', RATE_UNITS),
  });
  try {
    return checkedAxes(axes);
  } catch (error) {
    if (error instanceof RangeError) throw new WrongUse(error.message);
    throw error;
  }
}

function oneOf<T extends string>(words: Words, option: string, known: readonly T[]): T | undefined {
  const typed = words.text(option);
  if (typed === undefined) return undefined;
  const found = known.find((each) => each === typed.trim());
  if (found === undefined) throw new WrongUse(`--${option}: found “${typed}”, expected ${known.join(', ')}`);
  return found;
}

/** Only what was given, so that every default stays where it is. */
const given = <T extends object>(all: T): { [K in keyof T]?: NonNullable<T[K]> } =>
  Object.fromEntries(Object.entries(all).filter(([, value]) => value !== undefined)) as {
    [K in keyof T]?: NonNullable<T[K]>;
  };
