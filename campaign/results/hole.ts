/** A hole: its readings as states, drives and runs, its layers, its depth model. */
import { schemas } from '@stillstand/campaign/tables';
import {
  as,
  list,
  number,
  numbers,
  orNull,
  record,
  type ShapeValue,
  sigma,
  text,
  word,
} from '@stillstand/science/shape';
import { anEstimate, perhapsEstimate, rowId } from './parts.ts';

const holeState = record('state of the hole after one reading', {
  seq: number('order of the reading in the hole', ''),
  table: text('table of the reading'),
  row_id: rowId(),
  time: orNull(text('when it was read, ISO 8601; information, never an order')),
  collar_to_shoe_m: orNull(number('collar to shoe', 'm')),
  stick_up_m: orNull(number('collar above the reference', 'm')),
  penetration_m: orNull(number('shoe below ground', 'm')),
  plug_m: orNull(number('sediment inside the string', 'm')),
  removed_m: number('everything the runs have removed', 'm'),
  entered_m: orNull(number('entered length: plug plus everything removed', 'm')),
  recovery: orNull(number('pipe recovery: entered length ÷ penetration', 'ratio')),
});
export type HoleState = ShapeValue<typeof holeState>;

const drive = record('a spell of driving', {
  row_id: rowId(),
  seq: number('order in the hole', ''),
  from_m: number('penetration before', 'm'),
  to_m: number('penetration after', 'm'),
  entered_m: orNull(number('what entered during the drive, where soundings before and after tell', 'm')),
  recovery: orNull(number('entered ÷ driven', 'ratio')),
  rate_m_per_min: orNull(number('driven length per minute of vibrating', 'm/min')),
  usual_m_per_min: orNull(
    number('rate usual in the hole before it; null where too few drives tell', 'm/min'),
  ),
  pace: orNull(
    word('against the usual: below half of it slowing, below a tenth refusal', [
      'steady',
      'slowing',
      'refusal',
    ]),
  ),
  frequency_hz: orNull(number('speed of the vibrator', 'Hz')),
  ended_by: orNull(text('what ended it')),
});
export type DriveResult = ShapeValue<typeof drive>;

const run = record('a trip of the sampler, or a push of a one-piece corer', {
  row_id: rowId(),
  run: text('label of the run'),
  method: word('sampler run in the string, or push', ['run', 'push']),
  removed_m: number('removed length', 'm'),
  removed_sigma_m: sigma('1 sigma of the removed length', 'm'),
  removed_from: word('what the removed length was taken from', [
    'soundings',
    'advance',
    'recovered',
    'nothing',
    'push',
  ]),
  recovered_m: number('length that came up', 'm'),
  fall_in_m: number('disturbed fall-in on top of what came up, excluded', 'm'),
  sampler_recovery: orNull(number('recovered ÷ removed', 'ratio')),
  loss_position: orNull(
    word('where what was removed but did not come up is missing; null for a push', [
      'top',
      'base',
      'spread',
      'unknown',
    ]),
  ),
  entered_top_m: number('top, along everything that entered', 'm'),
  entered_bottom_m: number('bottom, along everything that entered', 'm'),
  depth_top_m: anEstimate('in-situ depth of the top below the ground at the start of the hole, m'),
  depth_bottom_m: anEstimate('in-situ depth of the bottom below the ground at the start of the hole, m'),
});
export type RunResult = ShapeValue<typeof run>;

const unit = record('a described layer', {
  row_id: rowId(),
  unit: text('label of the layer'),
  sediment: text('main sediment'),
  secondary_sediment: orNull(text('secondary sediment')),
  colour: orNull(text('colour')),
  contact_below: orNull(text('contact at its base')),
  structures: list('structures', text('one structure')),
  fossils: list('fossils', text('one fossil')),
  environment: orNull(text('interpreted environment')),
  description: orNull(text('free description')),
  core_top_m: orNull(number('top in the core, from the ground down', 'm')),
  core_bottom_m: orNull(number('bottom in the core, from the ground down', 'm')),
  depth_top_m: anEstimate('in-situ depth of the top, m'),
  depth_bottom_m: anEstimate('in-situ depth of the bottom, m'),
  elevation_top_m: perhapsEstimate('elevation of the top on the campaign datum, m'),
  elevation_bottom_m: perhapsEstimate('elevation of the bottom on the campaign datum, m'),
});
export type UnitResult = ShapeValue<typeof unit>;

const paceTrend = record('how the rate of driving changes with depth', {
  drives: number('drives it is made from', 'drives'),
  slope_per_m: number('slope of the logarithm of the rate; negative slows', '1/m'),
  lower95: orNull(number('lower end of its 95 % interval; null with fewer than four drives', '1/m')),
  upper95: orNull(number('upper end of its 95 % interval; null with fewer than four drives', '1/m')),
  halving_m: orNull(number('depth in which the rate halves; null where it does not fall', 'm')),
  verdict: word('slowing where the whole interval is below 0', ['slowing', 'quickening', 'even']),
  line: list(
    'the trend for drawing',
    record('one place on it', {
      depth_m: number('penetration', 'm'),
      rate_m_per_min: number('rate', 'm/min'),
    }),
  ),
});
export type PaceTrendResult = ShapeValue<typeof paceTrend>;

