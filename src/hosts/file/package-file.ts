import { existsSync } from "node:fs";
import { dirname, join } from "node:path";

/** Returns the path of a file that comes with the package, such as a template, wherever this code runs from. */
export function packageFile(name: string): string {
  for (let folder = import.meta.dirname; ; folder = dirname(folder)) {
    if (existsSync(join(folder, "package.json"))) return join(folder, name);
    if (folder === dirname(folder)) throw new Error(`${name} is missing. Install Vanesheet again.`);
  }
}
