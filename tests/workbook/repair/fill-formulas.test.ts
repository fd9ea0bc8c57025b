import { describe, expect, it } from "vitest";
import { fillFormulas } from "../../../src/workbook/index.js";
import { pageHostOver } from "../../hosts/page/page-host-over.js";
import { outletRows } from "../checks/planted-faults.js";

type Cells = Readonly<Record<string, number | string | boolean>>;

const over = (cells: Cells) => pageHostOver({ sheets: [{ name: "Floor 1", cells }], names: {} });

function without(cells: Cells, ...addresses: readonly string[]): Cells {
  return Object.fromEntries(Object.entries(cells).filter(([at]) => !addresses.includes(at)));
}

describe("filling the formulas of a row", () => {
  it("copies those of the row above into its empty cells, and the row calculates", async () => {
    const host = over(without(outletRows(4), "J4", "K4", "L4"));
    expect(await fillFormulas(host, { sheet: "Floor 1", range: "J4" })).toBe(3);
    const [block] = await host.read([{ sheet: "Floor 1", range: "J4:L4" }]);
    expect(block?.formulas[0]?.[0]).toContain("B4,C4,F4:I4");
    // 14 × 6 in, 0.75 free: 0.4375 ft², at the mean of 400, 420, 380 and 390 fpm.
    expect(block?.values[0]?.[0]).toBeCloseTo(0.4375 * 397.5, 9);
    expect(block?.values[0]?.[2]).toBe("within");
  });

  it("fills several rows, and leaves what is typed there", async () => {
    const host = over(without({ ...outletRows(5), J5: 180 }, "K5", "L5", "J6", "K6", "L6"));
    expect(await fillFormulas(host, { sheet: "Floor 1", range: "A5:A6" })).toBe(5);
    const [block] = await host.read([{ sheet: "Floor 1", range: "J5:K6" }]);
    expect(block?.values[0]?.[0]).toBe(180);
    expect(block?.formulas[0]?.[0]).toBeNull();
    expect(block?.formulas[1]?.[0]).toContain("F6:I6");
  });

  it("says why it fills nothing", async () => {
    const bare = over({ A1: "Outlet", A2: "S-1" });
    await expect(fillFormulas(bare, { sheet: "Floor 1", range: "A2" })).rejects.toThrow("No row above row 2");
    const whole = over(outletRows(3));
    await expect(fillFormulas(whole, { sheet: "Floor 1", range: "J4" })).rejects.toThrow("in use already");
    await expect(fillFormulas(whole, { sheet: "Floor 9", range: "J4" })).rejects.toThrow("no rows J4");
  });
});
