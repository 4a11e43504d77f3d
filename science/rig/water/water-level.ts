/** Water in and around the string, as read: which way it would flow through the plug. */
import { atMost, tapeLength } from '@stillstand/science/base';
import { find, type OpenHole } from '../hole/open-hole.ts';
import type { SoundingReading, WaterReading } from '../reading.ts';
import { exitGradient, pressureHead_m } from './water.ts';

export function takeWater(hole: OpenHole, reading: WaterReading): void {
  if (reading.water === 'fresh') hole.waterInside = 'fresh';
}

export function takeWaterLevel(hole: OpenHole, reading: SoundingReading, length: number | null): void {
  const { to_water_inside_m: inside, water_outside_m: outside } = reading;
  if (inside === null || outside === null || hole.stickUp === null) return;
  // inside, below the reference = below the collar − collar above the reference
  hole.head = outside - (inside - hole.stickUp);
  const plug = hole.sediment.plug_m;
  // without a sounding the water may stand on the shoe: the longest column, the worst case for the lighter water
  const to_sediment_m = reading.to_sediment_m ?? (length === null ? null : length - (plug ?? 0));
  hole.pressureHead =
    to_sediment_m === null
      ? null
      : pressureHead_m({
          to_sediment_m,
          to_water_inside_m: inside,
          to_water_outside_m: outside + hole.stickUp,
          inside: hole.waterInside,
          outside: hole.settings.water_outside,
        });
  const pressure = hole.pressureHead ?? hole.head;
  if (hole.head >= -0.005 && pressure >= -0.005) return;
  const through = length === null || to_sediment_m === null ? null : length - to_sediment_m;
  const { plug_kind } = hole.settings;
  const factor = through === null ? null : exitGradient(pressure, Math.max(0, through), plug_kind).factor;
  const safety =
    factor === null ? '' : `; factor of safety ${atMost(factor, 1).toFixed(1)} if the plug is ${plug_kind}`;
  if (hole.head < -0.005) {
    find(hole, reading, 'water-inside-low', 'warning', {
      found: `water inside ${tapeLength(-hole.head, 'm', 'at least')} below the water outside${safety}`,
      expected: 'water inside at or above the water outside',
      fix: 'Fill the string before anything is lifted: low water inside lets sand boil in at the shoe.',
    });
  } else {
    find(hole, reading, 'water-inside-light', 'warning', {
      found: `fresh water inside ${tapeLength(hole.head, 'm', 'at most')} above sea water outside, and ${tapeLength(-pressure, 'm', 'at least')} short of its weight${safety}`,
      expected: 'a level higher by 2.5 % of the height of its water, or sea water',
      fix: 'Fill the string higher, or fill it with sea water.',
    });
  }
}