const alternativeModel = record('a simpler correction in common use, drawn with ours', {
  model: word('one factor for the whole hole, or all that is missing taken off the top', [
    'uniform',
    'all_at_top',
  ]),
  line: list(
    'in-situ depth at entered length; straight between these',
    record('one corner', {
      entered_m: number('entered length', 'm'),
      depth_m: number('in-situ depth', 'm'),
    }),
  ),
  chi_square: number('residuals of the soundings against their full covariance', ''),
  degrees: number('degrees of freedom; 0: no sounding to tell it by', ''),
  rejected_sd: number('the same as so many sd of a normal; above 2 the soundings reject it', 'sd'),
  worst_m: number('largest difference from a sounding, of entered length', 'm'),
  units: list(
    'where it would put each unit',
    record('one unit', {
      row_id: rowId(),
      depth_top_m: number('in-situ depth of its top', 'm'),
      depth_bottom_m: number('in-situ depth of its bottom', 'm'),
    }),
  ),
});
export type AlternativeModel = ShapeValue<typeof alternativeModel>;

export const holeShape = record('a hole', {
  row_id: rowId(),
  hole: text('label of the hole'),
  site: orNull(text('site')),
  site_name: orNull(text('what people call the site')),
  method: text('how it was made'),
  state: orNull(word('how it stands', schemas.holes.columns.state.choices)),
  end_reason: orNull(text('why it ended')),
  left_in_ground: orNull(text('pipe and gear left in the ground')),
  replaces: orNull(text('hole it replaces')),
  latitude_deg: orNull(number('latitude, WGS 84', 'deg')),
  longitude_deg: orNull(number('longitude, WGS 84', 'deg')),
  section_m: orNull(number('distance along the section line through all holes; 0 at the first', 'm')),
  reference_elevation_m: perhapsEstimate('elevation of the reference on the campaign datum, m'),
  ground_elevation_m: perhapsEstimate('elevation of the ground at the start on the campaign datum, m'),
  joints_in: number('joints in the string at the end', 'joints'),
  collar_to_shoe_m: orNull(number('collar to shoe at the end', 'm')),
  penetration_m: orNull(number('shoe below ground at its deepest', 'm')),
  entered_m: orNull(number('entered length', 'm')),
  recovery: orNull(number('pipe recovery: entered length ÷ penetration', 'ratio')),
  states: list('state after each reading, in their order', holeState),
  drives: list('spells of driving', drive),
  pace_trend: orNull(as('null with fewer than three timed drives', paceTrend)),
  runs: list('runs and pushes', run),
  units: list('described layers, from the top down', unit),
  soundings: list(
    'entered length at penetration as sounded',
    record('one sounding', {
      row_id: rowId(),
      penetration_m: number('penetration', 'm'),
      entered_m: number('entered length', 'm'),
      sigma_m: sigma('1 sigma of the entered length', 'm'),
    }),
  ),
  depth: orNull(
    record('the depth model for drawing: in-situ depth against entered length; null where there is none', {
      entered_m: numbers('entered length', 'm'),
      median_m: numbers('median in-situ depth', 'm'),
      lower95_m: numbers('lower end of the central 95 % of the in-situ depth', 'm'),
      upper95_m: numbers('upper end of the central 95 % of the in-situ depth', 'm'),
    }),
  ),
  shortening: orNull(
    record('parameters of decaying shortening, posterior; null where there is none', {
      recovery_at_ground: anEstimate('local recovery at the ground surface, ratio'),
      length_m: anEstimate('length over which the loss decays, m'),
      recovery_at_depth: anEstimate('what local recovery tends to at depth, ratio'),
      layer_sd: anEstimate('how much layers differ: 1 sd of the logit of local recovery'),
      friction_probability: number('probability that friction of the plug lets in less', 'ratio'),
      friction_per_m: anEstimate(
        'that friction lets in e^(−this × plug), 1/m; 0 where there is none is counted in',
      ),
      by_passed_m: anEstimate('ground that was by-passed, in all, m'),
    }),
  ),
  not_represented: list(
    'stretches of the ground that did not enter',
    record('one stretch, in-situ depth', {
      top_m: number('top', 'm'),
      bottom_m: number('bottom', 'm'),
    }),
  ),
  alternative_models: list(
    'simpler corrections; empty where there is no string or no sounding',
    alternativeModel,
  ),
  account: list(
    'every item that went in, and what became of it',
    record('one item', {
      item: text('what it is'),
      joint: orNull(text('label painted on it')),
      fate: text('what became of it'),
    }),
  ),
});
export type HoleResult = ShapeValue<typeof holeShape>;
