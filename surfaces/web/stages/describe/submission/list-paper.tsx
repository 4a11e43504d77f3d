/** A list as it will print, and as the files somebody asks for. */
import type { List } from '@stillstand/output/lists';
import { useMemo } from 'react';
import { Button, download, fileName, PaperPage } from '../../../parts/index.ts';
import './lists.css';

export type Lists = typeof import('@stillstand/output/lists');
export const loadLists = (): Promise<Lists> => import('@stillstand/output/lists');

const WORKBOOK = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

export function ListPaper({ lists, list, name }: { lists: Lists; list: List; name: string }) {
  const html = useMemo(() => lists.listHtml(list), [lists, list]);
  const save = (content: BlobPart, type: string, ending: string): void =>
    download(new Blob([content], { type }), `${fileName(name)}.${ending}`);
  return (
    <>
      <p className="acts">
        <Button mark="save" onClick={() => print()}>
          Print list
        </Button>
        <Button onClick={() => save(lists.listCsv(list), 'text/csv;charset=utf-8', 'csv')}>
          Save as CSV
        </Button>
        <Button onClick={() => save(lists.listXlsx(list) as Uint8Array<ArrayBuffer>, WORKBOOK, 'xlsx')}>
          Save as workbook
        </Button>
        <Button onClick={() => save(html, 'text/html;charset=utf-8', 'html')}>Save as page</Button>
      </p>
      <div className="list-paper">
        <PaperPage html={html} theme="print" />
      </div>
    </>
  );
}
