/** Lines of the day's checklist that were signed, kept in words in the day's note, where any program can read them. */

const SEGMENT = /(?:^|;\s*)signed: ([^;]*)/;

export interface Signature {
  line: string;
  /** Initials or role, and time of day. */
  by: string;
}

/** "signed: services located (DK 08:10), leave by known (DK 08:12)" */
export function signatures(note: string): Signature[] {
  const text = SEGMENT.exec(note)?.[1] ?? '';
  return [...text.matchAll(/([^,()]+) \(([^()]*)\)/g)].map(([, line, by]) => ({
    line: line!.trim(),
    by: by!,
  }));
}

/** The note with a line signed, or its signature taken back; everything else in it stays. */
export function withSignature(note: string, line: string, by: string | null): string {
  const kept = signatures(note).filter((signature) => signature.line !== line);
  const all = by === null ? kept : [...kept, { line, by }];
  const own = note.replace(SEGMENT, '').trim().replace(/^;\s*/, '');
  const segment = all.length === 0 ? '' : `signed: ${all.map((s) => `${s.line} (${s.by})`).join(', ')}`;
  return [own, segment].filter(Boolean).join('; ');
}
