/** Calibration curves by name. */
const CURVES: Readonly<Record<string, string>> = {
  intcal20: 'IntCal20',
  shcal20: 'SHCal20',
  marine20: 'Marine20',
  bomb21_nh1: 'Bomb21 NH1',
  bomb21_nh2: 'Bomb21 NH2',
  bomb21_nh3: 'Bomb21 NH3',
  bomb21_sh1_2: 'Bomb21 SH1–2',
  bomb21_sh3: 'Bomb21 SH3',
};

/** A calibration curve by its name in data, as papers write it. */
export const curveCalled = (name: string): string => CURVES[name.toLowerCase()] ?? name;
