import type { Compilation, Compiler } from "webpack";
import { hostingFiles } from "./hosting.js";

/** Puts the ready configurations for servers into the folder. */
export class HostingFiles {
  apply(compiler: Compiler): void {
    const { sources, Compilation } = compiler.webpack;
    compiler.hooks.thisCompilation.tap("HostingFiles", (compilation: Compilation) => {
      const stage = Compilation.PROCESS_ASSETS_STAGE_ADDITIONAL;
      compilation.hooks.processAssets.tap({ name: "HostingFiles", stage }, () => {
        for (const [name, text] of hostingFiles()) compilation.emitAsset(name, new sources.RawSource(text));
      });
    });
  }
}
