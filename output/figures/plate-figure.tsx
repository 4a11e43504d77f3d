/** A whole campaign on one page: where it was drilled, how much, what was found, and what the sea did. */
import type { Results } from '@stillstand/campaign/results';
import { r2, Text } from '@stillstand/output/drawing';
import type { ReactNode } from 'react';
import { CurveDrawing } from './curve/drawing.tsx';
import { curveWarnings } from './curve-figure.tsx';
import {
  drawn,
  type Figure,
  type FigureOptions,
  heightLeft,
  innerWidth,
  narrowness,
  type Warning,
} from './figure.tsx';
import { CampaignMap } from './map/map.tsx';
import { plateCaption } from './plate/caption.ts';
import { Counts } from './plate/counts.tsx';
import { HEADING, type PlateLayout, plateLayout, WHOLE_PAGE } from './plate/layout.ts';
import { PlateLegend } from './plate/legend.tsx';
import { SectionDrawing } from './section/drawing.tsx';
import { sectionNarrow, sectionWarnings } from './section-figure.tsx';

/** A page of a journal without the room of a caption, mm. Common practice, no source. */
const PAGE_MM = 240;

/**
 * Two columns wide and at most a page high; its caption is always apart. On less than 190 mm the panels stand one below
 * another, higher than a page. Of several curves that of the report is drawn.
 */
export function plateFigure(results: Results, options: FigureOptions = {}): Figure {
  const inner = innerWidth('two', options);
  // What warns does not depend on how high the panels are, and the room of the panels does on what warns.
  const { warnings } = laidOut(results, inner, 0, options);
  const head = { width: 'two', title: `${results.name}, summary plate`, notes: [], warnings } as const;
  const room = heightLeft(head, PAGE_MM, options);
  const { layout } = laidOut(results, inner, room, options);
  const isHigher = inner >= WHOLE_PAGE && layout.height > room;
  return drawn(
    {
      ...head,
      name: 'plate',
      caption: {
        head: 'Summary of the campaign.',
        text: `${plateCaption(results, layout, options)}${isHigher ? ` Higher than a page of ${PAGE_MM} mm.` : ''}`,
      },
      height: layout.height,
    },
    <Panels results={results} layout={layout} />,
    { ...options, caption: false },
  );
}

function laidOut(results: Results, inner: number, room: number, options: FigureOptions) {
  const layout = plateLayout(results, inner, room, options);
  return { layout, warnings: warningsOf(layout, inner) };
}

function warningsOf({ sea, section }: PlateLayout, inner: number): Warning[] {
  const narrow = narrowness(WHOLE_PAGE, inner, 'made for 190 mm, panels one below another');
  return [
    ...(sea === null ? [] : curveWarnings(sea.drawn.panels)),
    ...(section === null ? [] : sectionWarnings(section.drawn.layout, 'Not in the section')),
    ...(narrow.length > 0 || section === null
      ? narrow
      : sectionNarrow(section.drawn.layout, section.drawn.names, inner)),
  ];
}

function Panels({ results, layout }: { results: Results; layout: PlateLayout }) {
  const { map, counts, sea, section, legend, letters } = layout;
  return (
    <g>
      {map === null ? null : (
        <Moved {...map}>
          <Heading letter={letters.map} words="Holes" />
          <Moved x={0} y={HEADING}>
            <CampaignMap map={map.drawn} id="plate" />
          </Moved>
        </Moved>
      )}
      <Moved {...counts}>
        <Heading letter={letters.counts} words="Campaign in numbers" />
        <Moved x={0} y={HEADING}>
          <Counts layout={counts.drawn} />
        </Moved>
      </Moved>
      {sea === null ? null : (
        <Moved {...sea}>
          <CurveDrawing
            layout={sea.drawn}
            id="plate"
            named={NONE}
            letters={{ level: letters.level!, rate: letters.rate ?? '' }}
          />
        </Moved>
      )}
      {section === null ? null : (
        <Moved {...section}>
          <Heading
            letter={letters.section}
            words={`Section${map?.drawn.line == null ? '' : ' from A to B'}, elevation in m`}
          />
          <Moved x={0} y={HEADING - section.drawn.top}>
            <SectionDrawing results={results} placed={section.drawn} />
          </Moved>
        </Moved>
      )}
      <Moved {...legend}>
        <PlateLegend legend={legend.drawn} />
      </Moved>
    </g>
  );
}

/** Names of points are those of the curve's own figure. */
const NONE: ReadonlySet<string> = new Set();

function Heading({ letter, words }: { letter: string | undefined; words: string }) {
  return (
    <Text x={0} y={7} weight={600}>
      ({letter}) {words}
    </Text>
  );
}

function Moved({ x, y, children }: { x: number; y: number; children: ReactNode }) {
  return <g transform={`translate(${r2(x)} ${r2(y)})`}>{children}</g>;
}
