/**
 * How a length along everything that entered becomes a depth in the ground: our model through the soundings, two
 * simpler corrections beside it, and where each would put a layer.
 */
import type { HoleResult, Results, UnitResult } from '@stillstand/campaign/results';
import { scale } from '@stillstand/output/drawing';
import { counted, decimalsDrawn, printed } from '@stillstand/output/words';
import { assumedHole } from './chronology.ts';
import { DepthStaff, FIRST_LANE, TRACK_HEAD } from './drilling/track.tsx';
import {
  drawn,
  type Figure,
  type FigureOptions,
  innerWidth,
  narrowness,
  plainName,
  type Warning,
} from './figure.tsx';
import { holeOf, lostWarning } from './hole-of.ts';
import { Curves } from './registration/curves.tsx';
import { Layers } from './registration/layers.tsx';
import { type Model, models, REJECTS_SD } from './registration/models.ts';
import { ModelTable, tableHeight } from './registration/table.tsx';

export interface RegistrationOptions extends FigureOptions {
  /** Unit whose fate is followed: its label, or its `row_id`. If not given, the dated one that uniform moves most. */
  layer?: string;
}

/** Room for by-passed ground between the staff and the curves. */
const BY_PASSED = 12;
/** Of the curves, points; a metre is drawn so long where it may. */
const LEAST_HEIGHT = 220;
const MOST_HEIGHT = 400;
const MOST_WIDTH = 300;
/** Least room for the curves where the layers stand next to them, and between the two. */
const LEAST_WIDTH = 130;
const COLUMNS_GAP = 34;
const PER_METRE = 30;
/** Most room for the columns of layers at the right. */
const COLUMNS_MOST = 190;
/** Least of a column, under the name of its model. */
const COLUMN_LEAST = 46;

/** Depth registration of one hole, two columns wide. RangeError for a hole or layer the results do not have. */
export function registrationFigure(
  results: Results,
  label: string,
  options: RegistrationOptions = {},
): Figure {
  const hole = holeOf(results, label, 'registrationFigure');
  const inner = innerWidth('two', options);
  const bottom = Math.max(0.1, hole.penetration_m ?? 0, ...hole.units.map((u) => u.depth_bottom_m.value));
  const known = [
    ...hole.soundings.map((s) => s.entered_m + 2 * s.sigma_m),
    ...(hole.entered_m === null ? [] : [hole.entered_m]),
    ...(hole.depth?.entered_m ?? []),
  ];
  const entered = known.length === 0 ? bottom : Math.max(0.1, ...known);
  // One scale for both, so that whole recovery is the diagonal.
  const x0 = FIRST_LANE + BY_PASSED;
  const all = models(hole);
  const columnsLeast = COLUMNS_GAP + all.length * COLUMN_LEAST + 8;
  const whole = x0 + LEAST_WIDTH + columnsLeast;
  const hasColumns = hole.units.length > 0 && inner >= whole;
  const room = inner - x0 - (hasColumns ? columnsLeast : 8);
  const k = Math.min(
    MOST_HEIGHT / bottom,
    Math.min(MOST_WIDTH, room) / entered,
    Math.max(PER_METRE, LEAST_HEIGHT / bottom),
  );
  const depth = scale(0, bottom, TRACK_HEAD, TRACK_HEAD + k * bottom);
  const across = scale(0, entered, x0, x0 + k * entered);
  const layer = chosenLayer(hole, results, options.layer);
  // The last name reaches past its column.
  const columnsEnd = inner - 8;
  const columnsX = Math.max(across(entered) + COLUMNS_GAP, columnsEnd - COLUMNS_MOST);
  const tableY = depth(bottom) + 20;

  const drawing = (
    <g>
      <DepthStaff depth={depth} />
      <Curves
        hole={hole}
        models={all}
        across={across}
        depth={depth}
        layer={layer}
        columnsX={hasColumns ? columnsX : across(entered)}
      />
      {!hasColumns ? null : (
        <Layers
          units={hole.units}
          models={all}
          layer={layer}
          depth={depth}
          x={columnsX}
          width={columnsEnd - columnsX}
        />
      )}
      <ModelTable hole={hole} models={all} layer={layer} y={tableY} width={inner} />
    </g>
  );
  return drawn(
    {
      name: `registration-${plainName(label)}`,
      width: 'two',
      title: `Depth registration, hole ${label}`,
      notes: notes(hole),
      warnings: [
        ...warnings(hole, all),
        ...(hole.units.length > 0 ? narrowness(whole, inner, 'the layers are left out') : []),
      ],
      caption: {
        head: `Entered length against penetration in hole ${label}.`,
        text: captionText(hole, all, hasColumns),
      },
      height: tableY + tableHeight(all, inner),
    },
    drawing,
    options,
  );
}

