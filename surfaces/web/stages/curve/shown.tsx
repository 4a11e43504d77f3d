/** The curve and what is asked of it: its drawing, the rate of the chosen interval, and what that rate rests on. */
import { type DateAccount, datingOf, withinFunds } from '@stillstand/campaign/budget';
import {
  curveLookedAt,
  curveOf,
  MAIN_CURVE,
  nameInTrace,
  type Results,
  ratesComparedOf,
  type TraceId,
  traceId,
} from '@stillstand/campaign/results';
import { datePlanOf } from '@stillstand/campaign/settings';
import type { RateBar } from '@stillstand/output/figures';
import { choicesOf, layersToDate, payableOf, worthAlone } from '@stillstand/output/words';
import {
  type DatePlan,
  intervalRate,
  type Layer,
  pointInfluence,
  whatToDate,
} from '@stillstand/science/curve';
import { useCallback, useContext, useDeferredValue, useMemo, useState, useSyncExternalStore } from 'react';
import type { Computation } from '../../compute/index.ts';
import { Mark, Plate, printed, TraceContext } from '../../parts/index.ts';
import { type StageProps, TraceBeside, useNavigate, useOpenRow } from '../../shell/index.ts';
import { useStore } from '../../store/index.ts';
import { Answer } from './answer.tsx';
import { useBefore, useWhole } from './before.ts';
import { OtherCurves } from './beside/other-curves.tsx';
import {
  between,
  firstInterval,
  type Interval,
  isSame,
  readInterval,
  readIntervals,
  written,
} from './interval.ts';
import { NextDate } from './next-date.tsx';
import { Picture } from './picture.tsx';
import { PointPanel } from './point-panel.tsx';
import { PointsTable } from './points-table.tsx';
import { Questions } from './questions.tsx';
import { RateChoice } from './rate-choice.tsx';
import type { RateUnit } from './rate-unit.ts';
import { Influence, mostInfluential, Sensitivity } from './sensitivity.tsx';
import { SitesAndCurves } from './sites-and-curves.tsx';
import { useReadings } from './use-readings.ts';

/** Wide enough for the trace to stand beside the drawing. */
const WIDE = '(width >= 1240px)';

function useMatches(query: string): boolean {
  return useSyncExternalStore(
    (listener) => {
      const list = matchMedia(query);
      list.addEventListener('change', listener);
      return () => list.removeEventListener('change', listener);
    },
    () => matchMedia(query).matches,
  );
}

