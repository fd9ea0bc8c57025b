import { existsSync, readFileSync } from "node:fs";
import { resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { COMMAND_NAMES } from "../../src/cli/main.js";

const root = resolve(import.meta.dirname, "../..");

describe("docs/command-line.md", () => {
  it("tells every command", () => {
    const text = readFileSync(resolve(root, "docs/command-line.md"), "utf8");
    const [, table = ""] = text.split("| command | what it does |\n|---|---|\n");
    const rows = table.split("\n\n")[0] ?? "";
    const told = new Set([...rows.matchAll(/^\| `([a-z]+)/gm)].map(([, name]) => name));
    expect([...told].sort(), "give each of COMMANDS (src/cli/main.ts) its row in docs/command-line.md").toEqual(
      [...COMMAND_NAMES].sort(),
    );
  });

  it("finds every command in a file of its name, from which the bundle makes one", () => {
    const without = COMMAND_NAMES.filter(
      (name) => !/^[a-z]+$/.test(name) || !existsSync(resolve(root, `src/cli/${name}.ts`)),
    );
    expect(without, "a command is one word in small letters, in src/cli/WORD.ts").toEqual([]);
  });
});
