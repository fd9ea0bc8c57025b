import { afterEach, describe, expect, it, vi } from "vitest";
import { excelHost } from "../../../src/hosts/excel/index.js";
import { HostError } from "../../../src/workbook/index.js";
import { FakeExcel } from "./fake-excel.js";

/* Over a stand-in for Excel, whose rows a spreadsheet engine moves: it shows what our side asks, never what a real Excel does. */

afterEach(() => {
  vi.unstubAllGlobals();
});

/** A list in A2:C5 under a sum over it, and rows typed below. */
function opened(below: Readonly<Record<string, string | number>> = {}) {
  const excel = new FakeExcel({
    sheets: [
      {
        name: "Outlets",
        cells: {
          B1: "=SUM($C$3:$C$5)",
          A2: "Outlet",
          B2: "Reading",
          C2: "Twice",
          A3: "0012",
          B3: 10,
          C3: "=B3*2",
          B4: 20,
          C4: "=B4*2",
          A5: "S-3",
          B5: 30,
          C5: "=B5*2",
          ...below,
        },
      },
      { name: "Totals", cells: { A1: "=SUM(Outlets!$B$3:$B$5)" } },
    ],
    names: {},
  });
  const table = { name: "T", address: "Outlets!A2:C5", showHeaders: true, showTotals: false };
  excel.tables = [{ ...table, columns: ["Outlet", "Reading", "Twice"] }];
  for (const [name, value] of Object.entries(excel.globals())) vi.stubGlobal(name, value);
  const host = excelHost(async () => new Uint8Array());
  const read = async (range: string, sheet = "Outlets") => {
    const [block] = await host.read([{ sheet, range }]);
    return block?.values.map((row, at) => row.map((value, column) => block.formulas[at]?.[column] ?? value));
  };
  return { excel, host, read };
}

describe("rows that are added in Excel", () => {
  it("at the end come before the last row, whose typed cells go up, so that every sum takes them in", async () => {
    const { host, read } = opened();
    expect(await host.addRows?.({ kind: "growTable", sheet: "Outlets", row: 4, count: 2 })).toEqual([]);
    expect(await read("A5:C8")).toEqual([
      ["S-3", 30, "=B5*2"],
      [null, null, "=B6*2"],
      [null, null, "=B7*2"],
      [null, null, null],
    ]);
    expect(await read("B1")).toEqual([["=SUM($C$3:$C$7)"]]);
    expect(await read("A1", "Totals")).toEqual([["=SUM(Outlets!$B$3:$B$7)"]]);
  });

  it("before the first one come after it, and before any other in its place", async () => {
    const first = opened();
    await first.host.addRows?.({ kind: "insertRows", sheet: "Outlets", row: 3, count: 1 });
    expect(await first.read("A3:C5")).toEqual([
      [null, null, "=B3*2"],
      ["0012", 10, "=B4*2"],
      [null, 20, "=B5*2"],
    ]);
    expect(await first.read("B1")).toEqual([["=SUM($C$3:$C$6)"]]);
    const other = opened();
    await other.host.addRows?.({ kind: "insertRows", sheet: "Outlets", row: 4, count: 1 });
    expect(await other.read("A3:C5")).toEqual([
      ["0012", 10, "=B3*2"],
      [null, null, "=B4*2"],
      [null, 20, "=B5*2"],
    ]);
  });

  it("join the table with what was typed below it, and what stands further down moves not", async () => {
    const { host, read } = opened({ A6: "S-4", B6: 40, A7: "S-5", B7: 50, C7: 99, A9: "Note" });
    await host.addRows?.({ kind: "extendTable", sheet: "Outlets", row: 7 });
    expect(await read("A5:C9")).toEqual([
      ["S-3", 30, "=B5*2"],
      ["S-4", 40, "=B6*2"],
      ["S-5", 50, 99],
      [null, null, null],
      ["Note", null, null],
    ]);
    expect(await read("B1")).toEqual([["=SUM($C$3:$C$7)"]]);
  });

  it("leave a sheet protected as it was, and are refused where a password is asked for", async () => {
    const { excel, host, read } = opened();
    excel.sheet("Outlets").protection = { allowSort: true };
    await host.addRows?.({ kind: "growTable", sheet: "Outlets", row: 3, count: 1 });
    expect(excel.sheet("Outlets").protection).toEqual({ allowSort: true });
    expect(await read("C6")).toEqual([["=B6*2"]]);
    excel.sheet("Outlets").hasPassword = true;
    const again = host.addRows?.({ kind: "growTable", sheet: "Outlets", row: 3, count: 1 });
    await expect(again).rejects.toThrow(/No rows were added. The sheet is protected with a password/);
    expect(await read("C7")).toEqual([[null]]);
  });

  it("are refused in words where there is no list, or something would go with rows below it", async () => {
    const { host } = opened({ B6: 40, F6: "mine" });
    const nowhere = host.addRows?.({ kind: "growTable", sheet: "Totals", row: 1, count: 1 });
    await expect(nowhere).rejects.toThrow(HostError);
    await expect(nowhere).rejects.toThrow(/Row 1 of “Totals” is in no table, nor below one/);
    const beside = host.addRows?.({ kind: "extendTable", sheet: "Outlets", row: 6 });
    await expect(beside).rejects.toThrow(/F6 of “Outlets” is beside the list. Move it elsewhere first/);
  });
});
