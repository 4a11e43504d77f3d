// Prints the app's size and waits as JSON, for `bench/app`.
import { firstScriptBytes, waits } from './speed.ts';

console.log(JSON.stringify({ first_script_bytes: await firstScriptBytes(), ...(await waits()) }));
process.exit();
