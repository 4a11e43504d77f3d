/** Where a table comes from: a file chosen or dropped, or cells pasted. */
import { readTheirs } from '@stillstand/campaign/import';
import { useRef, useState } from 'react';
import { Button, Field } from '../parts/index.ts';
import './source.css';

/** A file as it was read, with what is wrong with it. */
export type Read = Awaited<ReturnType<typeof readTheirs>>;

export function Source({ onTable }: { onTable: (table: Read) => void }) {
  const input = useRef<HTMLInputElement>(null);
  const [isOver, setOver] = useState(false);
  const [pasted, setPasted] = useState('');
  const read = async (name: string, bytes: Uint8Array): Promise<void> =>
    onTable(await readTheirs(name, bytes));
  const take = async (file: File): Promise<void> => read(file.name, new Uint8Array(await file.arrayBuffer()));
  const takePasted = (): void => void read('pasted cells', new TextEncoder().encode(pasted));
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: a file can also be chosen by the button in it
    <div
      className={isOver ? 'import-source over' : 'import-source'}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => {
        event.preventDefault();
        setOver(false);
        const [file] = event.dataTransfer.files;
        if (file !== undefined) void take(file);
      }}
    >
      <p>
        A spreadsheet (.xlsx) or CSV as it is. Nothing is added before you have seen what becomes of every
        line.
      </p>
      <Button kind="main" mark="open" onClick={() => input.current?.click()}>
        Choose a file
      </Button>
      <input
        ref={input}
        type="file"
        hidden
        accept=".csv,.tsv,.txt,.xlsx,text/csv"
        onChange={(event) => {
          const [file] = event.target.files ?? [];
          event.target.value = '';
          if (file !== undefined) void take(file);
        }}
      />
      <Field
        name="Or paste cells here"
        help={{ about: 'Copied from a spreadsheet with their headings, or lines of a CSV' }}
      >
        {(field) => (
          <textarea
            {...field}
            rows={5}
            value={pasted}
            spellCheck={false}
            onChange={(event) => setPasted(event.target.value)}
          />
        )}
      </Field>
      <Button disabled={pasted.trim() === ''} onClick={takePasted}>
        Read what was pasted
      </Button>
    </div>
  );
}
