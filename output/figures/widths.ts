/** What a figure can be laid out at, mm: from a narrow column to a landscape page. Common practice, no source. */
export const WIDTHS_MM = { least: 60, most: 250 } as const;
