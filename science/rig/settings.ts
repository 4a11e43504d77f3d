import type { PlugKind, WaterKind } from './water/water.ts';

/** The crew's choices for one hole. Metres; 1 sigma. */
export interface RigSettings {
  /** Length lost in each made-up thread. */
  makeup_loss_m: number;
  /** Least clearance from the sampler's tip to the shoe. */
  margin_m: number;
  /** Of a sounding to the sediment, where the reading has none of its own. */
  sounding_sigma_m: number;
  /** Of a stick-up. */
  stick_up_sigma_m: number;
  /** Of one joint's made-up length; errors of joints are independent. */
  joint_sigma_m: number;
  /** Of a cable mark. */
  mark_sigma_m: number;
  /** Of the length a run removed, where only its marks tell. */
  cable_mark_sigma_m: number;
  /** Of the length a run removed, where only what came up tells. */
  recovered_sigma_m: number;
  /** A stick-up that differs more than this from what it should be is named. */
  stick_up_tolerance_m: number;
  /** A believed collar to shoe that differs more than this from ours is named. */
  believed_tolerance_m: number;
  /** So many sigma of the readings make a change real: settling, inflow, falling. */
  change_sigmas: number;
  /** Pipe recovery above this is suspicious. */
  recovery_max: number;
  /** Water around the string: sea, the heavier, where nobody says otherwise. */
  water_outside: WaterKind;
  /** What stands in the string above the shoe: organic, the worst case, where nobody says otherwise. */
  plug_kind: PlugKind;
  /** The hole has ended: whatever is still in the string is missing. */
  ended: boolean;
}

/** Common practice, no source, except the recovery limit and the 3 cm, which are ours. */
export const rigDefaults: RigSettings = {
  makeup_loss_m: 0,
  margin_m: 0.3,
  sounding_sigma_m: 0.01,
  stick_up_sigma_m: 0.005,
  joint_sigma_m: 0.002,
  mark_sigma_m: 0.02,
  cable_mark_sigma_m: 0.05,
  recovered_sigma_m: 0.1,
  stick_up_tolerance_m: 0.03,
  believed_tolerance_m: 0.03,
  change_sigmas: 3,
  recovery_max: 1.05,
  water_outside: 'sea',
  plug_kind: 'organic',
  ended: false,
};
