/** A label held before the camera, photographed, or typed: what carries it is opened. */
import { type CodeFound, thingOfCode } from '@stillstand/campaign/chain';
import type { Campaign } from '@stillstand/campaign/document';
import { Dialog } from '../../../parts/index.ts';
import { CodeScanner } from '../../../scan/index.ts';

export type Found = Extract<CodeFound, { ok: true }>;

export function ScanDialog({
  campaign,
  onFound,
  onClose,
}: {
  campaign: Campaign;
  onFound: (found: Found) => void;
  onClose: () => void;
}) {
  return (
    <Dialog title="Scan a label" onClose={onClose}>
      <CodeScanner
        thing="label"
        field="Code or label"
        about="What is written on the label: its name, the code in words, or a registered identifier"
        action="Open label"
        onCode={(text) => {
          const found = thingOfCode(campaign, text);
          if (!found.ok)
            return `Found “${found.found.slice(0, 60)}”; expected ${found.expected}. ${found.fix}`;
          onFound(found);
          return null;
        }}
      />
    </Dialog>
  );
}
