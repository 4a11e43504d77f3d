// Prints how soon the curve follows an edit as JSON, for `bench/app`: the demo, and campaigns of so many points.
import { curveWaits } from './curve-speed.ts';

console.log(JSON.stringify(await curveWaits([50, 200])));
process.exit();
