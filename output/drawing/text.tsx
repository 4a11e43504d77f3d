/** Text in the two faces, measured without a browser so that labels can be placed before they are drawn. */
import { Children, isValidElement, type ReactNode } from 'react';
import { ADVANCES, CHARACTERS } from './advance-widths.ts';
import { LINE, useInk } from './ink.ts';
import { line, move, r2 } from './path.ts';

/** Everything / titles and captions / what is water. */
type Face = 'text' | 'title' | 'water';
export type Weight = 300 | 400 | 600;
export type Voice = 'ink' | 'ink2' | 'ink3' | 'sea' | 'caution' | 'paper';

export const TEXT_FAMILY =
  "'Atkinson Hyperlegible Next','Atkinson Hyperlegible Next Variable',Verdana,sans-serif";
/** The same face, its zero without the slash (output/typeset/plain-zero.ts): in print an O and a 0 seldom meet. */
export const PLAIN_ZERO_FAMILY = `'Atkinson Hyperlegible Next Plain Zero',${TEXT_FAMILY}`;
const TITLE_FAMILY = "'STIX Two Text','STIX Two Text Variable','Times New Roman',serif";

/** Sizes in points: 7 pt in print is the 13 px of the screen's figures, and the least that journals take;
 * `small` is for screens alone, which draw larger. */
export const SIZE = { small: 6, text: 7, caption: 7.5, title: 14 } as const;
/** On the screen: pixels to a point of paper, so that text is 13.5 px. */
export const ZOOM = 13.5 / SIZE.text;

const PLACE = new Map([...CHARACTERS].map((character, i) => [character, i]));

type Style = { face?: Face; weight?: Weight; size?: number };

/** Width in points; unknown characters count as 0.6 em. Kerning is not counted (under 2 % of a label). */
export function textWidth(
  text: string,
  { face = 'text', weight = 400, size = SIZE.text }: Style = {},
): number {
  const row =
    face === 'text'
      ? `text${weight}`
      : face === 'water'
        ? 'water400'
        : weight === 600
          ? 'title600'
          : 'title400';
  const advances = ADVANCES[row as keyof typeof ADVANCES];
  let sum = 0;
  for (const character of text) {
    const at = PLACE.get(character);
    sum += at === undefined ? 600 : (advances[at] ?? 600);
  }
  return (sum * size) / 1000;
}

/** Broken at spaces to lines no wider than `width`; a longer word stands alone on its line. */
export function wrapped(text: string, width: number, style: Style = {}): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/)) {
    if (word === '') continue;
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && textWidth(longer, style) > width) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  if (line !== '') lines.push(line);
  return lines;
}

/** Cut with an ellipsis where it is wider than `width`. */
export function shortened(text: string, width: number, style: Style = {}): string {
  if (textWidth(text, style) <= width) return text;
  let kept = [...text];
  while (kept.length > 1 && textWidth(`${kept.join('')}…`, style) > width) kept = kept.slice(0, -1);
  return `${kept.join('').trimEnd()}…`;
}

/** The first `count` lines of a wrapped text; the last shortened where more would follow. */
export function firstLines(
  lines: readonly string[],
  count: number,
  width: number,
  style: Style = {},
): string[] {
  if (lines.length <= count) return [...lines];
  if (count <= 0) return [];
  const last = lines[count - 1] ?? '';
  return [
    ...lines.slice(0, count - 1),
    shortened(`${last} ${lines[count]}`, Math.min(width, textWidth(`${last}…`, style)), style),
  ];
}

interface TextProps {
  x: number;
  y: number;
  size?: number;
  weight?: Weight;
  face?: Face;
  voice?: Voice;
  anchor?: 'start' | 'middle' | 'end';
  /** Paper around the letters, where text stands on a drawing. */
  halo?: boolean;
  /** Struck once, as rejected things are. */
  struck?: boolean;
  children: ReactNode;
}

/** One line of text; (x, y) is its baseline. */
export function Text(props: TextProps) {
  const {
    x,
    y,
    size = SIZE.text,
    weight = 400,
    face = 'text',
    voice = 'ink',
    anchor = 'start',
    halo,
    struck,
    children,
  } = props;
  const ink = useInk();
  const text = (
    <text
      x={r2(x)}
      y={r2(y)}
      fontSize={size === SIZE.text ? undefined : size}
      fontWeight={weight === 400 ? undefined : weight}
      fontFamily={face === 'text' ? undefined : TITLE_FAMILY}
      fontStyle={face === 'water' ? 'italic' : undefined}
      textAnchor={anchor === 'start' ? undefined : anchor}
      fill={ink[voice]}
      {...(halo
        ? { stroke: ink.paper, strokeWidth: 2, strokeLinejoin: 'round' as const, paintOrder: 'stroke' }
        : {})}
    >
      {children}
    </text>
  );
  if (!struck) return text;
  const width = widthOf(children, { face, weight, size });
  const left = x - (anchor === 'end' ? width : anchor === 'middle' ? width / 2 : 0);
  // Slanting and light, so that it runs along no bar of a figure: what is rejected must still be read.
  return (
    <>
      {text}
      <path
        d={move(left - 0.8, y - size * 0.08) + line(left + width + 0.8, y - size * 0.6)}
        fill="none"
        stroke={ink.ink2}
        strokeWidth={LINE.hair}
      />
    </>
  );
}

/** Width of the children of a text: words, numbers and spans of another weight. */
function widthOf(children: ReactNode, style: Style): number {
  let sum = 0;
  for (const child of Children.toArray(children)) {
    if (typeof child === 'string' || typeof child === 'number') sum += textWidth(String(child), style);
    else if (isValidElement<Style & { children?: ReactNode }>(child)) {
      const { weight = style.weight ?? 400, size = style.size ?? SIZE.text, children: inner } = child.props;
      sum += widthOf(inner, { ...style, weight, size });
    }
  }
  return sum;
}

/** A part of a line in another weight or voice. */
export function Span({
  weight,
  voice,
  size,
  children,
}: {
  weight?: Weight;
  voice?: Voice;
  size?: number;
  children: ReactNode;
}) {
  const ink = useInk();
  return (
    <tspan fontWeight={weight} fontSize={size} fill={voice === undefined ? undefined : ink[voice]}>
      {children}
    </tspan>
  );
}