export function Shown({
  results,
  computation,
  isFinal,
  params,
}: {
  results: Results;
  computation: Computation;
  isFinal: boolean;
  params: StageProps['params'];
}) {
  const store = useStore();
  const navigate = useNavigate();
  const openRow = useOpenRow();
  const sheetTrace = useContext(TraceContext);
  const isWide = useMatches(WIDE);
  const [traced, setTraced] = useState<TraceId | null>(null);
  const [unit, setUnit] = useState<RateUnit>('mm/yr');
  const curve = curveOf(results);
  const inReport = store.setting('intervals');
  const kept = useMemo(() => readIntervals(inReport), [inReport]);
  const asked = params['interval'] ?? '';
  const settled = useMemo(
    () => (curve === null ? null : firstInterval(curve, readInterval(asked), kept)),
    [curve, asked, kept],
  );
  // While the finger moves the address stays; what is shown follows the finger until the address has caught up.
  const [moving, setMoving] = useState<{ interval: Interval; over: string } | null>(null);
  const chosen = moving !== null && moving.over === asked ? moving.interval : settled;
  const telling = params['point'] ?? null;
  const named = nameInTrace(results);
  const go = useCallback(
    (interval: string, point: string | null) =>
      navigate('Curve', {
        ...(named === null ? {} : { curve: named }),
        ...(interval === '' ? {} : { interval }),
        ...(point === null ? {} : { point }),
      }),
    [navigate, named],
  );
  const choose = (interval: Interval): void => {
    // The address hears of it later; the next key press must start from here.
    setMoving({ interval, over: asked });
    go(written(interval), telling);
  };
  const showPoint = useCallback(
    (label: string | null) => {
      setTraced(null);
      go(asked, label);
    },
    [go, asked],
  );
  const measured = useDeferredValue(chosen);
  const rate = useMemo(
    () =>
      curve === null || measured === null
        ? null
        : intervalRate(curve, measured.older_cal_bp, measured.younger_cal_bp),
    [curve, measured],
  );
  const bars: RateBar[] = useMemo(
    () => (rate === null || measured === null ? [] : [{ ...measured, rate_mm_yr: rate.rate_mm_yr }]),
    [rate, measured],
  );
  // The influence of points waits until the finger has let go and the drawing stands.
  const asSettled = useDeferredValue(settled);
  const whole = useDeferredValue(useWhole(curve, isFinal));
  const weighed = whole ?? curve;
  const decided = useMemo(
    () =>
      weighed === null || asSettled === null
        ? null
        : intervalRate(weighed, asSettled.older_cal_bp, asSettled.younger_cal_bp),
    [weighed, asSettled],
  );
  const influences = useMemo(
    () => (weighed === null || decided === null ? [] : pointInfluence(weighed, decided)),
    [weighed, decided],
  );
  const { campaign } = computation;
  const dating = useMemo(
    () => (campaign === null ? null : datingOf(campaign, results.settings)),
    [campaign, results.settings],
  );
  const layers = useMemo(() => layersToDate(results, dating?.held), [results, dating]);
  const { plan, isAssumed } = useMemo(() => {
    const typed = datePlanOf(results.settings);
    return dating === null ? typed : { ...typed, plan: withinFunds(typed.plan, dating.account) };
  }, [results.settings, dating]);
  const account = dating?.account ?? null;
  // By their content: results are new ones with every preview, what is asked here seldom is.
  const askedNext = JSON.stringify([layers.layers, plan, account]);
  const read = useReadings(whole);
  const forDates = useMemo(
    () =>
      read === null || asSettled === null
        ? null
        : intervalRate(read.curve, asSettled.older_cal_bp, asSettled.younger_cal_bp),
    [read, asSettled],
  );
  const next = useMemo(() => {
    if (read === null || forDates === null) return null;
    const [waiting, spending, funds]: [Layer[], DatePlan, DateAccount | null] = JSON.parse(askedNext);
    const found = whatToDate(read.curve, read.readings, forDates, waiting, spending);
    const singles = worthAlone(choicesOf(found));
    const from = { ...read, rate: forDates };
    return { found, payable: payableOf(from, found, singles, waiting, spending, funds) };
  }, [read, forDates, askedNext]);
  const listed = useDeferredValue(results);
  const inCurve = useMemo(() => new Set(curve?.points.map((point) => point.id)), [curve]);
  const stillIn = useMemo(() => influences.filter(({ id }) => inCurve.has(id)), [influences, inCurve]);
  const labelled = useMemo(
    () =>
      new Set([
        ...mostInfluential(stillIn).map((point) => point.id),
        ...(curve?.points ?? []).filter((point) => Math.abs(point.age_shift_sd) > 1).map((point) => point.id),
      ]),
    [stillIn, curve],
  );
  const before = useBefore(rate, measured, computation.state);
  const openTrace = useMemo(() => {
    const open = isWide ? setTraced : sheetTrace;
    return open === null ? null : (id: TraceId) => open(traceId.seenFrom(named, id));
  }, [isWide, sheetTrace, named]);
  const told = results.points.find((point) => point.point === telling) ?? null;
  const keep = (isKept: boolean): void => {
    if (measured === null) return;
    const others = kept.filter((each) => !isSame(each, measured));
    store.setSetting('intervals', (isKept ? [...others, measured] : others).map(written).join('; '));
  };
  return (
    <TraceContext value={openTrace}>
      <div className="curve">
        <figure>
          <Picture
            results={results}
            chosen={chosen}
            bars={bars}
            telling={telling}
            named={labelled}
            onMove={(interval) => setMoving({ interval, over: asked })}
            onChoose={choose}
            onPoint={showPoint}
          />
          {curve === null ? (
            <Plate
              state={isFinal ? 'caution' : 'normal'}
              word={isFinal ? 'No curve' : 'The curve is being computed'}
            >
              {isFinal ? <p>No accepted point has an age a curve can use; the problems say why.</p> : null}
            </Plate>
          ) : (
            <figcaption>
              Draw along the time axis to choose an interval, or move its two grips with the arrow keys. Press
              a point to look at it.
              {curve.diagnostics.remarks.length > 0 && isFinal ? (
                <Remarks remarks={curve.diagnostics.remarks} />
              ) : null}
            </figcaption>
          )}
        </figure>
        <div className="side">
          {curve === null || rate === null || measured === null ? null : (
            <>
              <Answer
                curve={curve}
                interval={measured}
                rate={rate}
                before={before}
                kept={kept}
                isFinal={isFinal}
                canKeep={!store.readOnly}
                unit={unit}
                onUnit={setUnit}
                onChoose={(older, younger) => {
                  const interval = between(curve, older, younger);
                  if (interval !== null) choose(interval);
                }}
                onKeep={keep}
              />
              <SitesAndCurves results={results} />
              <RateChoice results={results} curve={curve} isFinal={isFinal} />
              <div className="two">
                <Influence influences={stillIn} curve={curve} isFinal={isFinal} onPoint={showPoint} />
                <Sensitivity
                  curve={curve}
                  rate={rate}
                  interval={measured}
                  unit={unit}
                  hasIntercalated={results.points.some(
                    (point) => inCurve.has(point.point) && point.position === 'intercalated',
                  )}
                  isFinal={isFinal}
                />
              </div>
            </>
          )}
          {curve === null || measured === null ? null : (
            <Questions
              curve={curve}
              of={curveLookedAt(results) ?? MAIN_CURVE}
              interval={measured}
              isFinal={isFinal}
            />
          )}
          {curve === null ? null : <OtherCurves results={results} curve={curve} isFinal={isFinal} />}
          {next === null || forDates === null || read === null || asSettled === null ? null : (
            <NextDate
              next={next.found}
              payable={next.payable}
              account={account}
              curve={read.curve}
              interval={asSettled}
              compared={ratesComparedOf(results)}
              layers={layers}
              plan={plan}
              isAssumed={isAssumed}
              sd_mm_yr={forDates.rate_mm_yr.sd}
              unit={unit}
              onPoint={(label) => navigate('Points', { point: label })}
            />
          )}
          {traced !== null && isWide ? (
            <TraceBeside key={traced} id={traced} onOpen={openRow} onClose={() => setTraced(null)} />
          ) : told !== null && computation.campaign !== null ? (
            <PointPanel
              point={told}
              results={results}
              campaign={computation.campaign}
              isFinal={isFinal}
              onClose={() => showPoint(null)}
            />
          ) : (
            <PointsTable
              results={listed}
              influences={influences}
              current={telling}
              isFinal={isFinal}
              onPoint={showPoint}
            />
          )}
        </div>
      </div>
    </TraceContext>
  );
}

function Remarks({ remarks }: { remarks: readonly string[] }) {
  return (
    <ul className="remarks">
      {remarks.slice(0, 4).map((remark) => (
        <li key={remark}>
          <Mark name="unconverged" size={16} /> {remark}
        </li>
      ))}
      {remarks.length > 4 ? <li>and {printed(remarks.length - 4, 0)} more</li> : null}
    </ul>
  );
}
