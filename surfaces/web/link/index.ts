/** A direct link between two devices on one network, without internet; loaded when it is asked for. */
export { LinkDialog } from './link-dialog.tsx';
