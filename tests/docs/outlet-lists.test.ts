import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { type ColumnUnit, LIST_COLUMNS, READING_HEADINGS } from "../../src/workbook/index.js";

const UNITS: Readonly<Record<ColumnUnit, string>> = {
  length: "in or mm",
  area: "ft² or m²",
  ratio: "ratio",
  airflow: "cfm or L/s",
  velocity: "fpm or m/s",
  percent: "%",
  seconds: "s",
  date: "date",
  none: "",
};

const row = (headings: string, unit: string, meaning: string) =>
  `| ${headings} | ${unit === "" ? "" : `${unit} `}| ${meaning} |`;

describe("docs/outlet-lists.md", () => {
  const text = readFileSync(resolve(import.meta.dirname, "../../docs/outlet-lists.md"), "utf8");
  const tables = text
    .split("| heading | unit | holds |\n|---|---|---|\n")
    .slice(1)
    .map((table) => table.split("\n\n")[0]?.split("\n"));

  it("lists every heading that is known, with its unit and what it holds", () => {
    expect(tables[0], "write the rows of LIST_COLUMNS into docs/outlet-lists.md").toEqual(
      Object.values(LIST_COLUMNS).map(({ headings, unit, meaning }) => row(headings.join(", "), UNITS[unit], meaning)),
    );
  });

  it("lists every letter of a reading", () => {
    expect(tables[1]).toEqual(
      READING_HEADINGS.map(({ prefixes, holds, meaning }) =>
        row(
          `${prefixes.map((prefix) => `${prefix}1`).join(", ")} …`,
          UNITS[holds === "seconds" ? "seconds" : "velocity"],
          meaning,
        ),
      ),
    );
  });
});
