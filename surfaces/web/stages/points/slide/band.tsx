/** Where the deposit forms: between its two levels, or above or below one. */
import { LINE, type scale, Text, textWidth, useInk } from '@stillstand/output/drawing';
import type { Made, Meaning } from '../../../claim/index.ts';

export function Band({
  claim,
  meaning,
  y,
  from,
  to,
  high,
  low,
}: {
  claim: Made;
  meaning: Meaning;
  y: ReturnType<typeof scale>;
  from: number;
  to: number;
  /** Where a band that is open above or below ends. */
  high: number;
  low: number;
}) {
  const ink = useInk();
  const middle = claim.reference_water_level_m;
  const half = (claim.indicative_range_m ?? 0) / 2;
  const top = claim.kind === 'terrestrial' ? high : y(middle + half);
  const bottom = claim.kind === 'marine' ? low : y(middle - half);
  const where =
    claim.kind === 'index'
      ? `${meaning.lower} to ${meaning.upper}`
      : claim.kind === 'terrestrial'
        ? `above ${meaning.lower}`
        : `below ${meaning.upper}`;
  const whole = `forms ${claim.kind === 'index' ? 'from ' : ''}${where}`;
  const words = textWidth(whole) < to - from - 4 ? whole : where;
  const tab = 7;
  return (
    <g>
      <path d={`M${from} ${top}H${to}V${bottom}H${from}Z`} fill={ink.seaWash} />
      <path
        d={
          claim.kind === 'index'
            ? `M${from + tab} ${top}H${from}V${bottom}H${from + tab}M${to - tab} ${top}H${to}V${bottom}H${to - tab}`
            : claim.kind === 'terrestrial'
              ? `M${from} ${bottom}H${to}`
              : `M${from} ${top}H${to}`
        }
        stroke={ink.ink}
        strokeWidth={LINE.bold}
        fill="none"
      />
      <Text
        x={(from + to) / 2}
        y={claim.kind === 'marine' ? top + 8.5 : claim.kind === 'terrestrial' ? bottom - 3.4 : top - 3}
        anchor="middle"
        voice="ink2"
        halo
      >
        {words}
      </Text>
    </g>
  );
}
