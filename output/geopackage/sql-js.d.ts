/** The part of sql.js that we use. This build has its WebAssembly inside: no file beside it is fetched. */
declare module 'sql.js/dist/sql-wasm-inline.js' {
  function initSqlJs(): Promise<{ Database: new (bytes?: Uint8Array) => initSqlJs.Database }>;
  namespace initSqlJs {
    type Value = string | number | Uint8Array | null;
    interface Statement {
      run(values: readonly Value[]): void;
      free(): boolean;
    }
    interface Database {
      run(sql: string, values?: readonly Value[]): Database;
      exec(sql: string): { columns: string[]; values: Value[][] }[];
      prepare(sql: string): Statement;
      /** The bytes of the file. */
      export(): Uint8Array;
      close(): void;
    }
  }
  export = initSqlJs;
}
