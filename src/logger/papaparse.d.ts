/** The part of papaparse that reading a log needs. Its published types bring those of a file system along. */
declare module "papaparse" {
  interface ParseConfig {
    readonly delimiter: string;
    readonly quoteChar?: string;
    readonly preview?: number;
    readonly skipEmptyLines: boolean;
  }
  interface ParseResult {
    readonly data: readonly (readonly string[])[];
  }
  const Papa: { parse(text: string, config: ParseConfig): ParseResult };
  // biome-ignore lint/style/noDefaultExport: the package is a CommonJS module, whose exports are its default export.
  export default Papa;
}
