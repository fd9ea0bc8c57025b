import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { CHECK_KINDS } from "../../src/workbook/index.js";

describe("docs/checks.md", () => {
  it("tells every kind of finding, once", () => {
    const text = readFileSync(resolve(import.meta.dirname, "../../docs/checks.md"), "utf8");
    const [, table = ""] = text.split("| kind | what is wrong | why it matters | what to do |\n|---|---|---|---|\n");
    const rows = (table.split("\n\n")[0] ?? "").split("\n");
    const told = rows.flatMap((row) =>
      [...(row.split(" | ")[0] ?? "").matchAll(/`([a-z-]+)`/g)].map(([, kind]) => kind),
    );
    expect([...told].sort(), "give each kind of CHECK_KINDS its row in docs/checks.md").toEqual(
      [...CHECK_KINDS].sort(),
    );
  });
});
