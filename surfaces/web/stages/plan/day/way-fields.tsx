/** Access to the holes: on foot or by boat, its lowest point or what the boat needs, margin and minutes. */

import { useState } from 'react';
import type { Way } from '../../../days/index.ts';
import { Field, signed } from '../../../parts/index.ts';

/** Minutes; common practice, no source. */
export const USUAL_WAY_MIN = 30;

export function WayFields({
  way: base,
  datum,
  grounds,
  least_m,
  readOnly,
  onKind,
  onChange,
}: {
  /** Its level is NaN until one is entered. */
  way: Way;
  datum: string;
  grounds: readonly { hole: string; elevation_m: number }[];
  /** Below it the usual weather, and what the prediction itself is off, may close the route. */
  least_m: number;
  readOnly: boolean;
  /** Another kind was chosen: its level is still to be written. */
  onKind: (kind: Way['kind']) => void;
  onChange: (way: Way) => void;
}) {
  const [typed, setTyped] = useState<Readonly<Record<string, string>>>({});
  const shown = {
    level: typed['level'] ?? (Number.isFinite(base.level_m) ? base.level_m.toFixed(2).replace('-', '−') : ''),
    margin: typed['margin'] ?? base.margin_m.toFixed(2),
    minutes: typed['minutes'] ?? String(base.minutes),
  };
  const value = (text: string): number | null =>
    /^[+-]?\d+(\.\d+)?$/.test(plain(text)) ? Number(plain(text)) : null;
  const parts = {
    level: { low: -20, high: 20, fault: 'Enter metres above the datum, such as 0.40 or -0.25.' },
    margin: { low: 0, high: 5, fault: 'Enter metres, such as 0.30.' },
    minutes: { low: 0, high: 600, fault: 'Enter minutes, such as 30.' },
  };
  const isRight = (name: keyof typeof parts): boolean => {
    const found = value(shown[name]);
    return found !== null && found >= parts[name].low && found <= parts[name].high;
  };
  const entry = (name: keyof typeof parts) => ({
    value: shown[name],
    disabled: readOnly,
    inputMode: 'decimal' as const,
    autoComplete: 'off',
    onChange: (event: { target: { value: string } }) =>
      setTyped((before) => ({ ...before, [name]: event.target.value })),
    onBlur: () => {
      if (typed[name] === undefined || !isRight(name)) return;
      const next: Way = {
        ...base,
        ...(typed['level'] !== undefined && isRight('level') ? { level_m: value(shown.level)! } : {}),
        ...(typed['margin'] !== undefined && isRight('margin') ? { margin_m: value(shown.margin)! } : {}),
        ...(typed['minutes'] !== undefined && isRight('minutes') ? { minutes: value(shown.minutes)! } : {}),
      };
      // Without a level there is no access to keep yet: what was typed waits for it.
      if (!Number.isFinite(next.level_m)) return;
      setTyped(({ [name]: _, ...before }) =>
        Object.fromEntries(Object.entries(before).filter(([other]) => !isRight(other as keyof typeof parts))),
      );
      onChange(next);
    },
    onKeyDown: (event: { key: string; currentTarget: HTMLInputElement }) => {
      if (event.key === 'Enter') event.currentTarget.blur();
    },
  });
  const fault = (name: keyof typeof parts): string | null =>
    shown[name] !== '' && !isRight(name) ? parts[name].fault : null;
  const isBoat = base.kind === 'boat';
  return (
    <div className="fields way">
      <Field
        name="Access"
        help={{
          about:
            'On foot, access is open while the water is below the lowest point of the route; by boat, while it is above the level the boat needs',
        }}
      >
        {(input) => (
          <select
            {...input}
            value={base.kind}
            disabled={readOnly}
            onChange={(event) => {
              setTyped({});
              onKind(event.target.value === 'boat' ? 'boat' : 'foot');
            }}
          >
            <option value="foot">on foot</option>
            <option value="boat">by boat</option>
          </select>
        )}
      </Field>
      <Field
        name={isBoat ? 'Minimum water level' : 'Lowest point on route'}
        unit="m"
        fault={fault('level')}
        help={{
          about: isBoat
            ? `Level the water must reach: the highest ground the boat passes and its draught, above ${datum || 'the datum'}`
            : `Lowest point of the route, a channel or a crossing, or the lowest ground worked on, above ${datum || 'the datum'}; level it like a hole`,
          unit: 'm',
          ...(grounds.length === 0
            ? {}
            : { range: grounds.map((g) => `${g.hole} ${signed(g.elevation_m, 2)}`).join(', ') }),
        }}
      >
        {(input) => <input {...input} {...entry('level')} />}
      </Field>
      <Field
        name="Margin"
        unit="m"
        fault={
          fault('margin') ??
          (base.margin_m < least_m
            ? `Below ${least_m.toFixed(2)} m the usual weather and the error of the prediction alone may close the route.`
            : null)
        }
        help={{
          about:
            'Safety margin on water level: at least 2σ of the difference between observed and predicted tide',
          unit: 'm',
          range: `${least_m.toFixed(2)} and more on an open coast in quiet weather`,
          source: 'Common practice, no source; compare your own gauge readings with the prediction',
        }}
      >
        {(input) => <input {...input} {...entry('margin')} />}
      </Field>
      <Field
        name="Travel time"
        unit="min"
        fault={fault('minutes')}
        help={{
          about: 'Time from packing the last tool until past the lowest point, fully loaded',
          unit: 'min',
          range: '15 to 90',
        }}
      >
        {(input) => <input {...input} {...entry('minutes')} />}
      </Field>
    </div>
  );
}

const plain = (text: string): string => text.trim().replace('−', '-').replace(',', '.');
