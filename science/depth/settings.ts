/** What is believed of shortening before a sounding is read, and how finely it is computed. */
export interface DepthSettings {
  /** Local recovery at the ground, ρ₀: median, and 1 sd of its logit. */
  recovery_at_ground: number;
  recovery_logit_sd: number;
  /** Depth over which shortening dies away, ℓ: median, and 1 sd of its logarithm. */
  length_m: number;
  length_log_sd: number;
  /** Local recovery never comes nearer to 1 than this, layers apart; and what it rises to, where it rises to whole. */
  recovery_deep: number;
  /** Probability that it does not rise to whole; then what it tends to at depth: median, and 1 sd of its logit. */
  not_whole: number;
  recovery_at_depth: number;
  recovery_at_depth_logit_sd: number;
  /**
   * Layers: 1 sd of the logit of local recovery about its mean, as median, and 1 sd of the logarithm of that sd (0: it is
   * known); the depth over which they are correlated. > 0.
   */
  layer_sd: number;
  layer_log_sd: number;
  layer_length_m: number;
  /** Friction of the plug lets in e^(−friction·plug): probability that there is any, its median, 1/m, and log-sd. */
  friction: number;
  friction_per_m: number;
  friction_log_sd: number;
  /** By-passed ground: probability that a hole has any; then its share of the ground, in (0, 1), and mean thickness. */
  by_passing: number;
  by_passed: number;
  by_passed_m: number;
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
 * no source). The rest is our own judgement, wide on purpose: how much layers differ, and how often the ground does
 * otherwise.
 */
export const depthDefaults: DepthSettings = {
  recovery_at_ground: 0.6,
  recovery_logit_sd: 0.9,
  length_m: 3,
  length_log_sd: 0.7,
  recovery_deep: 0.99,
  not_whole: 0.5,
  recovery_at_depth: 0.8,
  recovery_at_depth_logit_sd: 1,
  layer_sd: 1.2,
  layer_log_sd: 0.8,
  layer_length_m: 0.5,
  friction: 0.3,
  friction_per_m: 0.4,
  friction_log_sd: 0.7,
  by_passing: 0.4,
  by_passed: 0.15,
  by_passed_m: 0.35,
  cell_m: 0.5,
  tape_sigma_m: 0.005,
  draws: 400,
  not_represented: 0.1,
};
