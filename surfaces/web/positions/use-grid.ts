/** The grid of the campaign for the fields of positions. Projections are loaded once somebody has chosen one. */
import type { GridFound, KnownGrid } from '@stillstand/science/grids';
import type { PlaneGrid } from '@stillstand/science/survey';
import { useEffect, useState } from 'react';

const grids = () => import('@stillstand/science/grids');

/** What a setting names, as far as it is loaded; null for none. */
export function useGridFound(setting: string): GridFound | null {
  const [found, setFound] = useState<{ setting: string; grid: GridFound } | null>(null);
  useEffect(() => {
    if (setting.trim() === '') return;
    let isCurrent = true;
    void grids().then(({ gridOf }) => {
      if (isCurrent) setFound({ setting, grid: gridOf(setting) });
    });
    return () => {
      isCurrent = false;
    };
  }, [setting]);
  return found?.setting === setting ? found.grid : null;
}

export function useGrid(setting: string): PlaneGrid | null {
  const found = useGridFound(setting);
  return found?.ok === true ? found.grid : null;
}

/** Those that are offered; none until they are loaded. */
export function useKnownGrids(): readonly KnownGrid[] {
  const [known, setKnown] = useState<readonly KnownGrid[]>([]);
  useEffect(() => {
    let isCurrent = true;
    void grids().then(({ KNOWN_GRIDS }) => {
      if (isCurrent) setKnown(KNOWN_GRIDS);
    });
    return () => {
      isCurrent = false;
    };
  }, []);
  return known;
}
