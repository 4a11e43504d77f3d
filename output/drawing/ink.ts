/** The inks of the figures: the same names and values as the screen's tokens; print only sets the paper to white. */
import { createContext, useContext } from 'react';
import type { Tint } from './sediment-table.ts';

export type Theme = 'print' | 'day' | 'night';

export interface Inks {
  paper: string;
  /** A second sheet under the first: a chosen interval. */
  leaf: string;
  rule: string;
  line: string;
  ink: string;
  ink2: string;
  ink3: string;
  sea: string;
  seaWash: string;
  seaWash2: string;
  caution: string;
  pattern: string;
  /** Colour tells nothing apart: what has only colour is given another shape. */
  grey: boolean;
  /** Opacity of the darkest tone on a large face: by night it must not shine. */
  dark: number;
  tints: Record<Tint, string>;
}

const DAY: Inks = {
  paper: '#FBF6EA',
  leaf: '#F1E9D6',
  rule: '#DCD2BC',
  line: '#857A66',
  ink: '#14110C',
  ink2: '#3F382D',
  ink3: '#5E5546',
  sea: '#0A4660',
  seaWash: '#D3E2E3',
  seaWash2: '#A8C6CC',
  caution: '#7A4100',
  pattern: '#14110C',
  grey: false,
  dark: 0.66,
  tints: {
    gravel: '#E9D8C0',
    sand: '#F0E2BE',
    silt: '#DDD6C6',
    clay: '#CBD2CA',
    peat: '#C2A98A',
    soil: '#D6C3A2',
    till: '#DCCBBB',
    unknown: '#FBF6EA',
  },
};

const NIGHT: Inks = {
  paper: '#0D0302',
  leaf: '#1C0905',
  rule: '#3A150D',
  line: '#A54C34',
  ink: '#F6825F',
  ink2: '#DE6C4C',
  ink3: '#CB5F43',
  sea: '#D2686C',
  seaWash: '#280A0B',
  seaWash2: '#431417',
  caution: '#FFB454',
  pattern: '#C9644A',
  grey: false,
  dark: 0.3,
  tints: {
    gravel: '#24100A',
    sand: '#2B140B',
    silt: '#22100B',
    clay: '#1A0D0A',
    peat: '#381408',
    soil: '#2C1209',
    till: '#26110C',
    unknown: '#0D0302',
  },
};

export const INKS: Record<Theme, Inks> = {
  print: { ...DAY, paper: '#FFFFFF', tints: { ...DAY.tints, unknown: '#FFFFFF' } },
  day: DAY,
  night: NIGHT,
};

/**
 * Print in greys. The lightnesses (CIE L*) of tints stand 5 or more apart, and so do the paper and the two washes, so
 * that each is told from each without its colour; all stay above 60, where a pattern in ink is read. Lines and letters
 * are told apart by weight, dash and shape. Common practice, no source.
 */
const GREY: Inks = {
  paper: '#FFFFFF',
  leaf: '#F0F0F0',
  rule: '#D4D4D4',
  line: '#777777',
  ink: '#000000',
  ink2: '#2E2E2E',
  ink3: '#4A4A4A',
  sea: '#000000',
  seaWash: '#E2E2E2',
  seaWash2: '#C6C6C6',
  caution: '#000000',
  pattern: '#000000',
  grey: true,
  dark: 0.66,
  tints: {
    unknown: '#FFFFFF',
    sand: '#F0F0F0',
    silt: '#E0E0E0',
    gravel: '#D0D0D0',
    till: '#C0C0C0',
    clay: '#B1B1B1',
    soil: '#A2A2A2',
    peat: '#939393',
  },
};

/** Greys are of paper: they leave the screen's themes out of account. */
export const inksFor = ({ theme = 'print', grey = false }: { theme?: Theme; grey?: boolean }): Inks =>
  grey ? GREY : INKS[theme];

export const InkContext = createContext<Inks>(INKS.print);
export const useInk = (): Inks => useContext(InkContext);

/** Line weights in points: the screen's weights at 17 px to 7 pt; no thinner than journals take, 0.35. */
export const LINE = { hair: 0.35, fine: 0.45, edge: 0.65, bold: 1, page: 1.3 } as const;

/** How a line is broken: dots for the edge of a 95 %, dashes for what is only a reference, as a zero. */
export const DOTTED = { strokeLinecap: 'round', strokeDasharray: '0.01 1.8' } as const;
export const DASHED = { strokeDasharray: '3.5 2' } as const;
