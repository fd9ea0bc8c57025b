import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { cellFunctions } from "../../src/cells/index.js";

const text = readFileSync(resolve(import.meta.dirname, "../../docs/method.md"), "utf8");

/** The sections that the table names, each with its functions. */
function told(): readonly { readonly anchor: string; readonly ids: readonly string[] }[] {
  const [, table = ""] = text.split("| section | functions, after `VANE.` |\n|---|---|\n");
  return (table.split("\n\n")[0] ?? "").split("\n").map((row) => {
    const [, anchor = "", ids = ""] = /^\| \[[^\]]+\]\(#([^)]+)\) \| (.+) \|$/.exec(row) ?? [];
    return { anchor, ids: ids.split(", ") };
  });
}

describe("docs/method.md", () => {
  it("says of every function, once, in which section its formula is", () => {
    const ids = told().flatMap((section) => section.ids);
    expect([...ids].sort(), "name each function in the table of functions of docs/method.md").toEqual(
      cellFunctions.map(({ id }) => id).sort(),
    );
  });

  it("has each of those sections, with a table that gives every formula its source", () => {
    const anchors = [...text.matchAll(/^## (.+)$/gm)].map(([, title = ""]) => title.toLowerCase().replaceAll(" ", "-"));
    for (const { anchor } of told()) expect(anchors).toContain(anchor);
    const rows = [...text.matchAll(/^\| what \| formula \| source \|\n\|---\|---\|---\|\n((?:\|.*\n)+)/gm)];
    expect(rows.length).toBeGreaterThan(5);
    for (const row of rows.flatMap(([, body = ""]) => body.trim().split("\n"))) {
      const cells = row.split(" | ");
      expect(cells.length, row).toBeGreaterThanOrEqual(3);
      expect(cells.at(-1)?.replace("|", "").trim(), row).not.toBe("");
    }
  });
});
