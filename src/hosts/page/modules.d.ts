/** Files that the bundler turns into modules. */
declare module "*.css";

declare module "*.xml" {
  const text: string;
  // biome-ignore lint/style/noDefaultExport: the bundler gives a file's text as its default export.
  export default text;
}

/** What only some browsers have, and the library of types therefore lacks. */
interface Window {
  readonly showOpenFilePicker?: (options: object) => Promise<FileSystemFileHandle[]>;
  readonly showSaveFilePicker?: (options: object) => Promise<FileSystemFileHandle>;
}

interface FileSystemHandle {
  requestPermission?(options: { readonly mode: "readwrite" }): Promise<PermissionState>;
}

interface DataTransferItem {
  getAsFileSystemHandle?(): Promise<FileSystemHandle | null>;
}
