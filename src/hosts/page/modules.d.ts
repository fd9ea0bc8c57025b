/** Files that the bundler turns into modules. */
declare module "*.css";

declare module "*.xml" {
  const text: string;
  // biome-ignore lint/style/noDefaultExport: the bundler gives a file's text as its default export.
  export default text;
}
