/** Tools that go along whatever the depth; common practice, no source. */
export const TOOLS: readonly {
  line: string;
  item: string;
  amount: number;
  why: string;
  /** How the table of gear may call it. */
  called: RegExp;
}[] = [
  {
    line: 'vibrator',
    item: 'Vibrator',
    amount: 1,
    why: 'with its manual',
    called: /vibrator/i,
  },
  {
    line: 'wrenches',
    item: 'Pipe wrenches',
    amount: 2,
    why: 'one to hold, one to turn',
    called: /wrench|spanner|tong/i,
  },
  {
    line: 'tapes',
    item: 'Measuring tapes',
    amount: 2,
    why: 'joints and soundings; one spare',
    called: /\btape(?! mark)/i,
  },
  {
    line: 'level',
    item: 'Level, tripod and staff',
    amount: 1,
    why: 'reference and ground',
    called: /\blevel\b|staff/i,
  },
  {
    line: 'backfill',
    item: 'Backfill for the hole',
    amount: 1,
    why: 'what the permit demands; check its amount',
    called: /bentonite|backfill|grout/i,
  },
  {
    line: 'first_aid',
    item: 'First aid kit',
    amount: 1,
    why: 'at the rig',
    called: /first aid/i,
  },
  {
    line: 'extinguisher',
    item: 'Fire extinguisher',
    amount: 1,
    why: 'near engine and fuel',
    called: /extinguisher/i,
  },
];
