import { createHash } from "node:crypto";
import type { Compilation, Compiler } from "webpack";

/** Stands in a file for the mark of the build, and in a script for the text of the list of files. */
const BUILD_MARK = "%BUILD%";
const FILES_MARK = '"%FILES%"';

/** A file of the folder: where it lies, and what is in it. */
interface Listed {
  readonly url: string;
  readonly revision: string;
}

function hashOf(contents: Iterable<string | Buffer>): string {
  const hash = createHash("sha256");
  for (const content of contents) hash.update(content);
  return hash.digest("hex").slice(0, 12);
}

/** Which files of a folder a start without a network needs, and which the page asks for by the mark of the build. */
export interface StampedFolder {
  readonly isNeededOffline: (name: string) => boolean;
  /** Scripts and styles that the page asks for with the mark of the build behind their names. */
  readonly isMarked: (name: string) => boolean;
}

/** Puts the mark of the build, which follows from every file in it, and the list of files where they are named. */
export class FolderStamp {
  readonly folder: StampedFolder;

  constructor(folder: StampedFolder) {
    this.folder = folder;
  }

  apply(compiler: Compiler): void {
    const { Compilation, sources } = compiler.webpack;
    compiler.hooks.thisCompilation.tap("FolderStamp", (compilation: Compilation) => {
      const stage = Compilation.PROCESS_ASSETS_STAGE_REPORT;
      compilation.hooks.processAssets.tap({ name: "FolderStamp", stage }, (assets) => {
        const names = Object.keys(assets)
          .filter((name) => !name.endsWith(".map"))
          .sort();
        const content = (name: string) => compilation.getAsset(name)?.source.buffer() ?? Buffer.alloc(0);
        const build = hashOf(names.map(content));
        const replace = (name: string, mark: string, text: string) => {
          const before = content(name).toString("utf8");
          if (before.includes(mark))
            compilation.updateAsset(name, new sources.RawSource(before.replaceAll(mark, text)));
        };
        for (const name of names) if (/\.(html|js)$/.test(name)) replace(name, BUILD_MARK, build);
        const listed = names.filter(this.folder.isNeededOffline).map((name): Listed => {
          const url = this.folder.isMarked(name) ? `${name}?v=${build}` : name;
          return { url, revision: hashOf([content(name)]) };
        });
        replace("service-worker.js", FILES_MARK, JSON.stringify(JSON.stringify(listed)));
        compilation.emitAsset("files.json", new sources.RawSource(`${JSON.stringify(names, null, 1)}\n`));
      });
    });
  }
}