/** The layer asked for; else of the dated layers, or of all, the one uniform moves farthest from where we have it. */
function chosenLayer(hole: HoleResult, results: Results, asked: string | undefined): UnitResult | null {
  if (asked !== undefined) {
    const found = hole.units.find((u) => u.unit === asked || u.row_id === asked);
    if (found !== undefined) return found;
    throw new RangeError(
      `registrationFigure: expected a layer of ${hole.units.map((u) => u.unit).join(', ')}, found ${asked}`,
    );
  }
  const dated = results.samples.flatMap((s) =>
    s.hole === hole.hole && s.dated && s.depth_m !== null ? [s.depth_m.value] : [],
  );
  const holds = (unit: UnitResult): boolean =>
    dated.some((d) => d >= unit.depth_top_m.value && d <= unit.depth_bottom_m.value);
  const uniform = hole.alternative_models.find((rival) => rival.model === 'uniform')?.units ?? [];
  const moved = (unit: UnitResult): number => {
    const there = uniform.find((u) => u.row_id === unit.row_id);
    return there === undefined ? 0 : Math.abs(there.depth_top_m - unit.depth_top_m.value);
  };
  const among = hole.units.some(holds) ? hole.units.filter(holds) : hole.units;
  return among.reduce<UnitResult | null>(
    (best, unit) => (best === null || moved(unit) > moved(best) ? unit : best),
    null,
  );
}

function notes(hole: HoleResult): string[] {
  const { shortening, entered_m, penetration_m } = hole;
  const spread = (e: { value: number; sigma: number }, unit: string): string => {
    const decimals = decimalsDrawn(2 * e.sigma);
    return `${printed(e.value, decimals)} ±${printed(2 * e.sigma, decimals)}${unit}`;
  };
  return [
    ...(entered_m === null || penetration_m === null
      ? []
      : [
          `${printed(entered_m, 2)} m entered of ${printed(penetration_m, 2)} m; ${counted(hole.soundings.length, 'sounding')}`,
        ]),
    ...(shortening === null
      ? []
      : [
          `recovery at the ground ${spread(shortening.recovery_at_ground, '')}, loss dies away over ${spread(shortening.length_m, ' m')}`,
        ]),
  ];
}

function warnings(hole: HoleResult, all: readonly Model[]): Warning[] {
  const assumed = assumedHole(hole);
  return [
    ...lostWarning(hole),
    ...(assumed !== null || hole.depth === null || hole.soundings.length > 0
      ? []
      : [{ kind: 'assumed' as const, text: 'No sounding: the depths are from prior knowledge alone' }]),
    ...(assumed === null ? [] : [{ kind: 'assumed' as const, text: assumed }]),
    ...(all.length > 0 ? [] : [{ kind: 'caution' as const, text: 'No depth model' }]),
  ];
}

function captionText(hole: HoleResult, all: readonly Model[], hasColumns: boolean): string {
  const ours = all.some((m) => m.kind === 'decaying');
  return [
    ours ? 'Bold: median in-situ depth of each entered length, dotted its 95 % (decaying shortening).' : '',
    hole.soundings.length > 0 ? 'Dots: soundings, ±2 sd.' : '',
    'Thin diagonal: all that was driven entered.',
    hole.not_represented.length > 0 ? 'Crossed: ground that did not enter, not represented in the core.' : '',
    hole.alternative_models.length > 0
      ? `Broken lines: one factor for the whole hole (uniform), and all that is missing taken off the top; the soundings reject a model above ${REJECTS_SD} sd.`
      : '',
    hasColumns
      ? 'At right the same layers as each model would have them, one of them followed; whiskers are its 95 %.'
      : '',
  ]
    .filter((part) => part !== '')
    .join(' ');
}
