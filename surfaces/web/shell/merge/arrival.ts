/** What may be done with a campaign that came in a file: merged into one that is here, or opened as one of its own. */
import type { Arrived } from '../../store/index.ts';
import { packageId } from '../../store/index.ts';
import type { Target } from './copy.ts';

export interface Arrival {
  arrived: Arrived;
  /** Campaigns here of which it is a copy. */
  here: readonly Target[];
  /** The campaign it was chosen for; null where it was opened as a file. */
  into: Target | null;
  /** Called once the device has it. */
  whenKept: () => void;
}

export interface Asked {
  kind: 'here' | 'other' | 'not stated';
  /** What it can be merged into. */
  targets: readonly Target[];
  /** Why it is merged into none. */
  whyNot: string | null;
}

/** What a person is asked about it; null where nothing is to be asked. */
export function askedOf({ arrived, here, into }: Omit<Arrival, 'whenKept'>): Asked | null {
  const whyNot = whyNotMerged(arrived);
  const of = (kind: Asked['kind'], all: readonly Target[]): Asked => {
    const targets = all.filter(({ read_only }) => !read_only);
    const why =
      whyNot ??
      (all.length > 0 && targets.length === 0
        ? 'The campaign on this device is read only, so nothing can be merged into it.'
        : null);
    return { kind, targets: why === null ? targets : [], whyNot: why };
  };
  if (into === null) return here.length === 0 ? null : of('here', here);
  const id = packageId(arrived.unpacked.document);
  if (id === null || into.package_id === null) return of('not stated', [into]);
  return id === into.package_id ? of('here', [into]) : of('other', here);
}

function whyNotMerged({ unpacked: { read_only, problems } }: Arrived): string | null {
  if (problems.some(({ code }) => code === 'newer-version')) {
    return 'A newer Stillstand wrote the copy. Update the app, then open the file again.';
  }
  if (problems.some(({ severity, table }) => severity === 'error' && table === 'datapackage')) {
    return 'The file is damaged or not whole. Save and send the copy again.';
  }
  return read_only ? 'What the copy is cannot be read from its package. Save and send the copy again.' : null;
}
