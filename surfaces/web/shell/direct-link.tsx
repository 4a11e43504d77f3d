import type { ComponentProps } from 'react';
import { Dialog, useLoaded } from '../parts/index.ts';

const load = () => import('../link/index.ts');
type LinkDialog = Awaited<ReturnType<typeof load>>['LinkDialog'];

/** Copies exchanged with a device nearby; its parts are loaded when it is opened. */
export function DirectLink(props: ComponentProps<LinkDialog>) {
  const room = useLoaded(load);
  if (room !== null) return <room.LinkDialog {...props} />;
  return (
    <Dialog title="Direct link" onClose={props.onClose}>
      <p role="status">Loading…</p>
    </Dialog>
  );
}
