/**
 * Six vibracores of Turck 2014 as a campaign: one push for each core, so that their shortening goes through the same door
 * as ours. README.md says what was decided on the way. Pure; write.ts writes the folder.
 */

type Cells = Record<string, string>;
type Rows = Cells[];

export interface Tables {
  settings: Rows;
  sites: Rows;
  datums: Rows;
  datum_shifts: Rows;
  holes: Rows;
  pushes: Rows;
  sections: Rows;
  units: Rows;
  samples: Rows;
}

const of = (row: Cells, column: string): string => row[column] ?? '';
/** The dataset's centimetres, a decimal at most. */
const cm = (row: Cells, column: string): number => Number(of(row, column));
const metres = (value_cm: number): string => `${(value_cm / 100).toFixed(3)} m`;

/** Tube above the ground outside before pulling: not published, and nothing depends on it. */
const TUBE_ABOVE_CM = 50;

/** Their sediments in our vocabulary. */
const SEDIMENT: Record<string, string> = {
  'marsh mud': 'organic mud',
  sand: 'sand',
  'green-grey clay': 'clay',
};

export function convert(cores: Rows, layers: Rows): Tables {
  const offset = cm(cores[0]!, 'surface_elevation_cm_mllw') - cm(cores[0]!, 'surface_elevation_cm_navd88');
  const tables: Tables = {
    settings: [
      { name: 'name', value: 'Mary Hammock, from Turck 2014' },
      { name: 'datum', value: 'MLLW' },
    ],
    sites: [{ site: 'Mary Hammock', name: 'marsh near Mary Hammock, Georgia, USA' }],
    datums: [
      { datum: 'NAVD88', kind: 'orthometric' },
      { datum: 'MLLW', kind: 'tidal', note: 'epoch not stated' },
    ],
    datum_shifts: [
      {
        from: 'NAVD88',
        to: 'MLLW',
        shift_m: (offset / 100).toFixed(3),
        sigma_m: '0',
        source: 'the dataset: both heights of all six cores',
      },
    ],
    holes: [],
    pushes: [],
    sections: [],
    units: [],
    samples: [],
  };
  for (const core of cores) {
    const hole = of(core, 'core_id');
    const removed = cm(core, 'top_layer_removed_before_coring_cm');
    const sample = cm(core, 'sample_length_after_shortening_cm');
    const shortening = cm(core, 'shortening_cm');
    const place = geographic(
      Number(of(core, 'easting_utm17n_nad83_m')),
      Number(of(core, 'northing_utm17n_nad83_m')),
    );
    tables.holes.push({
      hole,
      site: 'Mary Hammock',
      method: 'tube',
      latitude_deg: place.latitude_deg.toFixed(7),
      longitude_deg: place.longitude_deg.toFixed(7),
      reference_elevation_m: (cm(core, 'surface_elevation_cm_navd88') / 100).toFixed(3),
      reference_sigma_m: '0.01',
      reference_datum: 'NAVD88',
      state: 'finished',
      note: of(core, 'vegetation'),
    });
    tables.pushes.push({
      seq: '1',
      hole,
      push: 'V1',
      from: metres(removed),
      to: metres(removed + sample + shortening),
      recovered: metres(sample),
      inside_top: metres(TUBE_ABOVE_CM + shortening),
      outside_top: metres(TUBE_ABOVE_CM),
      note: 'bottom = removed + sample + shortening; readings written back from the published shortening',
    });
    tables.sections.push({ seq: '2', hole, push: 'V1', order: '1', length: metres(sample) });
    let top = 0;
    const own = layers.filter((l) => of(l, 'core_id') === hole);
    own.forEach((layer, i) => {
      // a contact given as a range: the mud's most goes with the sand's least; its middle is drawn
      const thickness = middle(layer);
      tables.units.push({
        hole,
        unit: `L${of(layer, 'layer_no')}`,
        basis: 'in_situ',
        top: metres(top),
        bottom: metres(top + thickness),
        sediment: SEDIMENT[of(layer, 'sediment')] ?? of(layer, 'sediment'),
        organic: of(layer, 'sediment') === 'marsh mud' ? 'marsh' : '',
        colour: of(layer, 'sediment') === 'green-grey clay' ? 'green-grey' : '',
        contact_below:
          i === own.length - 1
            ? ''
            : of(layer, 'thickness_max_cm') === of(layer, 'thickness_min_cm')
              ? 'sharp'
              : 'gradational',
        note: `${of(layer, 'sediment')}, corrected for shortening by its author`,
      });
      top += thickness;
    });
    tables.samples.push({
      sample: `${hole} base`,
      hole,
      basis: 'push',
      run: 'V1',
      top: metres(sample - 0.1),
      bottom: metres(sample),
      material: 'clay',
      note: 'the last millimetre of the core: where its base lay in the ground',
    });
  }
  return tables;
}

/** Middle of a published thickness, cm; a least thickness as it is. */
function middle(layer: Cells): number {
  const least = cm(layer, 'thickness_min_cm');
  return of(layer, 'thickness_max_cm') === '' ? least : (least + cm(layer, 'thickness_max_cm')) / 2;
}

/**
 * UTM zone 17 north to latitude and longitude, Krüger 1912 to the third order (as in Karney 2011, J. Geodesy 85:475–485,
 * from memory): better than a millimetre here. GRS 80; WGS 84 differs from it by less than that.
 */
export function geographic(
  easting_m: number,
  northing_m: number,
): { latitude_deg: number; longitude_deg: number } {
  const f = 1 / 298.257222101;
  const n = f / (2 - f);
  const radius = (6378137 / (1 + n)) * (1 + n ** 2 / 4 + n ** 4 / 64);
  const xi = northing_m / (0.9996 * radius);
  const eta = (easting_m - 500_000) / (0.9996 * radius);
  const beta = [
    n / 2 - (2 / 3) * n ** 2 + (37 / 96) * n ** 3,
    n ** 2 / 48 + n ** 3 / 15,
    (17 / 480) * n ** 3,
  ];
  let x = xi;
  let e = eta;
  beta.forEach((b, i) => {
    const k = 2 * (i + 1);
    x -= b * Math.sin(k * xi) * Math.cosh(k * eta);
    e -= b * Math.cos(k * xi) * Math.sinh(k * eta);
  });
  const chi = Math.asin(Math.sin(x) / Math.cosh(e));
  const delta = [
    2 * n - (2 / 3) * n ** 2 - 2 * n ** 3,
    (7 / 3) * n ** 2 - (8 / 5) * n ** 3,
    (56 / 15) * n ** 3,
  ];
  const latitude = delta.reduce((sum, d, i) => sum + d * Math.sin(2 * (i + 1) * chi), chi);
  const degrees = 180 / Math.PI;
  return {
    latitude_deg: latitude * degrees,
    longitude_deg: -81 + Math.atan2(Math.sinh(e), Math.cos(x)) * degrees,
  };
}
