/** The rate through time, and its means over intervals as bars. */
import {
  box,
  DASHED,
  horizontal,
  LINE,
  multiples,
  NotConvergedMark,
  Ruling,
  Span,
  staffStep,
  Text,
  UprightStaff,
  useInk,
  vertical,
} from '@stillstand/output/drawing';
import type { CurveResult } from '@stillstand/science/curve';
import { Bands } from './bands.tsx';
import { Chosen, type Interval, MARK_ROOM, type PanelProps, timeLines } from './panel.tsx';
import { type LabelledBar, type RateBar, rateLabels } from './rate-labels.ts';

export function RatePanel({
  panels: p,
  ages,
  curve,
  converged,
  step,
  id,
  chosen,
  bars: wanted,
  letter,
}: PanelProps & {
  curve: CurveResult;
  chosen: Interval | null;
  bars: readonly RateBar[];
  letter: string | null;
}) {
  const ink = useInk();
  const { rate, rateFrame: frame } = p;
  if (rate === null || frame === null || p.rateAxis === null) return null;
  const { scale: inUnit, name } = p.rateAxis;
  const rates = staffStep(inUnit.k, 9, 11);
  const labelled = rateLabels(p, wanted, converged);
  return (
    <g>
      <Text x={0} y={frame.y1 - 7} weight={600}>
        {letter === null ? '' : `(${letter}) `}
        {name}
      </Text>
      <Chosen panels={p} frame={frame} chosen={chosen} />
      <Ruling {...timeLines(p, step, frame)} />
      <Ruling
        at={multiples(inUnit.from, inUnit.to, rates.step * rates.every)}
        d={(value) => horizontal(frame.x1, frame.x2, inUnit(value))}
      />
      <clipPath id={`${id}-rate`}>
        <path d={box(frame.x1, frame.y1, frame.x2, frame.y2)} />
      </clipPath>
      <g clipPath={`url(#${id}-rate)`}>
        {ages === null ? null : (
          <Bands
            band={curve.rate_mm_yr}
            ages={ages}
            y={rate}
            frame={frame}
            draws={curve.draws.rate_mm_yr}
            converged={converged}
            id={`${id}-rate-hatching`}
          />
        )}
        <path
          d={horizontal(frame.x1, frame.x2, rate(0))}
          stroke={ink.ink}
          strokeWidth={LINE.edge}
          {...DASHED}
          fill="none"
        />
        {labelled.map(({ bar, mark }) => (
          <g key={`${bar.older_cal_bp}-${bar.younger_cal_bp}`} stroke={ink.ink} fill="none">
            <path d={horizontal(mark.x1, mark.x2, rate(bar.rate_mm_yr.mean))} strokeWidth={1.5} />
            <path
              d={`${vertical((mark.x1 + mark.x2) / 2, mark.y1, mark.y2)}${horizontal((mark.x1 + mark.x2) / 2 - 2, (mark.x1 + mark.x2) / 2 + 2, mark.y1)}${horizontal((mark.x1 + mark.x2) / 2 - 2, (mark.x1 + mark.x2) / 2 + 2, mark.y2)}`}
              strokeWidth={LINE.edge}
            />
          </g>
        ))}
      </g>
      {labelled.map((label) => (
        <RateLabel
          key={`${label.bar.older_cal_bp}-${label.bar.younger_cal_bp}`}
          label={label}
          converged={converged}
        />
      ))}
      <path
        d={box(frame.x1, frame.y1, frame.x2, frame.y2)}
        fill="none"
        stroke={ink.ink}
        strokeWidth={LINE.fine}
      />
      <UprightStaff x={frame.x1 - 4} scale={inUnit} low={inUnit.from} high={inUnit.to} sign {...rates} />
    </g>
  );
}

function RateLabel({ label, converged }: { label: LabelledBar; converged: boolean }) {
  const { place, value, error, lines } = label;
  if (place === null) return null;
  const x = place.x1 + (converged ? 0 : MARK_ROOM);
  const light = (
    <Span weight={300} voice="ink2">
      {lines === 1 ? ` ${error}` : error}
    </Span>
  );
  return (
    <g>
      {converged ? null : <NotConvergedMark x={place.x1 + 4} y={place.y1 + 5} />}
      <Text x={x} y={place.y1 + 6.2} halo>
        <Span weight={600}>{value}</Span>
        {lines === 1 ? light : null}
      </Text>
      {lines === 1 ? null : (
        <Text x={x} y={place.y2 - 1.8} halo>
          {light}
        </Text>
      )}
    </g>
  );
}
