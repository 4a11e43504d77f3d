/** Hazards of the work itself that no question before the start covers; common practice, no source. */
export const WORKING_HAZARDS: readonly { hazard: string; who: string; control: string }[] = [
  {
    hazard: 'Suspended load, rope or shackle parts',
    who: 'everyone near the mast',
    control:
      'Nobody under the load or in line with a tight rope. Do not exceed any load rating marked on the gear. A competent person checks it.',
  },
  {
    hazard: 'Hand or clothing caught by cable, winch or rotating parts',
    who: 'winch operator, driller',
    control: 'Hands off a running cable. Guards on. No loose gloves or clothing near rotating parts.',
  },
  {
    hazard: 'Noise and vibration',
    who: 'driller, crew',
    control:
      'Wear ear protection. Hands off the pipe while it is driven. Change places; follow the vibrator manual.',
  },
  {
    hazard: 'Lifting and carrying pipe',
    who: 'crew',
    control: 'Two to a joint. Clear the path first. Wear gloves and boots.',
  },
  {
    hazard: 'Soft ground, channels, cut off by the tide',
    who: 'crew',
    control:
      'Walk the route first with a pole. Keep to the leave-by time. Leave the string; people go first.',
  },
  {
    hazard: 'Hot engine, fuel and exhaust',
    who: 'engine operator',
    control:
      'Refuel with the engine off and cool. Keep the extinguisher within reach. Never run it in a closed space.',
  },
  {
    hazard: 'Sun, heat, cold or wet',
    who: 'crew',
    control: 'Shade, warm and dry clothing, drinking water, breaks. Stop when someone is unwell.',
  },
];
