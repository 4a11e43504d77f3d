/** A row that is on the screen and not yet on the device. What is written within a blink is not marked. */
import './unsaved-mark.css';

export function UnsavedMark({ saved }: { saved: 'saved' | 'saving' | 'failed' }) {
  return (
    <span className="unsaved-mark" data-saving={saved}>
      {saved === 'failed' ? 'not saved' : 'saving'}
    </span>
  );
}
