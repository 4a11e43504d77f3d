/** The sheet every figure is drawn on: size, head, warnings, drawing, caption. */

import {
  AssumedMark,
  CautionMark,
  horizontal,
  InkContext,
  inksFor,
  LINE,
  NotConvergedMark,
  PLAIN_ZERO_FAMILY,
  r2,
  SIZE,
  Span,
  TEXT_FAMILY,
  Text,
  type Theme,
  textWidth,
  useInk,
  wrapped,
} from '@stillstand/output/drawing';
import type { StripPicture } from '@stillstand/output/photographs';
import type { MapShapes } from '@stillstand/output/shapes';
import type { ReactNode } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import type { CurveAxes } from './curve/axes.ts';
import { withDecimalComma } from './decimal-comma.ts';
import { WIDTHS_MM } from './widths.ts';

/** A drawing made. */
export interface Figure {
  /** Stable and fit for a file: `column-H3`. */
  name: string;
  /** As its head has it, drawn or not. */
  title: string;
  /** One SVG document, its text as text in the two faces; coordinates in points. */
  svg: string;
  width_mm: number;
  height_mm: number;
  /** Says what is drawn; also under the drawing unless it was left off. In a journal's form what warns stands first. */
  caption: string;
  /** What the reader must know before trusting it; every one is also drawn, or stands in the caption of a journal's form. */
  warnings: string[];
}

export interface FigureOptions {
  /** Paper white, the screen's day, or its night. */
  theme?: Theme;
  /** False leaves the caption off, for pages that set it themselves. */
  caption?: boolean;
  /** Stands before the caption: "Figure 4". */
  label?: string;
  /** Width of the paper it is laid out at, mm, within `WIDTHS_MM`. Each figure has its own otherwise, 90 or 190. */
  width_mm?: number;
  /** As a journal prints it: no title, counts, diagnostics or caption on it, and zeros that are not slashed. */
  journal?: boolean;
  /** Shades of grey: tone, pattern and shape tell apart what colour does. */
  grey?: boolean;
  decimals?: 'point' | 'comma';
  /** Of the sea-level curve alone. */
  axes?: CurveAxes;
  /** Strips of photographs by the row they come from, in greys where greys are asked. Of the graphic log alone. */
  pictures?: ReadonlyMap<string, StripPicture>;
  /** Coast, grounds and land round about, of the maps. */
  shapes?: MapShapes;
}

export interface Warning {
  /** `narrow` is of the paper and no word on the data: it stands in no caption. */
  kind: 'caution' | 'not_converged' | 'assumed' | 'narrow';
  text: string;
}

const MM = 72 / 25.4;
/** One and two columns of a journal's page, mm. */
const WIDTH_MM = { one: 90, two: 190 } as const;
/** White at every edge, points. */
const MARGIN = 6;

export type SheetWidth = keyof typeof WIDTH_MM;

/** RangeError for a width that no figure is laid out at. */
function paperWidth(width: SheetWidth, { width_mm = WIDTH_MM[width] }: FigureOptions): number {
  if (!(width_mm >= WIDTHS_MM.least && width_mm <= WIDTHS_MM.most)) {
    throw new RangeError(
      `width of a figure: expected ${WIDTHS_MM.least} to ${WIDTHS_MM.most} mm, found ${width_mm}`,
    );
  }
  return width_mm;
}

/** Points from margin to margin. */
export const innerWidth = (width: SheetWidth, options: FigureOptions): number =>
  paperWidth(width, options) * MM - 2 * MARGIN;

/** Says what suffers where the drawing has less than `least` points from margin to margin; nothing where it has them. */
export function narrowness(least: number, inner: number, what: string): Warning[] {
  if (inner >= least - 0.5) return [];
  return [
    {
      kind: 'narrow',
      text: `Narrow: ${what}; whole from ${Math.ceil((least + 2 * MARGIN) / MM)} mm wide`,
    },
  ];
}

