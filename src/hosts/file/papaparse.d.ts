/** The part of papaparse that writing a list needs. Its published types bring those of a browser along. */
declare module "papaparse" {
  interface UnparseConfig {
    readonly escapeFormulae: boolean;
  }
  const Papa: { unparse(rows: readonly (readonly unknown[])[], config: UnparseConfig): string };
  // biome-ignore lint/style/noDefaultExport: the package is a CommonJS module, whose exports are its default export.
  export default Papa;
}
