/**
 * The tide beside numpy in the same run: a year of hourly heights analysed for 37 constituents, and predicted from 8.
 * numpy has the columns' angles handed to it ready, node corrections and all: it takes cosines, sines and the solution.
 */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { analyse, predict, type Tide } from '@stillstand/science/tide';
import { least_ms } from '../least.ts';

export interface TideBench {
  readings: number;
  constituents: number;
  /** Milliseconds, the least of the repeats. */
  analysis_ms: number;
  prediction_ms: number;
  /** Null where there is no python3 with numpy. */
  numpy_analysis_ms: number | null;
  numpy_prediction_ms: number | null;
  /** Own over numpy's: below 1 is faster. */
  analysis_ratio: number | null;
  prediction_ratio: number | null;
}

const HOUR_MS = 3_600_000;
const READINGS = 366 * 24;
const REPEATS = 10;
const NAMES = ['M2', 'S2', 'N2', 'K1', 'O1', 'P1', 'K2', 'Q1'];

export function benchTide(): TideBench {
  const tide: Tide = {
    mean_m: 0.3,
    constants: NAMES.map((constituent, i) => ({ constituent, amplitude_m: 1 / (i + 1), phase_deg: 40 * i })),
  };
  const time_ms = Float64Array.from({ length: READINGS }, (_, i) => 1.6e12 + i * HOUR_MS);
  const height_m = predict(tide, time_ms);
  const constituents = analyse({ time_ms, height_m })!.constants.length;
  const analysis_ms = least_ms(() => analyse({ time_ms, height_m }), REPEATS);
  const prediction_ms = least_ms(() => predict(tide, time_ms), REPEATS);
  const numpy = runNumpy(constituents);
  return {
    readings: READINGS,
    constituents,
    analysis_ms,
    prediction_ms,
    numpy_analysis_ms: numpy?.analysis_ms ?? null,
    numpy_prediction_ms: numpy?.prediction_ms ?? null,
    analysis_ratio: numpy === null ? null : analysis_ms / numpy.analysis_ms,
    prediction_ratio: numpy === null ? null : prediction_ms / numpy.prediction_ms,
  };
}

function runNumpy(constituents: number): { analysis_ms: number; prediction_ms: number } | null {
  const job = { readings: READINGS, constituents, predicted: NAMES.length, repeats: REPEATS };
  const run = spawnSync('python3', [fileURLToPath(new URL('./plain_numpy.py', import.meta.url))], {
    input: JSON.stringify(job),
    encoding: 'utf8',
    env: { ...process.env, OMP_NUM_THREADS: '1', OPENBLAS_NUM_THREADS: '1' },
  });
  return run.status === 0 ? JSON.parse(run.stdout) : null;
}
