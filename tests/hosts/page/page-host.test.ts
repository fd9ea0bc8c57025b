import { describe, expect, it } from "vitest";
import { pageHost } from "../../../src/hosts/page/page-host.js";
import { describeHostContract } from "../contract.js";
import { pageHostOver, templateFile } from "./page-host-over.js";
import { pageInNode } from "./page-in-node.js";

describeHostContract("the local page", async (workbook) => ({
  host: pageHostOver(workbook),
  close: async () => undefined,
}));

const stored = (name: string) => ({
  title: name,
  data: { sheets: [{ id: name, name }] },
  movedSheetIds: [],
  protectedSheetIds: [],
  isChanged: false,
  file: null,
});

describe("another workbook that is opened in the local page", () => {
  it("is the one that is read by whoever is told of its sheets", async () => {
    const context = pageInNode(stored("House 12"));
    const host = pageHost(context, context.watchers, templateFile);
    const seen: Promise<readonly { readonly name: string }[]>[] = [];
    await host.watch(() => void seen.push(host.sheets()));
    await context.show(stored("House 13"));
    expect((await Promise.all(seen)).map((sheets) => sheets.map(({ name }) => name))).toEqual([["House 13"]]);
  });
});

describe("whoever shows one workbook after the other", () => {
  it("is told at once when another one is opened, and not when sheets are added to the one in view", async () => {
    const context = pageInNode(stored("House 12"));
    const host = pageHost(context, context.watchers, templateFile);
    let told = 0;
    const stop = host.watchWorkbook?.(() => {
      told += 1;
    });
    await context.show({ ...stored("House 12"), isChanged: true }, true);
    expect(told).toBe(0);
    await context.show(stored("House 13"));
    expect(told).toBe(1);
    stop?.();
    await context.show(stored("House 14"));
    expect(told).toBe(1);
  });
});

describe("the selection of the local page", () => {
  it("is told when it moves, on a sheet or to another, and not when a cell changes, until told to stop", async () => {
    const host = pageHostOver({
      sheets: [
        { name: "Outlets", cells: {} },
        { name: "Notes", cells: {} },
      ],
      names: {},
    });
    const seen: unknown[] = [];
    const stop = await host.watchSelection(() => void host.selection().then((selected) => seen.push(selected?.sheet)));
    await host.select({ sheet: "Outlets", range: "B3:C4" });
    await host.write([{ address: { sheet: "Outlets", range: "B3" }, cells: [[400]] }]);
    await host.select({ sheet: "Outlets", range: "B3:C4" });
    expect(seen).toEqual(["Outlets"]);
    await host.select({ sheet: "Notes", range: "A1" });
    expect(seen.at(-1)).toBe("Notes");
    const heard = seen.length;
    await stop();
    await host.select({ sheet: "Outlets", range: "D9" });
    expect(seen).toHaveLength(heard);
  });
});
