/** The part of papaparse that writing and reading a list needs. Its published types bring those of a browser along. */
declare module "papaparse" {
  interface UnparseConfig {
    readonly escapeFormulae: boolean;
  }
  interface ParseConfig {
    readonly delimitersToGuess: readonly string[];
  }
  const Papa: {
    unparse(rows: readonly (readonly unknown[])[], config: UnparseConfig): string;
    parse(text: string, config: ParseConfig): { readonly data: readonly (readonly string[])[] };
  };
  // biome-ignore lint/style/noDefaultExport: the package is a CommonJS module, whose exports are its default export.
  export default Papa;
}
