/** Sound and vibration that repeat a danger already on the screen in shape and word; only where the crew allows them. */
import { useEffect, useRef } from 'react';

const KEY = 'stillstand.alarm';

export const alarmAllowed = (): boolean => localStorage.getItem(KEY) !== 'off';
export const allowAlarm = (allowed: boolean): void => localStorage.setItem(KEY, allowed ? 'on' : 'off');

let context: AudioContext | null = null;

/** Three short tones of 880 Hz and as many shakes. A browser that forbids either before a touch stays silent. */
export function soundAlarm(): void {
  if (!alarmAllowed()) return;
  navigator.vibrate?.([220, 110, 220, 110, 220]);
  try {
    context ??= new AudioContext();
    void context.resume();
    for (let i = 0; i < 3; i++) tone(context, context.currentTime + i * 0.33);
  } catch {
    // no sound on this device: the screen says it all the same
  }
}

/** Sounds when the hole in sight has more dangers than a moment before; not when another hole is opened. */
export function useAlarm(hole: string, dangers: number): void {
  const heard = useRef({ hole, dangers });
  useEffect(() => {
    if (heard.current.hole === hole && dangers > heard.current.dangers) soundAlarm();
    heard.current = { hole, dangers };
  }, [hole, dangers]);
}

function tone(audio: AudioContext, at: number): void {
  const oscillator = audio.createOscillator();
  const gain = audio.createGain();
  oscillator.type = 'square';
  oscillator.frequency.value = 880;
  gain.gain.setValueAtTime(0.0001, at);
  gain.gain.exponentialRampToValueAtTime(0.25, at + 0.02);
  gain.gain.exponentialRampToValueAtTime(0.0001, at + 0.22);
  oscillator.connect(gain).connect(audio.destination);
  oscillator.start(at);
  oscillator.stop(at + 0.24);
}
