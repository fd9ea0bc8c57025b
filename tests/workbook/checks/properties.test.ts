import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cellFunctions } from "../../../src/cells/index.js";
import { type CellBlock, checkedHost, checkWorkbook, type WorkbookHost } from "../../../src/workbook/index.js";
import { parseRange } from "../../../src/xlsx/index.js";
import { foundInFile } from "./given-workbook.js";
import { outletRows, PLANTED } from "./planted-faults.js";

const anyValue = fc.oneof(
  fc.double({ noNaN: true, min: -1e6, max: 1e6 }),
  fc.constantFrom<CellBlock["values"][number][number]>(0, 1, "", "n/a", "410", true, null, {
    error: "#N/A",
    message: "m",
  }),
);
const anyCall = fc
  .record({
    declaration: fc.constantFrom(...cellFunctions),
    inputs: fc.array(
      fc.constantFrom("A1", "B2:D3", "A1:A6", "C4", "0.75", '"si"', "", "COUNT(A1:A6)", "D9", "ZZ9", "Faces[A]"),
      {
        maxLength: 9,
      },
    ),
    around: fc.constantFrom("=#", '=IF(A1="","",#)', "=#*C4", "=#/D4", "=SUM(#,", "=#(#)"),
  })
  .map(({ declaration, inputs, around }) => around.replaceAll("#", `VANE.${declaration.id}(${inputs.join(",")})`));

function hostOf(block: CellBlock): WorkbookHost {
  const refuse = async () => {
    throw new Error("a check must not write");
  };
  return {
    kind: "file",
    sheets: async () => [{ name: "S", usedRange: "A1:D6", isProtected: false }],
    read: async (addresses) => addresses.map(() => block),
    names: async () => new Map(),
    write: refuse,
    keepColumns: async () => undefined,
    addTemplate: refuse,
  };
}

const anyBlock = fc
  .array(fc.tuple(anyValue, fc.option(anyCall, { freq: 2 })), { minLength: 24, maxLength: 24 })
  .map((cells): CellBlock => {
    const rows = [...Array(6).keys()].map((row) => cells.slice(4 * row, 4 * row + 4));
    return {
      address: { sheet: "S", range: "A1:D6" },
      values: rows.map((row) => row.map(([value]) => value)),
      formulas: rows.map((row) => row.map(([, formula]) => formula)),
    };
  });

describe("checking any sheet", () => {
  it("ends, writes nothing, names a cell of the sheet and says what and what to do, in a stable order", async () => {
    await fc.assert(
      fc.asyncProperty(anyBlock, async (block) => {
        const report = checkWorkbook(await checkedHost(hostOf(block)));
        expect(checkWorkbook(await checkedHost(hostOf(block)))).toEqual(report);
        const places = report.findings.map(({ cell }) => parseRange(cell));
        for (const { sheet, problem, action } of report.findings) {
          expect(sheet).toBe("S");
          expect(problem).toMatch(/^.+[.]$/s);
          expect(action).toMatch(/^.+[.]$/s);
        }
        const order = places.map(
          (place) => (place?.firstRow ?? Number.NaN) * 1000 + (place?.firstColumn ?? Number.NaN),
        );
        expect(order).toEqual([...order].sort((a, b) => a - b));
      }),
      { numRuns: 150 },
    );
  }, 120_000);
});

describe("several faults in one sheet", () => {
  it("are all found, whichever of them come together", async () => {
    const onOutlets = PLANTED.filter(({ cells }) => cells["L1"] === "Verdict" && cells["A5"] === undefined);
    const plain: Readonly<Record<string, unknown>> = outletRows(3);
    const changes = onOutlets.map(({ kind, cell, cells }) => {
      const changed = Object.entries(cells).filter(([at, content]) => plain[at] !== content);
      return { kind, cell, changed: Object.fromEntries(changed) };
    });
    // Without its headings a sheet has no list, and nothing of its rows can be told.
    const single = changes.filter(({ kind, changed }) => kind !== "list-not-read" && Object.keys(changed).length === 1);
    expect(single.length).toBeGreaterThan(3);
    for (const [index, one] of single.entries()) {
      for (const other of single.slice(index + 1)) {
        const [first = ""] = Object.keys(one.changed);
        const [second = ""] = Object.keys(other.changed);
        if (first === second || first.slice(1) === second.slice(1)) continue;
        const found = await foundInFile({ S: { ...outletRows(3), ...one.changed, ...other.changed } });
        expect(found.map(({ kind, cell }) => `${cell} ${kind}`).sort()).toEqual(
          [`${one.cell} ${one.kind}`, `${other.cell} ${other.kind}`].sort(),
        );
      }
    }
  }, 120_000);
});
