// Prints how soon the curve follows an edit as JSON, for `bench/app`.
import { curveWaits } from './curve-speed.ts';

console.log(JSON.stringify(await curveWaits()));
process.exit();
