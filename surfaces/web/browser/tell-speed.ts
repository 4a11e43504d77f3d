// Prints the app's size and waits as JSON, for `bench/app`.
import { pressWaits } from './press-speed.ts';
import { firstScriptBytes, waits } from './speed.ts';

console.log(
  JSON.stringify({
    first_script_bytes: await firstScriptBytes(),
    ...(await waits()),
    ...(await pressWaits()),
  }),
);
process.exit();
