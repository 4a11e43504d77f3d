/** The drawing of the printed figure at the screen's size, with a line that reads all holes at one age. */
import { type LineThroughTime, type Results, traceId } from '@stillstand/campaign/results';
import { INKS, InkContext, LINE, SIZE, TEXT_FAMILY, vertical, ZOOM } from '@stillstand/output/drawing';
import { EnvironmentsDrawing, environmentsLayout } from '@stillstand/output/figures';
import { edgeAt, standingAt, years } from '@stillstand/output/words';
import { useMemo, useState } from 'react';
import { counted, printed, signed, Traced, useWidth } from '../../../parts/index.ts';
import { useTheme } from '../../../shell/index.ts';
import { ReadSlider } from '../read-slider.tsx';
import { levelAt } from './level-at.ts';

/** Narrower, labels run into each other, points: the drawing is pushed aside. */
const LEAST = 160;
/** Ages are read by so many years. */
const STEP = 10;

export function Picture(props: { results: Results; line: LineThroughTime }) {
  const [box, width] = useWidth(0);
  return (
    <div ref={box} className="through-picture">
      {width === 0 ? null : <Sized {...props} width={width} />}
    </div>
  );
}

function Sized({ results, line, width }: { results: Results; line: LineThroughTime; width: number }) {
  const { theme } = useTheme();
  const points = Math.max(LEAST, width / ZOOM);
  const layout = useMemo(() => environmentsLayout(results, line, { width: points }), [results, line, points]);
  const { time, rows, height, staff_y } = layout;
  const [chosen, setChosen] = useState<number | null>(null);
  const rounded = (age: number): number =>
    Math.max(time.to, Math.min(time.from, STEP * Math.round(age / STEP)));
  const at = chosen === null ? null : rounded(chosen);
  const choose = (clientX: number, svg: SVGSVGElement): void => {
    const x = (clientX - svg.getBoundingClientRect().left) / ZOOM;
    setChosen(rounded(time.from + (x - time(time.from)) / time.k));
  };
  const isOnAxis = (clientY: number, svg: SVGSVGElement): boolean =>
    (clientY - svg.getBoundingClientRect().top) / ZOOM <= staff_y.lower + 12;
  return (
    <>
      <div className="read-line">
        <ReadSlider
          words="Read at age"
          title="Age at which all holes are read, older to the left"
          // Older at the left, as on the drawing.
          dir="rtl"
          min={Math.ceil(time.to / STEP) * STEP}
          max={Math.floor(time.from / STEP) * STEP}
          step={STEP}
          value={at ?? Math.round((time.from + time.to) / 2 / STEP) * STEP}
          aria-valuetext={at === null ? 'not chosen' : `${years(at)} cal BP`}
          onChange={({ target }) => setChosen(Number(target.value))}
        />
        {at === null ? (
          <p className="quiet">Press in the drawing to read all holes at one age.</p>
        ) : (
          <Reading
            results={results}
            line={line}
            holes={rows.map(({ bands }) => bands.hole)}
            age_cal_bp={at}
          />
        )}
      </div>
      <svg
        viewBox={`0 0 ${points} ${height}`}
        width={points * ZOOM}
        height={height * ZOOM}
        fontFamily={TEXT_FAMILY}
        fontSize={SIZE.text}
        role="img"
        aria-label={`Environments through time of ${counted(rows.length, 'hole')}, from ${years(time.from)} cal BP; the slider reads them at one age`}
        onPointerDown={({ clientX, clientY, currentTarget, pointerId }) => {
          if (!isOnAxis(clientY, currentTarget)) return;
          currentTarget.setPointerCapture(pointerId);
          choose(clientX, currentTarget);
        }}
        onPointerMove={({ clientX, currentTarget, pointerId }) => {
          if (currentTarget.hasPointerCapture(pointerId)) choose(clientX, currentTarget);
        }}
      >
        <InkContext value={INKS[theme]}>
          <EnvironmentsDrawing layout={layout} id="through" />
          {at === null ? null : (
            <path
              id="through-read"
              d={vertical(time(at), staff_y.upper, staff_y.lower)}
              stroke={INKS[theme].ink}
              strokeWidth={LINE.page}
            />
          )}
        </InkContext>
      </svg>
    </>
  );
}

function Reading({
  results,
  line,
  holes,
  age_cal_bp,
}: {
  results: Results;
  line: LineThroughTime;
  holes: readonly string[];
  age_cal_bp: number;
}) {
  const level = levelAt(results, age_cal_bp);
  return (
    <div className="read-values" role="status">
      <p>
        <b>{years(age_cal_bp)} cal BP</b>
      </p>
      <dl>
        {holes.map((hole) => (
          <div key={hole}>
            <dt>{hole}</dt>
            <dd>
              <Traced id={traceId.environments(hole)}>
                {standingAt(results.environments.find((each) => each.hole === hole)!, age_cal_bp)}
              </Traced>
            </dd>
          </div>
        ))}
        {line.edge === null ? null : (
          <div>
            <dt>edge</dt>
            <dd>
              <Traced id={traceId.lineThroughTime(line.line)}>{edgeAt(line, age_cal_bp)}</Traced>
            </dd>
          </div>
        )}
        {level === null ? null : (
          <div>
            <dt>sea level</dt>
            <dd>
              {signed(level.median, 1)} m (95 %: {signed(level.lower95, 1)} to {signed(level.upper95, 1)} m)
            </dd>
          </div>
        )}
      </dl>
      <p className="quiet">Probabilities in brackets; less than {printed(0.05, 2)} is not listed.</p>
    </div>
  );
}
