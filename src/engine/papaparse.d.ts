/** The part of papaparse that reading pasted text needs. Its published types bring those of a browser along. */
declare module "papaparse" {
  interface Parser {
    parse(text: string, baseIndex: number, ignoreLastRow: boolean): { readonly data: readonly (readonly string[])[] };
  }
  const Papa: { readonly Parser: new (config: { readonly delimiter: string; readonly newline: string }) => Parser };
  // biome-ignore lint/style/noDefaultExport: the package is a CommonJS module, whose exports are its default export.
  export default Papa;
}
