/** Where the person is, in the part of the address behind `#`: it works from any folder and without network. */
import { useCallback, useSyncExternalStore } from 'react';

export interface Route {
  /** Null at home. */
  campaign: string | null;
  /** Small letters; null for the first stage there is. */
  stage: string | null;
  params: Readonly<Record<string, string>>;
}

let last: { hash: string; route: Route } | null = null;

export function currentRoute(): Route {
  const { hash } = location;
  if (last?.hash !== hash) last = { hash, route: readRoute(hash) };
  return last.route;
}

function readRoute(hash: string): Route {
  const [path = '', query = ''] = hash.replace(/^#\/?/, '').split('?');
  const [campaign, stage] = path.split('/').map(decodePart);
  return {
    campaign: campaign || null,
    stage: stage || null,
    params: Object.fromEntries(new URLSearchParams(query)),
  };
}

export function writeRoute({ campaign, stage, params }: Route): string {
  if (campaign === null) return '#/';
  const query = new URLSearchParams(params).toString();
  const path = [campaign, ...(stage === null ? [] : [stage])].map(encodeURIComponent).join('/');
  return `#/${path}${query === '' ? '' : `?${query}`}`;
}

export function useRoute(): Route {
  return useSyncExternalStore((listener) => {
    addEventListener('hashchange', listener);
    return () => removeEventListener('hashchange', listener);
  }, currentRoute);
}

export const go = (route: Route): void => {
  location.hash = writeRoute(route);
};

/** Opens a stage of the open campaign: `navigate('drill', { hole: 'H3' })`. */
export function useNavigate(): (stage: string, params?: Readonly<Record<string, string>>) => void {
  return useCallback((stage, params = {}) => {
    go({ campaign: currentRoute().campaign, stage: stage.toLowerCase(), params });
  }, []);
}

function decodePart(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}
