/** One figure as it will be printed, in its true size where the screen knows its own; its caption below. */
import { useEffect, useState } from 'react';
import { Field, Mark, printed } from '../../../parts/index.ts';
import type { Listed, Shown } from './protocol.ts';

export function Preview({
  figures,
  shown,
  onChoose,
}: {
  figures: readonly Listed[];
  shown: Shown | null;
  onChoose: (name: string) => void;
}) {
  const url = useUrl(shown?.svg ?? null);
  if (shown === null) return <p role="status">Drawing the figures.</p>;
  return (
    <section className="preview" aria-label="Preview">
      <Field name="Preview of" help={{ about: 'Figure shown here in its printed size' }}>
        {(input) => (
          <select {...input} value={shown.name} onChange={({ target }) => onChoose(target.value)}>
            {figures.map(({ name, words }) => (
              <option key={name} value={name}>
                {words}
              </option>
            ))}
          </select>
        )}
      </Field>
      <p className="quiet">
        {printed(shown.width_mm, Number.isInteger(shown.width_mm) ? 0 : 1)} × {printed(shown.height_mm, 0)} mm
      </p>
      {shown.warnings.map((warning) => (
        <p key={warning} className="warning">
          <Mark name="close" size={18} label="Warning" /> {warning}.
        </p>
      ))}
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a figure wider than the panel is scrolled by keys too */}
      <section className="paper" tabIndex={0} aria-label="Figure in its printed size">
        {url === null ? null : (
          <img
            src={url}
            alt={shown.caption}
            style={{ width: `${shown.width_mm}mm`, height: `${shown.height_mm}mm` }}
          />
        )}
      </section>
      <p className="caption">{shown.caption}</p>
    </section>
  );
}

/** An address of a file while it is shown. */
function useUrl(file: Blob | null): string | null {
  const [url, setUrl] = useState<string | null>(null);
  useEffect(() => {
    if (file === null) return;
    const made = URL.createObjectURL(file);
    setUrl(made);
    return () => URL.revokeObjectURL(made);
  }, [file]);
  return url;
}
