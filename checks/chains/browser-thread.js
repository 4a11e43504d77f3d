// A thread of a browser that sweeps chains; its other end is in browser-page.js.
import { chainServer } from '@stillstand/science/base';
import { curveSampler } from '@stillstand/science/curve';
import { ageDepthSampler, togetherSampler } from '@stillstand/science/dating';

const hear = chainServer([curveSampler, ageDepthSampler, togetherSampler], (message) =>
  self.postMessage(message),
);
self.onmessage = ({ data }) => hear(data);
