/** Parts of a point's error as people read them: the names in the data are made to be written in tables. */
import type { ErrorComponent } from '@stillstand/campaign/results';

const NAMES: Readonly<Record<string, string>> = {
  depth_sample: 'depth, this sample',
  depth_hole_model: 'depth, whole hole',
  tidal_range: 'tidal range then',
  tidal_range_age: 'tidal range then, age of the sample',
};

/** "sample_thickness" → "sample thickness". */
export const partName = (component: string): string => NAMES[component] ?? component.replaceAll('_', ' ');

/** What carries an error that points share: "benchmark TBM 1" of `height:TBM 1`. A group somebody declared keeps its name. */
export function sharedThrough({
  component,
  shared_group,
}: Pick<ErrorComponent, 'component' | 'shared_group'>): string {
  const [, kind = '', of = ''] = /^(\w+):(.*)$/.exec(shared_group ?? '') ?? [];
  switch (kind) {
    case 'height':
      return component.startsWith('benchmark') ? `benchmark ${of}` : `the heights of ${of}`;
    case 'level':
      return `the levelling of hole ${of}`;
    case 'datum':
      return `the datum shift ${of}`;
    case 'depth':
      return `the depth model of hole ${of}`;
    case 'inclination':
      return `the inclination of hole ${of}`;
    case 'gauge':
      return `the zero of gauge ${of}`;
    case 'tide':
      return `the tide levels of ${of}`;
    case 'tide_range':
      return of === '' ? 'the tidal ranges of all sites' : `the tidal ranges of ${of}`;
    default:
      return shared_group ?? '';
  }
}
