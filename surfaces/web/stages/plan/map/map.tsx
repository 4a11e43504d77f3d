/** The map of the campaign: the drawing of the printed figure at the screen's size, with holes to press in it. */
import { isGivenUp } from '@stillstand/campaign/holes';
import { INKS, InkContext, SIZE, TEXT_FAMILY, ZOOM } from '@stillstand/output/drawing';
import { CampaignMap, type MapLayout, type Mapped, mapLayout } from '@stillstand/output/figures';
import type { MapShapes } from '@stillstand/output/shapes';
import { type Position, sectionThrough } from '@stillstand/science/survey';
import { memo, useMemo } from 'react';
import { useWidth } from '../../../parts/index.ts';
import { useTheme } from '../../../shell/index.ts';
import './map.css';

/** White about the drawing, for the strokes of its frame, points. */
const EDGE = 1;

export interface MappedHole {
  row_id: string;
  hole: string;
  state: string | null;
  place: Position;
}

export interface MappedSite {
  row_id: string;
  site: string;
  place: Position;
}

interface MapProps {
  holes: readonly MappedHole[];
  /** Shown until a hole has its place. */
  sites: readonly MappedSite[];
  shapes: MapShapes;
  chosen: string | null;
  onChoose: (row_id: string) => void;
}

export function PlanMap(props: MapProps) {
  const [frame, width] = useWidth(420);
  return props.holes.length + props.sites.length === 0 ? (
    <div className="map-empty">
      <p>The map is drawn as soon as a hole or site has its latitude and longitude.</p>
    </div>
  ) : (
    <div ref={frame} className="map-frame">
      <Sized {...props} width={width} />
    </div>
  );
}

function Sized({ holes, sites, shapes, chosen, onChoose, width }: MapProps & { width: number }) {
  const { theme } = useTheme();
  const height = Math.max(260, Math.min(500, Math.round(width * 0.84)));
  const size = { width: width / ZOOM - 2 * EDGE, height: height / ZOOM - EDGE, withLine: true };
  // By what they say: rows are new ones with every edit.
  const said = JSON.stringify([holes, sites]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: `said` is of holes and sites, `size` of width and height.
  const map = useMemo(() => mapLayout(marksOf(holes, sites), size, shapes), [said, shapes, width, height]);
  return (
    // biome-ignore lint/a11y/useSemanticElements: a drawing with holes to press in it
    <svg
      className="map"
      viewBox={`${-EDGE} ${-EDGE} ${width / ZOOM} ${height / ZOOM}`}
      width={width}
      height={height}
      fontFamily={TEXT_FAMILY}
      fontSize={SIZE.text}
      role="group"
      aria-label={
        holes.length > 0
          ? `Map of ${holes.length} holes: ${holes.map((h) => h.hole).join(', ')}`
          : `Map of ${sites.map((s) => s.site).join(', ')}; no hole has its place yet`
      }
    >
      <g>
        <InkContext value={INKS[theme]}>
          <Drawing map={map} />
        </InkContext>
      </g>
      {map.holes.map(({ hole, x, y, name }) => {
        const state = holes.find(({ row_id }) => row_id === hole.row_id)?.state ?? null;
        return hole.kind === 'site' ? null : (
          // biome-ignore lint/a11y/useSemanticElements: a button cannot be inside a drawing
          <g
            key={hole.row_id}
            className={hole.row_id === chosen ? 'hole chosen' : 'hole'}
            role="button"
            tabIndex={0}
            aria-label={`Hole ${hole.label}${state === null ? '' : `, ${state}`}`}
            onClick={() => onChoose(hole.row_id)}
            onKeyDown={(event) => {
              if (event.key !== 'Enter' && event.key !== ' ') return;
              // Else the same press would close the dialog that it opens.
              event.preventDefault();
              onChoose(hole.row_id);
            }}
          >
            <circle className="touch" cx={x} cy={y} r={24 / ZOOM} />
            {hole.row_id === chosen ? <circle className="about" cx={x} cy={y} r={10 / ZOOM} /> : null}
            {name === null ? <title>{hole.label}</title> : null}
          </g>
        );
      })}
    </svg>
  );
}

const Drawing = memo(function Drawing({ map }: { map: MapLayout }) {
  return <CampaignMap map={map} id="plan" />;
});

function marksOf(holes: readonly MappedHole[], sites: readonly MappedSite[]): Mapped[] {
  if (holes.length === 0)
    return sites.map(({ row_id, site, place }) => ({
      ...place,
      row_id,
      label: site,
      kind: 'site',
      section_m: null,
    }));
  const along = sectionThrough(holes.map(({ place }) => place));
  return holes.map(({ row_id, hole, state, place }, i) => ({
    ...place,
    row_id,
    label: hole,
    kind: isGivenUp(state) ? 'given_up' : state === 'planned' ? 'planned' : 'drilled',
    section_m: along[i]?.along_m ?? null,
  }));
}
