/** Labels as a page that a browser prints at their true size; the same labels give the same bytes. */

import { textWidth } from '@stillstand/output/drawing';
import { pageHtml } from '@stillstand/output/page';
import { Code, codeBits } from './code.tsx';
import type { Label } from './labels-of.ts';
import type { LabelSheet } from './sheets.ts';

export interface Printed {
  html: string;
  pages: number;
  /** Names of labels whose code is too fine for a camera at this size, or whose name does not fit: print them larger. */
  tooSmall: string[];
}

/** Around what is printed; printers are off by a millimetre. */
const MARGIN_MM = 1.5;
/** A dot of a code that a hand-held camera still reads off a wet label. */
const LEAST_DOT_MM = 0.33;
const MM_PER_PT = 25.4 / 72;
/** Sizes of the name, and of the lines, points. */
const NAME_PT = { most: 22, least: 9 };
const LINE_PT = 7.5;
const LEADING = 1.2;
/** Letters of a common typeface of screens, by those of the figures (measured: 1.24 at most). */
const OTHER_FACE = 1.3;

export interface PageOptions {
  /** Places of the first sheet that are used already. */
  skip?: number;
  /** Typefaces of the figures as a style; without it the reader's own typeface stands in, and less fits. */
  fontCss?: string;
}

export function labelsHtml(
  labels: readonly Label[],
  sheet: LabelSheet,
  { skip = 0, fontCss = '' }: PageOptions = {},
): Printed {
  const each = sheet.columns * sheet.rows;
  const first = Math.max(0, Math.min(each - 1, Math.floor(skip)));
  const places = labels.map((label, i) => ({ label, place: first + i }));
  const pages = labels.length === 0 ? 0 : Math.ceil((first + labels.length) / each);
  const drawn = places.map(({ label, place }) => ({
    place,
    label,
    of: laidOut(label, sheet, fontCss === '' ? OTHER_FACE : 1),
  }));
  const html = pageHtml(
    { title: 'Labels', style: fontCss + styleOf(sheet), holds: ['font'], isTrueSize: true },
    Array.from({ length: pages }, (_, page) => page).map((page) => (
      <section key={page}>
        {drawn
          .filter(({ place }) => Math.floor(place / each) === page)
          .map(({ place, label, of }) => (
            <article
              key={place}
              style={{
                left: `${sheet.left_mm + sheet.pitch.x_mm * (place % sheet.columns)}mm`,
                top: `${sheet.top_mm + sheet.pitch.y_mm * Math.floor((place % each) / sheet.columns)}mm`,
              }}
            >
              <Code {...of.code} words={label.code} />
              <div style={{ width: `${of.text_mm}mm` }}>
                <b style={{ fontSize: `${of.name_pt}pt`, whiteSpace: of.isOneLine ? 'nowrap' : undefined }}>
                  {label.name}
                </b>
                {of.lines.map((line) => (
                  <p key={line}>{line}</p>
                ))}
              </div>
            </article>
          ))}
      </section>
    )),
  );
  return {
    html,
    pages,
    tooSmall: drawn.filter(({ of }) => of.isTooSmall).map(({ label }) => label.name),
  };
}

interface LaidOut {
  code: { bits: boolean[][]; side_mm: number };
  text_mm: number;
  name_pt: number;
  isOneLine: boolean;
  lines: string[];
  isTooSmall: boolean;
}

function laidOut(label: Label, { label: { width_mm, height_mm } }: LabelSheet, wider: number): LaidOut {
  const bits = codeBits(label.code);
  const inner_mm = height_mm - 2 * MARGIN_MM;
  const side_mm = Math.min(inner_mm, 0.45 * width_mm, 28);
  const text_mm = width_mm - 3 * MARGIN_MM - side_mm;
  const wide = (words: string, size: number, weight: 400 | 600): number =>
    wider * textWidth(words, { weight, size }) * MM_PER_PT;
  let name_pt = NAME_PT.most;
  while (name_pt > NAME_PT.least && wide(label.name, name_pt, 600) > text_mm) name_pt -= 0.5;
  const nameLines = Math.ceil(wide(label.name, name_pt, 600) / text_mm);
  const room = inner_mm - nameLines * name_pt * LEADING * MM_PER_PT;
  const line_mm = LINE_PT * LEADING * MM_PER_PT;
  let left = Math.floor(room / line_mm);
  const wanted = label.identifier === null ? label.lines : [label.identifier, ...label.lines];
  const lines: string[] = [];
  for (const line of wanted) {
    const takes = Math.max(1, Math.ceil(wide(line, LINE_PT, 400) / text_mm));
    if (takes > left) continue;
    left -= takes;
    lines.push(line);
  }
  const isTooSmall = side_mm / bits.length < LEAST_DOT_MM || room < 0;
  return { code: { bits, side_mm }, text_mm, name_pt, isOneLine: nameLines === 1, lines, isTooSmall };
}

const styleOf = ({ page, label }: LabelSheet): string => `
@page{size:${page.width_mm}mm ${page.height_mm}mm;margin:0}
*{box-sizing:border-box;margin:0;padding:0}
html{background:#FFFFFF;color:#000000;font:400 ${LINE_PT}pt/${LEADING} "Atkinson Hyperlegible Next","Atkinson Hyperlegible Next Variable",sans-serif}
section{position:relative;width:${page.width_mm}mm;height:${page.height_mm}mm;overflow:hidden;break-after:page}
section:last-child{break-after:auto}
article{position:absolute;width:${label.width_mm}mm;height:${label.height_mm}mm;padding:${MARGIN_MM}mm;display:flex;gap:${MARGIN_MM}mm;align-items:flex-start;overflow:hidden}
article svg{flex:none}
article div{overflow-wrap:anywhere}
article b{display:block;font-weight:600;line-height:${LEADING}}
@media screen{body{background:#DDD6C6;padding:4mm 0 1mm}section{background:#FFFFFF;margin:0 auto 3mm}}
`;
