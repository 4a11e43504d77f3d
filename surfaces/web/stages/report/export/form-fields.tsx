/** Formats, size and form of the exported figures. */
import { WIDTHS_MM } from '@stillstand/output/figures';
import { Field } from '../../../parts/index.ts';
import { type Choices, FORMATS, WIDTHS } from './choices.ts';

const FORMAT_HELP = {
  svg: 'Lines and letters that a drawing program can edit; the fonts are inside',
  pdf: 'One page in the size of the figure; the fonts are embedded',
  png: 'A picture of dots, which says how many there are to the inch',
} as const;

interface Props {
  choices: Choices;
  change: (changed: Partial<Choices>) => void;
}

export function FormFields({ choices, change, fault }: Props & { fault: string | undefined }) {
  return (
    <>
      <fieldset className="formats">
        <legend>Formats</legend>
        {FORMATS.map((format) => (
          <label key={format} className="tick" title={FORMAT_HELP[format]}>
            <input
              type="checkbox"
              checked={choices.formats.includes(format)}
              onChange={({ target }) =>
                change({
                  formats: FORMATS.filter((each) =>
                    each === format ? target.checked : choices.formats.includes(each),
                  ),
                })
              }
            />
            {format.toUpperCase()}
          </label>
        ))}
      </fieldset>
      <div className="fields">
        <Field
          name="Width"
          help={{
            about: 'Width of the figure on paper. It is laid out at this width, never scaled',
            unit: 'mm',
            taken: `${WIDTHS_MM.least} to ${WIDTHS_MM.most} mm`,
          }}
        >
          {(input) => (
            <select
              {...input}
              value={choices.width}
              onChange={({ target }) => change({ width: target.value })}
            >
              {WIDTHS.map((width) => (
                <option key={width} value={width}>
                  {width} mm
                </option>
              ))}
              <option value="typed">Other width</option>
            </select>
          )}
        </Field>
        {choices.width !== 'typed' ? null : (
          <Field
            name="Other width"
            unit="mm"
            fault={fault}
            help={{
              about: 'Width as the journal asks for it',
              taken: `${WIDTHS_MM.least} to ${WIDTHS_MM.most} mm`,
            }}
          >
            {(input) => (
              <input
                {...input}
                inputMode="decimal"
                value={choices.typed}
                onChange={({ target }) => change({ typed: target.value })}
              />
            )}
          </Field>
        )}
        <Field
          name="PNG resolution"
          help={{ about: 'Dots to the inch of a PNG; journals ask for 300 or 600' }}
        >
          {(input) => (
            <select {...input} value={choices.dots} onChange={({ target }) => change({ dots: target.value })}>
              <option value="300">300 dpi</option>
              <option value="600">600 dpi</option>
            </select>
          )}
        </Field>
        <Field name="Decimal mark" help={{ about: 'Mark before the decimals in figures and captions' }}>
          {(input) => (
            <select
              {...input}
              value={choices.decimals}
              onChange={({ target }) => change({ decimals: target.value as Choices['decimals'] })}
            >
              <option value="point">Point, 1,234.5</option>
              <option value="comma">Comma, 1 234,5</option>
            </select>
          )}
        </Field>
      </div>
      <label
        className="tick"
        title="Title, counts, diagnostics and caption are left off; warnings go first in the caption, zeros have no slash"
      >
        <input
          type="checkbox"
          checked={choices.journal}
          onChange={({ target }) => change({ journal: target.checked })}
        />
        Captions in a separate file, no titles
      </label>
      <label className="tick" title="Shades of grey; tone, pattern and shape replace colour">
        <input
          type="checkbox"
          checked={choices.grey}
          onChange={({ target }) => change({ grey: target.checked })}
        />
        Shades of grey
      </label>
    </>
  );
}