interface Headed {
  width: SheetWidth;
  title: string;
  /** Set at the right of the title, at most two lines. */
  notes: readonly string[];
  warnings: readonly Warning[];
}

interface Sheet extends Headed {
  name: string;
  /** First sentence is set bold. */
  caption: { head: string; text: string };
  /** Of the drawing, points. */
  height: number;
}

const CAPTION_LEADING = 9.8;

/** The caption set in lines, its first sentence bold; the bold words are measured as such. */
function captionLines(head: string, text: string, width: number): { bold: string; plain: string }[] {
  const style = { face: 'title' as const, size: SIZE.caption };
  const words = [
    ...head.split(' ').map((word) => ({ word, bold: true })),
    ...text.split(' ').map((word) => ({ word, bold: false })),
  ].filter((w) => w.word !== '');
  const space = textWidth(' ', style);
  const lines: { bold: string; plain: string }[] = [];
  let line = { bold: '', plain: '' };
  let used = 0;
  for (const { word, bold } of words) {
    const w = textWidth(word, { ...style, weight: bold ? 600 : 400 });
    if (used > 0 && used + space + w > width) {
      lines.push(line);
      line = { bold: '', plain: '' };
      used = 0;
    }
    if (bold) line.bold += (line.bold === '' ? '' : ' ') + word;
    else line.plain += (used === 0 ? '' : ' ') + word;
    used += (used > 0 ? space : 0) + w;
  }
  if (used > 0) lines.push(line);
  return lines;
}

/** The height that is left to a drawing on a page of `page_mm` when its head and white are taken off, points. */
export function heightLeft(sheet: Headed, page_mm: number, options: FigureOptions): number {
  const top = options.journal === true ? MARGIN : headOf(sheet, innerWidth(sheet.width, options)).bottom + 4;
  // Rounded up to a whole point when it is made.
  return Math.floor(page_mm * MM) - top - MARGIN;
}

/** Makes the figure: `children` is drawn in points from (0, 0), `innerWidth` wide and `sheet.height` high. */
export function drawn(sheet: Sheet, children: ReactNode, options: FigureOptions = {}): Figure {
  const width_mm = paperWidth(sheet.width, options);
  const width = width_mm * MM;
  const inner = innerWidth(sheet.width, options);
  const journal = options.journal === true;
  const ink = inksFor(options);
  const head = headOf(sheet, inner);
  const top = journal ? MARGIN : head.bottom + 4;
  const caption =
    journal || options.caption === false
      ? []
      : captionLines(
          options.label === undefined ? sheet.caption.head : `${options.label}. ${sheet.caption.head}`,
          sheet.caption.text,
          inner,
        );
  const captionY = top + sheet.height + 9;
  const height = Math.ceil(
    caption.length === 0
      ? top + sheet.height + MARGIN
      : captionY + caption.length * CAPTION_LEADING + MARGIN - 2,
  );
  const height_mm = r2(height / MM);
  const numbers = options.decimals === 'comma' ? withDecimalComma : (text: string): string => text;
  // What warns is on the drawing's head, or first in the caption that is printed with it.
  const first = journal ? sheet.warnings.filter(({ kind }) => kind !== 'narrow') : [];
  const spoken = numbers(
    [...first.map(({ text }) => `${text}.`), sheet.caption.head, sheet.caption.text].join(' ').trim(),
  );
  const svg = renderToStaticMarkup(
    <InkContext value={ink}>
      <svg
        xmlns="http://www.w3.org/2000/svg"
        width={`${width_mm}mm`}
        height={`${height_mm}mm`}
        viewBox={`0 0 ${r2(width)} ${height}`}
        fontFamily={journal ? PLAIN_ZERO_FAMILY : TEXT_FAMILY}
        fontSize={SIZE.text}
        style={{ fontVariantNumeric: 'tabular-nums' }}
        role="img"
        aria-label={sheet.title}
      >
        <desc>{spoken}</desc>
        <rect width={r2(width)} height={height} fill={ink.paper} />
        <g transform={`translate(${MARGIN} 0)`}>
          {journal ? null : <Head head={head} inner={inner} />}
          <g transform={`translate(0 ${r2(top)})`}>{children}</g>
          {caption.map((line, i) => (
            <Text
              key={line.bold + line.plain}
              x={0}
              y={captionY + i * CAPTION_LEADING}
              size={SIZE.caption}
              face="title"
            >
              {line.bold === '' ? null : <Span weight={600}>{line.bold}</Span>}
              {line.plain}
            </Text>
          ))}
        </g>
      </svg>
    </InkContext>,
  );
  return {
    name: sheet.name,
    title: sheet.title,
    svg: svg.replace(/(?<=>)[^<]+/g, numbers),
    width_mm,
    height_mm,
    caption: spoken,
    warnings: sheet.warnings.map((w) => w.text),
  };
}

