import { useEffect, useState } from 'react';

/**
 * A room that is loaded when it is first asked for; null until it is there. Where that fails, the frame says so and offers
 * to try again. `load` is the same function at every call.
 */
export function useLoaded<Room>(load: () => Promise<Room>): Room | null {
  const [room, setRoom] = useState<Room | Error | null>(null);
  useEffect(() => {
    let isOver = false;
    void load()
      .catch((error: unknown) => new Error(String(error)))
      .then((loaded) => {
        if (!isOver) setRoom(() => loaded);
      });
    return () => {
      isOver = true;
    };
  }, [load]);
  if (room instanceof Error) throw room;
  return room;
}
