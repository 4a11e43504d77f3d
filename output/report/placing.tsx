/** Figures in their sections, numbered in the order they come. */

import type { CurveResult } from '@stillstand/science/curve';
import { createElement, Fragment, type ReactNode } from 'react';

export interface ReportFigure {
  name: string;
  svg: string;
  caption: string;
}

const PLACES = [
  'section',
  'registration',
  'column',
  'laboratory',
  'dates',
  'environments',
  'points',
  'curve',
  'sites',
  'further',
  'recovery',
  'penetration',
  'plate',
] as const;
type FigurePlace = (typeof PLACES)[number];

/** Which section a figure belongs to, by its name. */
function placeOf(name: string): FigurePlace {
  if (/^(section|fence)/.test(name)) return 'section';
  if (/^column/.test(name)) return 'column';
  if (/^(laboratory|grain-size)/.test(name)) return 'laboratory';
  if (/^registration/.test(name)) return 'registration';
  if (/^recovery/.test(name)) return 'recovery';
  if (/^penetration/.test(name)) return 'penetration';
  if (name === 'plate') return 'plate';
  if (/^(date|age|lead)/.test(name)) return 'dates';
  if (/^environments/.test(name)) return 'environments';
  if (/budget/.test(name)) return 'points';
  if (/^curve-/.test(name)) return 'sites';
  return name === 'curve' ? 'curve' : 'further';
}

/** Places whose drawings are alike, so that only the first explains how to read them. */
const ALIKE: readonly FigurePlace[] = ['registration', 'column', 'points', 'recovery', 'penetration'];

/** Hands out figures place by place, counting as it goes: call it in the order of the page. */
export function figurePlacer(figures: readonly ReportFigure[]): (place: FigurePlace) => ReactNode {
  let count = 0;
  return (place) => {
    const here = figures.filter((figure) => placeOf(figure.name) === place);
    if (here.length === 0) return null;
    const first = count + 1;
    const drawn = here.map((figure) => {
      count++;
      const like = ALIKE.includes(place) && count > first ? first : null;
      return createElement(Placed, { figure, number: count, like });
    });
    // Narrow drawings of one kind stand two abreast.
    const abreast = here.length > 1 && here.every((figure) => widthOf(figure.svg) < 100);
    return abreast
      ? createElement('div', { className: 'two-up' }, ...drawn)
      : createElement(Fragment, null, ...drawn);
  };
}

/** As many error budgets as the page draws; every point's parts stand in the table. */
const BUDGETS = 2;

/** The figures without the error budgets of points that decide little. */
export function telling(
  figures: readonly ReportFigure[],
  curve: CurveResult | null,
): readonly ReportFigure[] {
  const influence = new Map(curve?.points.map((point) => [point.id, point.influence]));
  const of = (figure: ReportFigure) => {
    for (const [id, value] of influence) if (figure.name.endsWith(`-${id}`)) return value;
    return 0;
  };
  const budgets = figures.filter((figure) => placeOf(figure.name) === 'points').sort((a, b) => of(b) - of(a));
  const left = new Set(budgets.slice(BUDGETS));
  return figures.filter((figure) => !left.has(figure));
}

function Placed({ figure, number, like }: { figure: ReportFigure; number: number; like: number | null }) {
  const { head, rest } = firstSentence(figure.caption);
  return (
    <figure>
      {/* Made by our own figures from escaped text; the page's policy forbids scripts whatever is in it. */}
      {/* biome-ignore lint/security/noDangerouslySetInnerHtml: an SVG document, inlined so that it shares the fonts */}
      <div dangerouslySetInnerHTML={{ __html: inlined(figure.svg, `f${number}-`) }} />
      <figcaption>
        <b>
          Figure {number}. {head}
        </b>{' '}
        {like === null ? rest : `Drawn as figure ${like}.`}
      </figcaption>
    </figure>
  );
}

/** Millimetres, where the SVG states them; 180 where it does not. */
function widthOf(svg: string): number {
  return Number(/<svg[^>]*\swidth="([\d.]+)mm"/.exec(svg)?.[1] ?? 180);
}

/** The SVG element alone, its ids made its own: several drawings on one page may use the same ones. */
export function inlined(svg: string, prefix: string): string {
  const start = svg.indexOf('<svg');
  if (start === -1) return '';
  return svg
    .slice(start)
    .replace(/\bid="([^"]+)"/g, `id="${prefix}$1"`)
    .replace(/url\(#([^)]+)\)/g, `url(#${prefix}$1)`)
    .replace(/\b((?:xlink:)?href)="#([^"]+)"/g, `$1="#${prefix}$2"`);
}

function firstSentence(caption: string): { head: string; rest: string } {
  const end = /[.:](?=\s)/.exec(caption);
  if (end === null) return { head: caption, rest: '' };
  return { head: caption.slice(0, end.index + 1), rest: caption.slice(end.index + 1).trim() };
}
