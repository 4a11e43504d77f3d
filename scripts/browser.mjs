// Finds a Chromium for the browser tests, and installs Debian's where there is none and apt may be used.
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';

const PLACES = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];
const found = () => PLACES.some((place) => existsSync(place));

if (!found() && process.getuid?.() === 0) {
  console.log('  installing Chromium for the browser tests, once');
  for (const words of [
    ['update', '-q'],
    ['install', '-y', '-q', '--no-install-recommends', 'chromium'],
  ]) {
    spawnSync('apt-get', words, {
      stdio: ['ignore', 'ignore', 'inherit'],
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    });
  }
}
if (!found()) {
  console.error('No Chromium for the browser tests. Install it (apt-get install chromium) and run again.');
  process.exit(1);
}
