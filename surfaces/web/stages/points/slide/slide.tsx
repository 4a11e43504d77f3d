/**
 * How the claim comes about, as a slide rule: at the left the tide, of today or of then about today's mean level; at the right the ground, slid along it
 * until the sample stands where its kind forms. Against today's mean level the ground's staff then reads the sea of then.
 */
import type { PointResult } from '@stillstand/campaign/results';
import {
  INKS,
  InkContext,
  LINE,
  Lozenge,
  placeAlong,
  SIZE,
  scale,
  staffStep,
  TEXT_FAMILY,
  Text,
  textWidth,
  UprightStaff,
  useInk,
  ZOOM,
} from '@stillstand/output/drawing';
import type { SiteTideLevel } from '@stillstand/science/points';
import type { Claim, Meaning } from '../../../claim/index.ts';
import { decimalsFor, printed, signed, useWidth } from '../../../parts/index.ts';
import { useTheme } from '../../../shell/index.ts';
import { Band } from './band.tsx';
import { SeaThen } from './sea-then.tsx';

const HEIGHT = 264;
const TOP = 20;
const BOTTOM = 18;

export function Slide({
  point,
  claim,
  meaning,
  tide,
  site,
}: {
  point: PointResult;
  claim: Claim;
  meaning: Meaning;
  tide: readonly SiteTideLevel[];
  site: string | null;
}) {
  const { theme } = useTheme();
  const [box, width] = useWidth(480);
  const points = Math.max(170, width / ZOOM);
  return (
    <div ref={box} className="slide">
      <svg
        viewBox={`0 0 ${points} ${HEIGHT}`}
        width={points * ZOOM}
        height={HEIGHT * ZOOM}
        fontFamily={TEXT_FAMILY}
        fontSize={SIZE.text}
        role="img"
        aria-label={inWords(point, claim, meaning)}
      >
        <InkContext value={INKS[theme]}>
          <Staffs {...{ point, claim, meaning, tide, site }} width={points} />
        </InkContext>
      </svg>
    </div>
  );
}

function inWords(point: PointResult, claim: Claim, meaning: Meaning): string {
  if (!claim.ok) return `No claim: expected ${claim.expected}`;
  const at = `Sample at ${signed(point.elevation_m, 2)} metres`;
  if (claim.kind === 'index') {
    return `${at}; its kind forms between ${meaning.lower} and ${meaning.upper}, around ${signed(claim.reference_water_level_m, 2)} metres ${point.tidal_range === null ? 'today' : `with the tidal range of its time, ${printed(point.tidal_range.factor, 2)} of today’s`}; so the sea stood at ${signed(claim.rsl_m, 2)} metres.`;
  }
  return claim.kind === 'terrestrial'
    ? `${at}; its kind forms above ${meaning.lower}; so the sea was below ${signed(claim.rsl_m, 2)} metres.`
    : `${at}; its kind forms below ${meaning.upper}; so the sea was above ${signed(claim.rsl_m, 2)} metres.`;
}

