/** Names of the lanes. */
import { LINE, Text, useInk } from '@stillstand/output/drawing';
import { type Frame, grainWidth, HEAD } from './lanes.ts';

export function Heads({
  frame,
  hasCore,
  hasSamples,
  isPush,
}: {
  frame: Frame;
  hasCore: boolean;
  hasSamples: boolean;
  isPush: boolean;
}) {
  const ink = useInk();
  const { lanes, one } = frame;
  const isWide = lanes.sampleLabel > 0;
  const head = (x: number, first: string, second: string, anchor: 'start' | 'middle' | 'end' = 'start') => (
    <g>
      <Text x={x} y={7} weight={600} anchor={anchor}>
        {first}
      </Text>
      <Text x={x} y={15.5} voice="ink2" anchor={anchor}>
        {second}
      </Text>
    </g>
  );
  const ticks = [0, 1, 2, 3, 4, 5]
    .map((grain) => `M${lanes.column + grainWidth(lanes, grain)} ${HEAD - 3}V${HEAD - 6}`)
    .join('');
  const left = lanes.photo === null || one === null ? 0 : lanes.photo[1] + 4;
  return (
    <g>
      {lanes.photo === null ? null : head(lanes.photo[0], isWide ? 'photograph' : 'photo', '')}
      {hasCore
        ? head(
            left,
            isWide ? 'core as it came up' : 'core',
            one === null ? `by ${isPush ? 'push' : 'run'}` : isWide ? `m in ${one.name}` : `m, ${one.run}`,
          )
        : null}
      {head(
        lanes.depthStaff - (isWide ? 14 : 10),
        isWide ? 'in-situ depth' : 'in situ',
        isWide ? 'm below ground' : 'm',
      )}
      {hasSamples && isWide ? head(lanes.sample - 3, 'sample', '') : null}
      {head(lanes.words[0] + (isWide ? 9 : 6), isWide ? 'sediment' : 'unit', isWide ? 'and what it was' : '')}
      <path d={ticks} stroke={ink.ink} strokeWidth={LINE.fine} />
      {isWide ? (
        <>
          <Text x={lanes.column + grainWidth(lanes, 0)} y={HEAD - 8} anchor="middle" voice="ink2">
            clay
          </Text>
          <Text x={lanes.column + lanes.gravel + 2} y={HEAD - 8} anchor="end" voice="ink2">
            gravel
          </Text>
        </>
      ) : null}
    </g>
  );
}
