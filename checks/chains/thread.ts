/** A thread that sweeps chains for `nodeCrew`. */
import { parentPort } from 'node:worker_threads';
import { chainServer } from '@stillstand/science/base';
import { curveSampler } from '@stillstand/science/curve';
import { ageDepthSampler, togetherSampler } from '@stillstand/science/dating';

const hear = chainServer([curveSampler, ageDepthSampler, togetherSampler], (message) =>
  parentPort!.postMessage(message),
);
parentPort!.on('message', hear);
