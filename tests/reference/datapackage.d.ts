/** What the tests use of the reference implementation of the Data Package standard, which comes without types. */
declare module 'datapackage' {
  interface Field {
    name: string;
    type: string;
    unit?: string;
    description?: string;
    constraints?: { required?: boolean; enum?: readonly string[] };
  }
  interface Descriptor {
    created: string;
    resources: readonly {
      name: string;
      path: string;
      bytes: number;
      hash: string;
      rows: number;
      schema: {
        fields: readonly Field[];
        primaryKey: readonly string[];
        foreignKeys?: readonly { fields: string; reference: { resource: string; fields: string } }[];
      };
    }[];
  }
  interface Resource {
    readonly name: string;
    readonly valid: boolean;
    readonly errors: readonly Error[];
    /** The file's path. */
    readonly source: string;
    read(options: { keyed: true; relations?: boolean }): Promise<Record<string, unknown>[]>;
    rawRead(): Promise<Buffer>;
  }
  export const Package: {
    load(
      descriptor: string | object,
      options?: { basePath?: string; strict?: boolean },
    ): Promise<{
      readonly valid: boolean;
      readonly errors: readonly Error[];
      readonly resources: readonly Resource[];
      readonly descriptor: Descriptor;
      getResource(name: string): Resource | null;
    }>;
  };
}
