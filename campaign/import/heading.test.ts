/** Headings as they are met in published tables. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { headingKey, readHeading } from './heading.ts';
import { knownHeading } from './known-headings.ts';
import type { Kind } from './mapping.ts';

test('unit, zero of heights and sigma are taken from the words', () => {
  const said = (text: string, units = '') => {
    const { words, unit, datum, sigma } = readHeading(text, units);
    return [words, unit, datum, sigma].map((part) => part ?? '').join('|');
  };
  const headings: Record<string, string> = {
    'Depth (cm)': 'depth|cm||',
    depth_top_cm: 'depth top|cm||',
    'Depth [m]': 'depth|m||',
    'Elevation (m NAVD88)': 'elevation|m|NAVD88|',
    'Elevation (cm above MLLW)': 'elevation|cm|MLLW|',
    surface_elevation_cm_navd88: 'surface elevation|cm|NAVD88|',
    'Elevation, m MSL': 'elevation|m|MSL|',
    '14C age (yr BP)': '14c age|yr||',
    c14_error_1s_yr: 'c14 error|yr||1',
    'RSL error 2σ (m)': 'rsl error|m||2',
    'Age (ka)': 'age|kyr||',
    dry_bulk_density_g_cm3: 'dry bulk density|g/cm3||',
    'Dry bulk density (g cm-3)': 'dry bulk density|g/cm3||',
    'LOI (%)': 'loi|%||',
    'δ13C (‰ VPDB)': 'δ13c|‰||',
    pb210_total_dpm_g: 'pb210 total|dpm/g||',
    organic_matter_pct: 'organic matter|%||',
    Core: 'core|||',
    Age: 'age|||',
    MHW: 'mhw|||',
    'Location Lat': 'location lat|||',
    'Elevation (m LAT)': 'elevation|m|LAT|',
  };
  for (const [heading, expected] of Object.entries(headings)) assert.equal(said(heading), expected, heading);
  assert.equal(said('Percent_Sand', 'percent'), 'percent sand|%||');
  assert.equal(said('Elv_NAVD88', 'centimeters'), 'elv|cm|NAVD88|');
});

test('headings are known by their kind of table; those that mean something else are left alone', () => {
  const known: [Kind, string, string | null][] = [
    ['dates', 'Lab. code', 'lab_code'],
    ['dates', 'Laboratory number', 'lab_code'],
    ['dates', 'Your sample ID', 'sample'],
    ['dates', 'Conventional 14C age (BP)', 'value'],
    ['dates', 'Radiocarbon age yr BP', 'value'],
    ['dates', '± 1σ', 'error'],
    ['dates', '+/-', 'error'],
    ['dates', 'δ13C (‰ VPDB)', 'delta13c_permil'],
    ['dates', 'ΔR ± (1 sd)', 'delta_r_error'],
    ['dates', 'Calibrated age 95 %', null],
    ['dates', 'cal BP from', null],
    ['dates', 'F14C', null],
    ['dates', 'Date received', null],
    ['dates', 'Depth in core (cm)', 'depth'],
    ['dates', 'Core', 'hole'],
    ['dates', '', null],
    ['cores', 'core_id', 'hole'],
    ['cores', 'Borehole', 'hole'],
    ['cores', 'Longitude (°)', 'longitude_deg'],
    ['cores', 'Flag_Elv_NAVD88', null],
    ['layers', 'From (m)', 'top'],
    ['layers', 'To (m)', 'bottom'],
    ['layers', 'Lithology', 'sediment'],
    ['layers', 'Thickness (cm)', 'thickness'],
    ['samples', 'Depth interval (cm)', 'depth'],
    ['published-points', 'rsl_error_up_2s_m', 'rsl error up'],
    ['published-points', 'published_age_older_bound_2s_cal_bp', null],
    ['levelling', 'BS (m)', 'backsight_m'],
  ];
  for (const [kind, heading, to] of known) {
    const { text, words } = readHeading(heading);
    assert.equal(knownHeading(kind, text, words)?.to ?? null, to, `${kind}: ${heading}`);
  }
});

test('tables headed alike have one key, whatever capitals and marks', () => {
  assert.equal(headingKey(['Core', 'Depth (cm)', '']), headingKey(['CORE ', 'depth [cm]']));
  assert.notEqual(headingKey(['Core', 'Depth (cm)']), headingKey(['Core', 'Depth (m)']));
});
