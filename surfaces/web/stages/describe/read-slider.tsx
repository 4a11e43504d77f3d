/** A slider that reads a drawing at one depth or age, as a press in it does. */
import type { ComponentProps } from 'react';
import './read-slider.css';

export function ReadSlider({ words, ...input }: { words: string } & Omit<ComponentProps<'input'>, 'type'>) {
  return (
    <label className="read-slider">
      {words}
      <input type="range" {...input} />
    </label>
  );
}
