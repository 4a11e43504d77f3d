/**
 * The rig at speed: one reading entered in a hole of 500 to its new state and clearance, and whole campaigns from cells
 * to folded holes at 1, 10 and 100 thousand readings, whose ratios tell whether the work grows in a straight line. Depth
 * models are made when someone asks for a depth and are not in it.
 */
import { type CampaignDocument, newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { holeReader, holeState, rigEntries, rigSettings, rowsOfDocument } from '@stillstand/campaign/holes';
import { readSettings } from '@stillstand/campaign/settings';
import { clearanceOf, type RigReading, reduceHole, type rigDefaults } from '@stillstand/science/rig';

export interface RigBench {
  /** Fold of 500 readings, the 500th just entered, and the clearance of its sampler; milliseconds, middle and worst. */
  entered_ms: number;
  entered_worst_ms: number;
  /** The same from the cells of the hole's rows. */
  entered_from_cells_ms: number;
  /** A key press: the state of that hole with a reading being typed; one reading more behind those that were read. */
  key_press_ms: number;
  key_press_worst_ms: number;
  appended_ms: number;
  /** The fastest of several. */
  sizes: { readings: number; holes: number; parse_s: number; fold_s: number; readings_per_s: number }[];
  /** Time per reading at 100 thousand over that at 10 thousand; 1 is a straight line (1 thousand is over before it is warm). */
  growth: number;
  findings: number;
}

const HOLES = [10, 100, 1000];
const PER_HOLE = 100;

export function benchRig(): RigBench {
  const one = campaignOf(1, 500);
  const { campaign } = parseCampaign(one);
  const settings = rigSettings(campaign, campaign.rows.holes[0]!, readSettings([]).settings);
  const readings = rigEntries(campaign, 'H0').map((e) => e.reading);
  const entered = times(200, () => enter(readings, settings));
  const fromCells = times(50, () => {
    const again = parseCampaign(one).campaign;
    enter(
      rigEntries(again, 'H0').map((e) => e.reading),
      settings,
    );
  });
  const { rows, dialect } = rowsOfDocument(one);
  const source = { ...campaign, typed: { rows, dialect } };
  const draft = { ...readings.at(-1)!, row_id: 'draft', seq: 501 };
  const pressed = times(200, () => holeState(source, 'H0', undefined, draft));
  // the last sounding is written, again and again
  const soundings = rows('soundings');
  const before = soundings.slice(0, -1);
  const read = holeReader();
  const withSoundings = (of: typeof soundings) => ({
    dialect,
    rows: (table: Parameters<typeof rows>[0]) => (table === 'soundings' ? of : rows(table)),
  });
  const appended = Array.from({ length: 50 }, () => {
    read(withSoundings([...before]), 'H0');
    const started = performance.now();
    read(withSoundings([...soundings]), 'H0');
    return performance.now() - started;
  });
  const sizes = HOLES.map((holes) => measure(holes));
  const perReading = (s: (typeof sizes)[number]) => (s.parse_s + s.fold_s) / s.readings;
  return {
    entered_ms: middle(entered),
    entered_worst_ms: Math.max(...entered),
    entered_from_cells_ms: middle(fromCells),
    key_press_ms: middle(pressed),
    key_press_worst_ms: Math.max(...pressed),
    appended_ms: middle(appended),
    sizes: sizes.map(({ findings: _, ...size }) => size),
    growth: perReading(sizes[2]!) / perReading(sizes[1]!),
    findings: sizes.reduce((sum, s) => sum + s.findings, 0),
  };
}

function enter(readings: readonly RigReading[], settings: typeof rigDefaults): number {
  const fold = reduceHole(readings, settings);
  const tip = fold.runs.at(-1)!.tip_m!;
  return clearanceOf(tip, fold.collar_to_shoe_m!, fold.joints_in, settings).clearance_m;
}

function measure(holes: number) {
  const document = campaignOf(holes, PER_HOLE);
  const repeats = holes >= 1000 ? 3 : 7;
  let findings = 0;
  let readings = 0;
  const fold = (campaign: ReturnType<typeof parseCampaign>['campaign']) => {
    findings = 0;
    readings = 0;
    const { settings } = readSettings(campaign.rows.settings);
    for (const hole of campaign.rows.holes) {
      const own = rigEntries(campaign, hole.hole).map((e) => e.reading);
      const folded = reduceHole(own, rigSettings(campaign, hole, settings));
      readings += folded.states.length;
      findings += folded.findings.length;
    }
  };
  const parse_s = fastest(times(repeats, () => parseCampaign(document))) / 1000;
  // parsed anew each time: whatever is remembered with a campaign is paid for
  const parsed = Array.from({ length: repeats }, () => parseCampaign(document).campaign);
  const fold_s = fastest(parsed.map((campaign) => times(1, () => fold(campaign))[0]!)) / 1000;
  return {
    readings,
    holes,
    parse_s,
    fold_s,
    readings_per_s: Math.round(readings / (parse_s + fold_s)),
    findings,
  };
}

function times(repeats: number, work: () => void): number[] {
  work();
  return Array.from({ length: repeats }, () => {
    const started = performance.now();
    work();
    return performance.now() - started;
  });
}

/** Other work on the machine only slows. */
const fastest = (x: readonly number[]): number => Math.min(...x);
const middle = (x: readonly number[]): number => [...x].sort((a, b) => a - b)[x.length >> 1]!;

/** Legal holes: a joint, a drive, a sounding, a run, a sounding, over and over, lengths in feet and metres. */
function campaignOf(holes: number, perHole: number): CampaignDocument {
  type Rows = Record<string, string>[];
  const tables: Record<'holes' | 'ground_levels' | 'string_items' | 'drives' | 'soundings' | 'runs', Rows> = {
    holes: [],
    ground_levels: [],
    string_items: [],
    drives: [],
    soundings: [],
    runs: [],
  };
  for (let h = 0; h < holes; h++) {
    const hole = `H${h}`;
    tables.holes.push({ hole, method: 'string', row_id: `hole-${h}` });
    let seq = 0;
    const next = () => ({ hole, seq: String(++seq), row_id: `${h}-${seq}` });
    tables.ground_levels.push({ ...next(), ground_below_reference: '0.2 m' });
    let collar = 0;
    let stick = -0.2;
    for (let i = 1; seq < perHole; i++) {
      tables.string_items.push({
        ...next(),
        action: 'add',
        item: 'joint',
        joint: `J${i}`,
        length: '10 ft',
        tight: 'true',
      });
      collar += 3.048;
      stick += 3.048;
      tables.drives.push({
        ...next(),
        stick_up_start: `${stick.toFixed(3)} m`,
        stick_up_end: `${(stick - 2.5).toFixed(3)} m`,
        duration_s: '90',
        frequency_hz: '170',
      });
      stick -= 2.5;
      const sediment = collar - 2.4;
      tables.soundings.push({ ...next(), purpose: 'after_drive', to_sediment: `${sediment.toFixed(3)} m` });
      tables.runs.push({
        ...next(),
        run: `R${i}`,
        start_mark: `${sediment.toFixed(3)} m`,
        end_mark: `${(sediment + 1.5).toFixed(3)} m`,
        recovered: '1.4 m',
        strokes: '30',
      });
      tables.soundings.push({
        ...next(),
        purpose: 'after_run',
        to_sediment: `${(sediment + 1.5).toFixed(3)} m`,
      });
    }
  }
  let document = newDocument('bench');
  for (const [table, rows] of Object.entries(tables)) document = withRows(document, table, rows);
  return document;
}
