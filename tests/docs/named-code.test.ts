import { existsSync, readdirSync, readFileSync } from "node:fs";
import { basename, join, resolve } from "node:path";
import { describe, expect, it } from "vitest";

const root = resolve(import.meta.dirname, "../..");

/** Pages for those who change the code; all others speak to those who use it. */
const PAGES = ["DEVELOPERS.md", "docs/architecture.md"] as const;

/** Folders in which what the pages name stands. */
const FOLDERS = ["src", "tests", "shared", "docs", "manifest", "templates", ".ci"];

/** Words of the pages that stand for a name of the reader's own, each with its page's place. */
const STANDS_FOR: ReadonlySet<string> = new Set(["vaneGroupWord", "vVERSION"]);

const files = FOLDERS.flatMap((folder) =>
  readdirSync(join(root, folder), { recursive: true, encoding: "utf8" }).map((path) => join(folder, path)),
);
const names = new Set(files.map((path) => basename(path)));
const code = files
  .filter((path) => /\.(?:ts|tsx|mjs|json)$/.test(path))
  .map((path) => readFileSync(join(root, path), "utf8"))
  .join("\n");
const words = new Set(code.match(/\w+/g));

/** Paths from the repository's root, as a source where a page names what is compiled from it. */
function pathsIn(text: string): readonly string[] {
  const found = text.match(
    /(?<![\w/.-])(?:src|tests|docs|shared|build|manifest|templates|\.ci)\/[\w./-]*\w(?![\w…-])/g,
  );
  return (found ?? []).map((path) => (path.startsWith("build/") ? path.slice(6).replace(/\.js$/, ".ts") : path));
}

function fileNamesIn(text: string): readonly string[] {
  const found = text.match(/(?<![\w/.-])[\w-]+\.(?:tsx|tsv|ts|mjs|md|json|fods|txt)\b/g);
  return found ?? [];
}

/** Names of code between backticks: a call's name, or one word with a capital or an underscore. */
function wordsIn(text: string): readonly string[] {
  const quoted = [...text.matchAll(/`([A-Za-z_]\w+)(?:\([^`]*\))?`/g)].map(([, word = ""]) => word);
  return quoted.filter((word) => /[a-z][A-Z]|^[A-Z]+_[A-Z_]+$/.test(word) && !STANDS_FOR.has(word));
}

describe.each(PAGES)("%s", (page) => {
  const text = readFileSync(join(root, page), "utf8");

  it("names no path and no file that is not there", () => {
    expect(pathsIn(text).length).toBeGreaterThan(20);
    expect(pathsIn(text).filter((path) => !existsSync(join(root, path)))).toEqual([]);
    expect(fileNamesIn(text).filter((name) => !names.has(name) && !existsSync(join(root, name)))).toEqual([]);
  });

  it("names no function, type or constant that is not there", () => {
    expect(wordsIn(text).length).toBeGreaterThan(10);
    expect(wordsIn(text).filter((word) => !words.has(word))).toEqual([]);
  });
});

describe("what finds such names", () => {
  it("finds them in paths, in files alone and in words of code", () => {
    const text = "`src/nowhere/gone.ts` and gone.ts; `goneFor(one, two)`, `GONE_NAME`, node build/src/tools/gone.js";
    expect(pathsIn(text)).toEqual(["src/nowhere/gone.ts", "src/tools/gone.ts"]);
    expect(fileNamesIn(text)).toContain("gone.ts");
    expect(wordsIn(text)).toEqual(["goneFor", "GONE_NAME"]);
  });
});