function Staffs({
  point,
  claim,
  meaning,
  tide,
  site,
  width,
}: {
  point: PointResult;
  claim: Claim;
  meaning: Meaning;
  tide: readonly SiteTideLevel[];
  site: string | null;
  width: number;
}) {
  const ink = useInk();
  const levels = [...tide].sort((a, b) => b.elevation_m - a.elevation_m);
  const spread = claim.ok ? 2 * claim.sigma_m : 0;
  const ends = claim.ok && claim.indicative_range_m !== null ? claim.indicative_range_m / 2 : 0;
  const middle = claim.ok ? claim.reference_water_level_m : 0;
  const all = [...levels.map((l) => l.elevation_m), spread, -spread, middle + ends, middle - ends, 0];
  const high = Math.max(...all);
  const low = Math.min(...all);
  const pad = Math.max(0.12, 0.06 * (high - low));
  const y = scale(low - pad, high + pad, HEIGHT - BOTTOM, TOP);
  const left = Math.round(width * 0.36);
  const right = Math.round(width * 0.7);
  const step = staffStep(y.k, 8, 20);
  const names = placeAlong(
    levels.map((l) => ({ at: y(l.elevation_m), size: 8.4 })),
    TOP - 6,
    HEIGHT - BOTTOM + 6,
  );
  const then = claim.ok ? claim.rsl_m : null;
  const sampleWords = `sample ${signed(point.elevation_m, 2)}`;
  const decimals = decimalsFor(claim.ok ? 2 * claim.sigma_m : null, 2);
  return (
    <g>
      <Text x={left + 4} y={7} anchor="end" weight={600}>
        {tideWords(point, site, left + 4)}
      </Text>
      <Text x={right} y={7} weight={600}>
        the ground, m
      </Text>
      {claim.ok ? (
        <Band
          {...{ claim, meaning, y }}
          from={left + 5}
          to={right}
          high={TOP - 8}
          low={HEIGHT - BOTTOM + 8}
        />
      ) : null}
      <UprightStaff x={left} scale={y} low={y.from} high={y.to} sign side="unlabelled" {...step} />
      {levels.map((level, i) => {
        const at = y(level.elevation_m);
        const named = level.level === tideName(meaning.lower) || level.level === tideName(meaning.upper);
        return (
          <g key={level.level}>
            <path
              d={`M${left} ${at.toFixed(2)}H${left - 3}L${left - 8} ${names[i]!.toFixed(2)}H${left - 10}`}
              stroke={ink.sea}
              strokeWidth={named ? LINE.bold : LINE.fine}
              fill="none"
            />
            <Text x={left - 12} y={names[i]! + 2.5} anchor="end" weight={named ? 600 : 400} voice="sea">
              {level.level} {signed(level.elevation_m, 2)}
            </Text>
          </g>
        );
      })}
      {!claim.ok || then === null ? null : (
        <>
          <GroundStaff x={right} y={y} offset_m={then} />
          <path
            d={`M${left + 4} ${y(0)}H${right}`}
            stroke={ink.sea}
            strokeWidth={LINE.edge}
            strokeDasharray="3.5 2"
            fill="none"
          />
          <SeaThen point={point} claim={claim} y={y} from={left + 5} to={right} decimals={decimals} />
          <Lozenge x={right + 2} y={y(point.elevation_m - then)} filled />
          <Text
            x={Math.min(width, right + 26 + textWidth(sampleWords))}
            // Where there is no room after the figures of the staff, above their line.
            y={y(point.elevation_m - then) + (right + 26 + textWidth(sampleWords) > width ? -4.4 : 2.4)}
            anchor="end"
            halo
          >
            {sampleWords}
          </Text>
        </>
      )}
    </g>
  );
}

/** What the left staff is, its site named where there is room for it; the error budget names it too. */
function tideWords(point: PointResult, site: string | null, room: number): string {
  const when = point.tidal_range === null ? 'today' : `then, range × ${printed(point.tidal_range.factor, 2)}`;
  const whole = site === null ? `the tide ${when}` : `the tide at ${site} ${when}`;
  return textWidth(whole, { weight: 600 }) <= room ? whole : `the tide ${when}`;
}

const tideName = (word: string): string => /^[a-z]+/i.exec(word.trim())?.[0].toUpperCase() ?? '';

/** The ground's staff, read at the right: its value is today's height plus the sea level of then. */
function GroundStaff({ x, y, offset_m }: { x: number; y: ReturnType<typeof scale>; offset_m: number }) {
  const ground = Object.assign((value: number) => y(value - offset_m), {
    from: y.from + offset_m,
    to: y.to + offset_m,
    k: y.k,
  });
  return (
    <UprightStaff
      x={x}
      scale={ground}
      low={ground.from}
      high={ground.to}
      sign
      side="right"
      {...staffStep(y.k, 8, 20)}
    />
  );
}
