/** How the heights of a level book are worked out on the page; kept on this device. */
import { useState } from 'react';

export type Method = 'rise-and-fall' | 'collimation';

export const METHODS: readonly (readonly [Method, string])[] = [
  ['rise-and-fall', 'Rise and fall'],
  ['collimation', 'Height of collimation'],
];

const KEY = 'stillstand.level-method';

export function useMethod(): [Method, (method: Method) => void] {
  const [method, set] = useState<Method>(() =>
    localStorage.getItem(KEY) === 'collimation' ? 'collimation' : 'rise-and-fall',
  );
  return [
    method,
    (next) => {
      localStorage.setItem(KEY, next);
      set(next);
    },
  ];
}
