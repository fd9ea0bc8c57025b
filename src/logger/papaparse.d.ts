/** The part of papaparse that reading a log needs. Its published types bring those of a file system along. */
declare module "papaparse" {
  interface ParserConfig {
    readonly delimiter: string;
    readonly newline: "\n" | "\r";
  }
  interface ParserResult {
    readonly data: readonly (readonly string[])[];
    /** How far the text was read: with `ignoreLastRow`, to the end of the last whole row. */
    readonly meta: { readonly cursor: number };
  }
  interface Parser {
    parse(text: string, baseIndex: number, ignoreLastRow: boolean): ParserResult;
  }
  const Papa: { readonly Parser: new (config: ParserConfig) => Parser };
  // biome-ignore lint/style/noDefaultExport: the package is a CommonJS module, whose exports are its default export.
  export default Papa;
}
