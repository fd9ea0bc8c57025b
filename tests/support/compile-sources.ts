import { spawnSync } from "node:child_process";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";

/** Brings the compiled sources up to date before tests run them. */
export function setup(): void {
  const compiler = join(dirname(createRequire(import.meta.url).resolve("typescript/package.json")), "bin", "tsc");
  const { status, stdout } = spawnSync(process.execPath, [compiler, "-b"], { encoding: "utf8" });
  if (status !== 0) throw new Error(`The sources do not compile.\n${stdout}`);
}
