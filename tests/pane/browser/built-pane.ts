import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, renameSync, rmSync, statSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import MiniCssExtractPlugin from "mini-css-extract-plugin";
import webpack from "webpack";
import { RESOLVE_SOURCES, sourceRules } from "../../../src/tools/bundle-sources.js";

const PAGE = `<!doctype html><html lang="en"><head><meta charset="utf-8"><title>The pane</title>
<meta name="viewport" content="width=device-width, initial-scale=1"><meta name="color-scheme" content="light dark">
<link rel="stylesheet" href="pane.css"></head><body class="vs-whole"><main id="pane"></main>
<script src="pane.js"></script></body></html>`;

/** Builds lie here, each under what it was made of. */
const BUILDS = resolve(".cache/pane-tests");

/** What the pane of the tests is made of. */
const MADE_OF = [
  "src",
  "shared",
  "tests/pane/browser/pane-entry.ts",
  "tests/pane/browser/built-pane.ts",
  "package-lock.json",
];

/** A test file that builds and is stopped holds the others up no longer than this [ms]. */
const LONGEST_BUILD_MS = 200_000;

function filesOf(path: string): readonly string[] {
  if (!statSync(path).isDirectory()) return [path];
  return readdirSync(path, { recursive: true, encoding: "utf8" }).map((name) => join(path, name));
}

function keyOfSources(): string {
  const hash = createHash("sha256");
  for (const file of MADE_OF.flatMap(filesOf).sort()) {
    const { mtimeMs, size } = statSync(file);
    hash.update(`${file} ${mtimeMs} ${size}\n`);
  }
  return hash.digest("hex").slice(0, 16);
}

function build(folder: string): Promise<void> {
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, "index.html"), PAGE);
  return new Promise((done, failed) => {
    webpack(
      {
        mode: "development",
        devtool: false,
        cache: { type: "filesystem", cacheDirectory: resolve(".cache/webpack"), name: "pane-tests" },
        target: ["web", "es2022"],
        entry: { pane: resolve("tests/pane/browser/pane-entry.ts") },
        output: { path: folder, filename: "[name].js" },
        resolve: RESOLVE_SOURCES,
        module: { rules: [...sourceRules()] },
        plugins: [new MiniCssExtractPlugin({ filename: "[name].css" })],
      },
      (error, stats) => {
        if (error) failed(error);
        else if (stats?.hasErrors()) failed(new Error(stats.toString("errors-only")));
        else done();
      },
    );
  });
}

/** Sources that change while tests run make another build beside the one that is open. */
const LONGEST_RUN_MS = 7_200_000;

const isUnused = (path: string) => existsSync(path) && Date.now() - statSync(path).mtimeMs > LONGEST_RUN_MS;

/** Whether this test file is the one to build; another may be at it. */
function takesLock(lock: string): boolean {
  try {
    mkdirSync(lock);
    return true;
  } catch {
    const age = existsSync(lock) ? Date.now() - statSync(lock).mtimeMs : 0;
    if (age > LONGEST_BUILD_MS) rmSync(lock, { recursive: true, force: true });
    return false;
  }
}

/** Returns the folder of the pane as built of the sources as they are; one test file builds it for all of them. */
export async function builtPane(): Promise<string> {
  const key = keyOfSources();
  const [folder, lock] = [join(BUILDS, key), join(BUILDS, `${key}.lock`)];
  mkdirSync(BUILDS, { recursive: true });
  while (!existsSync(folder)) {
    if (!takesLock(lock)) {
      await new Promise((done) => setTimeout(done, 200));
      continue;
    }
    try {
      const unfinished = join(BUILDS, `${key}.unfinished`);
      await build(unfinished);
      for (const old of readdirSync(BUILDS)) {
        if (isUnused(join(BUILDS, old))) rmSync(join(BUILDS, old), { recursive: true, force: true });
      }
      renameSync(unfinished, folder);
    } finally {
      rmSync(lock, { recursive: true, force: true });
    }
  }
  return folder;
}
