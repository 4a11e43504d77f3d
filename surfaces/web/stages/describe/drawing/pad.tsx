/** A place in a drawing that can be pressed: it lies over what it names and has no words of its own. */
import './pad.css';

export function Pad({
  name,
  role = 'button',
  isPressed,
  x,
  y,
  width,
  height,
  onPress,
}: {
  name: string;
  role?: 'button' | 'link';
  isPressed?: boolean;
  x: number;
  y: number;
  width: number;
  height: number;
  onPress: () => void;
}) {
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: its role is given, a button or a link
    // biome-ignore lint/a11y/useAriaPropsSupportedByRole: only buttons are given it
    <rect
      role={role}
      tabIndex={0}
      aria-label={name}
      aria-pressed={isPressed}
      className="pick-pad"
      x={x}
      y={y}
      width={width}
      height={height}
      onClick={onPress}
      onKeyDown={(event) => {
        if (event.key !== 'Enter' && (event.key !== ' ' || role === 'link')) return;
        event.preventDefault();
        onPress();
      }}
    />
  );
}
