/**
 * One reading of a hole, in metres. `seq` orders the readings; `row_id` is an opaque string that findings and results
 * hand back. A missing number is null. Lengths down the string are measured from the collar, downwards positive;
 * stick-up is the collar above the reference; ground and water outside are below the reference, downwards positive.
 */
interface Reading<Kind extends string> {
  kind: Kind;
  row_id: string;
  seq: number;
}

/** An item added to or taken from the string. */
export interface JointReading extends Reading<'joint'> {
  action: 'add' | 'remove' | 'pull' | 'cut' | 'left' | 'lost';
  item: 'joint' | 'shoe' | 'coupling' | 'drive_head';
  /** What is painted on it. */
  label: string | null;
  /** Of an item added: its length. Of a cut: the length cut off. */
  length_m: number | null;
  /** Thread confirmed tight; null where nobody said so. */
  tight: boolean | null;
  /** Of an item added: length lost in its own thread, where it was measured; else that of the kind of pipe counts. */
  makeup_loss_m?: number;
}

export interface DriveReading extends Reading<'drive'> {
  stick_up_start_m: number | null;
  stick_up_end_m: number | null;
  duration_s: number | null;
  ended_by: string | null;
  /** Vibrator speed, kept beside the rate. */
  frequency_hz: number | null;
  /** What was done where it ended at an obstruction or in refusal; absent or null where nobody said. */
  obstruction_response?: 'lifted_and_retried' | 'moved' | 'ended' | null;
}

export interface SoundingReading extends Reading<'sounding'> {
  purpose: string | null;
  to_sediment_m: number | null;
  /** What the cable reads with the tip level with the collar: 0 where it is right. Null: not a zero check. */
  cable_at_collar_m: number | null;
  to_water_inside_m: number | null;
  water_outside_m: number | null;
  /** Collar to shoe as the crew believed it then, for comparison. */
  collar_to_shoe_m: number | null;
  stick_up_m: number | null;
  /** 1 sigma of the reading. */
  sigma_m: number | null;
}

export interface RunReading extends Reading<'run'> {
  run: string;
  /** Tip below the collar when it first touched; at its lowest. */
  start_mark_m: number | null;
  end_mark_m: number | null;
  strokes: number | null;
  /** All that came up, fall-in on top of it included. */
  recovered_m: number | null;
  fall_in_m: number | null;
  loss_position: 'top' | 'base' | 'spread' | 'unknown' | null;
  outcome: string | null;
}

export interface GroundReading extends Reading<'ground'> {
  ground_below_reference_m: number | null;
}

export interface WaterReading extends Reading<'water'> {
  volume_l: number | null;
  water: 'fresh' | 'sea' | null;
  to_water_before_m: number | null;
  to_water_after_m: number | null;
}

export type RigReading =
  | JointReading
  | DriveReading
  | SoundingReading
  | RunReading
  | GroundReading
  | WaterReading;

/** The sediment inside was read: neither a reading of water alone nor a zero check. */
export const isSounded = (r: RigReading): r is SoundingReading & { to_sediment_m: number } =>
  r.kind === 'sounding' && r.to_sediment_m !== null;
