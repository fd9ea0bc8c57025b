import { copyFileSync, existsSync, linkSync, renameSync, unlinkSync } from "node:fs";
import { temporaryNameFor } from "./temporary-file.js";

/** A file that is filled, and the place that it is to take. */
export interface FilledFile {
  readonly temporary: string;
  readonly path: string;
}

/**
 * Lets files that belong together take their places in one go: Ctrl-C is heard before the first or after the last of them,
 * and where one is refused its place, those before it get back what was there. A process that is killed in between leaves
 * files of two runs: such files have to say of which run they are.
 */
export function replaceTogether(files: readonly FilledFile[]): void {
  // One file alone takes its place in one step, and has no old one to be kept.
  const isAlone = files.length === 1;
  const before = files.map(({ path }) => ({ path, old: temporaryNameFor(path), wasThere: existsSync(path) }));
  const placed: typeof before = [];
  try {
    for (const { path, old, wasThere } of before) if (wasThere && !isAlone) keepAs(path, old);
    for (const [index, { temporary, path }] of files.entries()) {
      renameSync(temporary, path);
      placed.push(...before.slice(index, index + 1));
    }
  } catch (cause) {
    for (const { path, old, wasThere } of placed)
      attempted(() => (wasThere ? renameSync(old, path) : unlinkSync(path)));
    throw cause;
  } finally {
    if (!isAlone) for (const { old } of before) attempted(() => unlinkSync(old));
  }
}

/** Gives a file a second name; where the disk knows no links, a copy has it. */
function keepAs(path: string, name: string): void {
  try {
    linkSync(path, name);
  } catch {
    copyFileSync(path, name);
  }
}

/** Does what may fail. */
function attempted(act: () => void): void {
  try {
    act();
  } catch {
    // It is not there, or the next save in its folder removes it as what a killed process left.
  }
}
