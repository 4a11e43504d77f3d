/** A reporter that counts, for test-processes.ts: each file that a test of was run, then the sums. */
import { isAbsolute } from 'node:path';
import type { TestEvent } from 'node:test/reporters';

// The runner takes a reporter from the default export only.
// biome-ignore lint/style/noDefaultExport: see above
export default async function* counts(events: AsyncIterable<TestEvent>): AsyncGenerator<string> {
  const seen = new Set<string>();
  for await (const { type, data } of events) {
    if (type === 'test:pass' || type === 'test:fail') {
      const { file = '', name } = data;
      // A file without tests is reported as one test with the name of the file.
      if (!isAbsolute(file) || file.endsWith(name) || seen.has(file)) continue;
      seen.add(file);
      yield `${JSON.stringify({ file })}\n`;
    }
    // The summary of all files names none.
    if (type === 'test:summary' && data.file === undefined) {
      const { tests, passed, cancelled, skipped } = data.counts;
      yield `${JSON.stringify({ tests, passed, failed: tests - passed - skipped, cancelled, skipped })}\n`;
    }
  }
}
