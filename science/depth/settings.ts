/** What is believed of shortening before a sounding is read, and how finely it is computed. */
export interface DepthSettings {
  /** Local recovery at the ground, ρ₀: median, and 1 sd of its logit. */
  recovery_at_ground: number;
  recovery_logit_sd: number;
  /** Depth over which shortening dies away, ℓ: median, and 1 sd of its logarithm. */
  length_m: number;
  length_log_sd: number;
  /** Local recovery never comes nearer to 1 than this, layers apart. */
  recovery_deep: number;
  /** Layers: 1 sd of the logit of local recovery about its mean, and the depth over which it is correlated. > 0. */
  layer_sd: number;
  layer_length_m: number;
  /** Largest cell. */
  cell_m: number;
  /** 1 sigma of the tape on a recovered core. */
  tape_sigma_m: number;
  /** Draws kept. */
  draws: number;
  /** Ground of which less than this enters is not represented. */
  not_represented: number;
}

/**
 * In the upper part of a hole sediment may be pressed to half its thickness, deeper it comes up whole (common practice,
 * no source); how much layers differ is our own judgement, wide on purpose.
 */
export const depthDefaults: DepthSettings = {
  recovery_at_ground: 0.6,
  recovery_logit_sd: 0.9,
  length_m: 3,
  length_log_sd: 0.7,
  recovery_deep: 0.99,
  layer_sd: 1,
  layer_length_m: 0.5,
  cell_m: 0.5,
  tape_sigma_m: 0.005,
  draws: 400,
  not_represented: 0.1,
};
