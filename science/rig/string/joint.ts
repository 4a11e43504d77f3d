/** An item added to the string or taken from it. */

import { metres } from '../finding.ts';
import { find, lengthOf, type OpenHole } from '../hole/open-hole.ts';
import type { JointReading } from '../reading.ts';
import { itemName as nameOf } from './account.ts';
import { addItem, collarToShoe, lieAt, takeItem } from './string.ts';

export function takeJoint(hole: OpenHole, reading: JointReading): void {
  const { string } = hole;
  const before = lengthOf(hole);
  if (reading.action === 'add') {
    if (reading.item === 'joint' && (reading.length_m === null || reading.length_m <= 0)) {
      find(hole, reading, 'joint-length-missing', 'error', {
        found: `joint ${reading.label ?? 'without label'} ${reading.length_m === null ? 'without length' : metres(reading.length_m)}`,
        expected: 'its length, end to end',
        fix: 'Enter the length; until then collar to shoe and everything that depends on it are unknown.',
      });
    }
    const length_m = reading.length_m !== null && reading.length_m > 0 ? reading.length_m : null;
    const change = addItem(string, { ...reading, length_m });
    if (!change.ok) {
      find(hole, reading, 'joint-twice', 'error', {
        found: `${nameOf(reading)} added while it is in the string`,
        expected: 'each label once',
        fix: 'Withdraw the second row, or give the second item its own label. Not counted.',
      });
      return;
    }
  } else {
    if (reading.action === 'left' || reading.action === 'lost') {
      lieAt(string.items, hole.settings.makeup_loss_m, hole.shoeAt);
    }
    const change = takeItem(string, reading, hole.settings.makeup_loss_m);
    if (!change.ok) {
      find(hole, reading, 'item-not-in-string', 'error', {
        found: `${nameOf(reading)} ${reading.action}`,
        expected: 'an item that is in the string',
        fix: 'Correct its label, or add the row that put it in.',
      });
      return;
    }
    if (change.outOfOrder.length > 0) {
      find(hole, reading, 'out-of-order', 'warning', {
        found: `${nameOf(reading)} ${reading.action} from below ${change.outOfOrder.map(nameOf).join(', ')}`,
        expected: 'the topmost item',
        fix: 'Enter the items above it first, or correct the label.',
      });
    }
    if (reading.action === 'lost' && change.gone.length > 0) {
      hole.lost = true;
      find(hole, reading, 'string-lost', 'danger', {
        found: `lost: ${change.gone.map(nameOf).join(', ')}`,
        expected: 'every item back',
        fix: 'End this hole and start a new one next to it that names this one as the replaced hole.',
      });
    }
  }
  // The string stands still while a joint is added or taken off at the top: the collar moves by what was added.
  const after = collarToShoe(string, hole.settings.makeup_loss_m);
  hole.length = after;
  const still = reading.action === 'add' || reading.action === 'remove' || reading.action === 'cut';
  if (!still) hole.stickUp = null;
  else if (hole.stickUp !== null) {
    hole.stickUp = before !== null && after !== null ? hole.stickUp + after - before : null;
  }
}