/** Where title, notes and warnings stand, points. */
function headOf(sheet: Headed, inner: number) {
  const titleLines = wrapped(sheet.title, inner, { face: 'title', weight: 600, size: SIZE.title });
  const noteWidth = Math.max(0, ...sheet.notes.map((note) => textWidth(note)));
  const titleWidth = textWidth(titleLines.at(-1) ?? '', { face: 'title', weight: 600, size: SIZE.title });
  // Notes stand beside the title where there is room, else under the rule.
  const beside = titleLines.length === 1 && titleWidth + noteWidth + 12 < inner;
  const ruleY = MARGIN + titleLines.length * 16 + 1.5;
  const notes = beside
    ? sheet.notes.map((text, i) => ({ text, y: ruleY - 4 - (sheet.notes.length - 1 - i) * 9 }))
    : sheet.notes.flatMap((note) => wrapped(note, inner)).map((text, i) => ({ text, y: ruleY + 10 + i * 9 }));
  let y = ruleY + 3;
  if (!beside) y += notes.length * 9 + (notes.length > 0 ? 1 : 0);
  const warnings = sheet.warnings.map((warning) => {
    const lines = wrapped(warning.text, inner - 11, { weight: 600 });
    const place = { warning, lines, y: y + 9 };
    y += lines.length * 9 + 2;
    return place;
  });
  return { titleLines, beside, ruleY, notes, warnings, bottom: y };
}

function Head({ head, inner }: { head: ReturnType<typeof headOf>; inner: number }) {
  const ink = useInk();
  const { titleLines, beside, ruleY, notes, warnings } = head;
  return (
    <>
      {titleLines.map((line, i) => (
        <Text key={line} x={0} y={MARGIN + 11.5 + i * 16} size={SIZE.title} weight={600} face="title">
          {line}
        </Text>
      ))}
      {notes.map(({ text, y }) => (
        <Text key={text} x={beside ? inner : 0} y={y} anchor={beside ? 'end' : 'start'} voice="ink2">
          {text}
        </Text>
      ))}
      <path d={horizontal(0, inner, ruleY)} stroke={ink.ink} strokeWidth={LINE.page} />
      {warnings.map(({ warning, lines, y }) => (
        <g key={warning.text}>
          <WarningMark kind={warning.kind} x={4} y={y} />
          {lines.map((line, j) => (
            <Text
              key={line}
              x={11}
              y={y + j * 9}
              weight={600}
              voice={warning.kind === 'assumed' ? 'ink2' : 'caution'}
            >
              {line}
            </Text>
          ))}
        </g>
      ))}
    </>
  );
}

function WarningMark({ kind, x, y }: { kind: Warning['kind']; x: number; y: number }) {
  if (kind === 'not_converged') return <NotConvergedMark x={x} y={y + 0.5} />;
  if (kind === 'assumed') return <AssumedMark x={x} y={y - 2.4} />;
  return <CautionMark x={x} y={y} />;
}

/** A name fit for a file and for ids in the drawing. */
export const plainName = (text: string): string =>
  text.replace(/[^A-Za-z0-9]+/g, '-').replace(/^-+|-+$/g, '') || 'unnamed';
