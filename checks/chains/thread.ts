/** A thread that sweeps chains for `nodeCrew`. */
import { parentPort } from 'node:worker_threads';
import { chainServer } from '@stillstand/science/base';
import { curveSampler } from '@stillstand/science/curve';
import { ageDepthSampler } from '@stillstand/science/dating';

const hear = chainServer([curveSampler, ageDepthSampler], (message) => parentPort!.postMessage(message));
parentPort!.on('message', hear);
