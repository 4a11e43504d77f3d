/** The part of subset-font we use; it has no types of its own. */
declare module 'subset-font' {
  function subsetFont(
    font: Buffer,
    text: string,
    options: { targetFormat: 'woff2' | 'woff' | 'sfnt' },
  ): Promise<Buffer>;
  export = subsetFont;
}
