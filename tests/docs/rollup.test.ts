import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { TIDY_COLUMNS } from "../../src/workbook/rollup/index.js";

describe("docs/rollup.md", () => {
  it("lists every column of a row an outlet, in order, with its unit and meaning", () => {
    const text = readFileSync(resolve(import.meta.dirname, "../../docs/rollup.md"), "utf8");
    const [, table = ""] = text.split("| column | unit | holds |\n|---|---|---|\n");
    const rows = table.split("\n\n")[0]?.split("\n") ?? [];
    expect(rows).toEqual(
      TIDY_COLUMNS.map(({ name, unit, meaning }) => `| ${name} | ${unit === "" ? "" : `${unit} `}| ${meaning} |`),
    );
  });
});
