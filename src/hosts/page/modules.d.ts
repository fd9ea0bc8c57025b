/** Files that the bundler turns into modules. */
declare module "*.css";

declare module "*.xml" {
  export const text: string;
}
