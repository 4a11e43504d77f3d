/** The least of the times a piece of work takes, ms: what the machine does besides only ever adds. */
export function least_ms(work: () => unknown, repeats: number): number {
  let least = Infinity;
  for (let k = 0; k < repeats; k++) {
    const began = performance.now();
    work();
    least = Math.min(least, performance.now() - began);
  }
  return least;
}
