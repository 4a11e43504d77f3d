/**
 * What the gear list assumes where the campaign does not say: editable, kept with the campaign. All of them are common
 * practice, no source; the crew's own rig, the maker's manual and local codes take precedence.
 */
interface Assumption {
  about: string;
  unit: string;
  initial: string;
  min: number;
  max: number;
  /** What it usually is, for the help of the field. */
  usual: string;
}

export const GEAR_ASSUMPTIONS = {
  gear_holes: {
    about: 'planned holes the gear list is for, the deepest first; 0 for all of them',
    unit: '',
    initial: '0',
    min: 0,
    max: 1000,
    usual: '1 or 2 in a day',
  },
  gear_mast_m: {
    about: 'height of the mast or tripod, from the winch up to the sheave',
    unit: 'm',
    initial: '5',
    min: 0,
    max: 30,
    usual: '3 to 6 m',
  },
  gear_drum_turns: {
    about: 'turns of cable that always stay on the winch drum',
    unit: '',
    initial: '5',
    min: 0,
    max: 50,
    usual: '3 to 5; the maker’s manual decides',
  },
  gear_drum_mm: {
    about: 'diameter of the winch drum',
    unit: 'mm',
    initial: '200',
    min: 0,
    max: 2000,
    usual: '80 to 300 mm',
  },
  gear_refills: {
    about: 'times the full string is filled again after the first filling',
    unit: '',
    initial: '1',
    min: 0,
    max: 100,
    usual: '1 in sand, 0 in clay',
  },
  gear_tray_m: {
    about: 'length of core that one tray or core box holds',
    unit: 'm',
    initial: '1',
    min: 0.1,
    max: 20,
    usual: '1 to 1.2 m, of a box with rows all of them together',
  },
  gear_spare_percent: {
    about: 'spare of what can break, spoil or run out',
    unit: '%',
    initial: '20',
    min: 0,
    max: 500,
    usual: '10 to 30 %',
  },
  gear_engine_h: {
    about: 'hours that engine and pump run for one hole',
    unit: 'h',
    initial: '4',
    min: 0,
    max: 240,
    usual: '2 to 6 h',
  },
  gear_fuel_l_h: {
    about: 'fuel that engine and pump use in an hour',
    unit: 'L/h',
    initial: '1',
    min: 0,
    max: 30,
    usual: '0.5 to 2 L/h for a hand-carried vibrator',
  },
  gear_field_h: {
    about: 'hours away from shelter and tap, without what the tide may add',
    unit: 'h',
    initial: '10',
    min: 0,
    max: 240,
    usual: '6 to 12 h',
  },
  gear_drink_l_h: {
    about: 'drinking water for one person and hour',
    unit: 'L/h',
    initial: '0.5',
    min: 0,
    max: 2,
    usual: '0.3 to 1 L/h, the more the hotter',
  },
} as const satisfies Record<string, Assumption>;

export type GearAssumption = keyof typeof GEAR_ASSUMPTIONS;
export type GearAssumptions = Readonly<Record<GearAssumption, number>>;

/** What is wrong with a value that was typed; null where it can be used, or nothing was typed. */
export function assumptionFault(name: GearAssumption, typed: string): string | null {
  if (typed.trim() === '' || usable(name, typed) !== null) return null;
  const { min, max, unit, initial } = GEAR_ASSUMPTIONS[name];
  const said = unit === '' ? '' : ` ${unit}`;
  return `Found “${typed.trim()}”; expected a number from ${min} to ${max}${said}. ${initial}${said} is used until then.`;
}

function usable(name: GearAssumption, typed: string): number | null {
  const { min, max } = GEAR_ASSUMPTIONS[name];
  const value = typed.trim() === '' ? Number.NaN : Number(typed.trim().replace(',', '.'));
  return value >= min && value <= max ? value : null;
}

/** Every assumption: as typed where that can be used, else the usual one. */
export function gearAssumptions(typed: (name: GearAssumption) => string | null): GearAssumptions {
  const names = Object.keys(GEAR_ASSUMPTIONS) as GearAssumption[];
  return Object.fromEntries(
    names.map((name) => [name, usable(name, typed(name) ?? '') ?? Number(GEAR_ASSUMPTIONS[name].initial)]),
  ) as Record<GearAssumption, number>;
}
