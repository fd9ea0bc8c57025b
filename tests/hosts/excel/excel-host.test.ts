import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { excelHost } from "../../../src/hosts/excel/index.js";
import { type BlockAddress, HostError } from "../../../src/workbook/index.js";
import { describeHostContract } from "../contract.js";
import { FakeExcel } from "./fake-excel.js";

/*
 * The host over a stand-in for Excel: it shows what our side asks and does, never what a real Excel would.
 */

const noTemplate = async () => new Uint8Array();

function enter(excel: FakeExcel) {
  for (const [name, value] of Object.entries(excel.globals())) vi.stubGlobal(name, value);
  return excelHost(noTemplate);
}

afterEach(() => {
  vi.unstubAllGlobals();
});

describeHostContract("the Excel host", async (workbook) => ({
  host: enter(new FakeExcel(workbook)),
  close: async () => undefined,
}));

const at = (range: string, sheet = "Outlets"): BlockAddress => ({ sheet, range });

async function messageOf(attempt: Promise<unknown>): Promise<string> {
  const thrown = await attempt.then(
    () => null,
    (reason: unknown) => reason,
  );
  expect(thrown).toBeInstanceOf(HostError);
  return (thrown as HostError).message;
}

describe("the Excel host", () => {
  let excel: FakeExcel;
  let host: ReturnType<typeof enter>;

  beforeEach(() => {
    excel = new FakeExcel({
      sheets: [
        { name: "Outlets", cells: { B2: 400, B3: 420, C2: "=B2*2", D2: "0012" } },
        { name: "Notes", cells: {} },
      ],
      names: {},
    });
    host = enter(excel);
  });

  it("reads any number of blocks in one round", async () => {
    await host.read(Array.from({ length: 40 }, (_, index) => at(`B${index + 1}`)));
    expect(excel.syncs).toBe(1);
  });

  it("lists the tables with their place and columns in two rounds", async () => {
    const columns = ["Width", "cfm [design]"];
    excel.tables = [
      { name: "Faces", address: "Outlets!B3:C9", showHeaders: true, showTotals: false, columns },
      { name: "Air", address: "'Floor ''1'''!A1:B4", showHeaders: true, showTotals: true, columns },
    ];
    expect(await host.tables?.()).toEqual([
      { name: "Faces", sheet: "Outlets", range: "B3:C9", headerRows: 1, totalsRows: 0, columns },
      { name: "Air", sheet: "Floor '1'", range: "A1:B4", headerRows: 1, totalsRows: 1, columns },
    ]);
    expect(excel.syncs).toBe(2);
  });

  it("writes any number of blocks in two rounds, with calculation held back once", async () => {
    await host.write(Array.from({ length: 40 }, (_, index) => ({ address: at(`F${index + 1}`), cells: [[index]] })));
    expect(excel.syncs).toBe(2);
    expect(excel.calculationSuspended).toBe(1);
  });

  it("takes back what was written when Excel stops half-way", async () => {
    excel.failingWrite = 2;
    const edits = [
      { address: at("B2:B3"), cells: [[1], [2]] },
      { address: at("D2"), cells: [["new"]] },
    ];
    expect(await messageOf(host.write(edits))).toMatch(/^Nothing was written\. /);
    const [block] = await host.read([at("B2:D3")]);
    expect(block?.values).toEqual([
      [400, 800, "0012"],
      [420, null, null],
    ]);
  });

  it("writes into the unlocked cells of a protected sheet and into no other", async () => {
    const sheet = excel.sheet("Outlets");
    sheet.protection = { allowSort: true };
    sheet.unlocked.add("B2");
    await host.write([{ address: at("B2"), cells: [[500]] }]);
    expect((await host.read([at("B2")]))[0]?.values).toEqual([[500]]);
    const message = await messageOf(host.write([{ address: at("B2:B3"), cells: [[1], [2]] }]));
    expect(message).toContain("“Outlets” is protected");
    expect((await host.read([at("B2:B3")]))[0]?.values).toEqual([[500], [420]]);
  });

  it("waits for the end of an edit of a cell, then writes, and tells of both", async () => {
    const waiting: boolean[] = [];
    const stop = host.watchWaiting?.((isWaiting) => waiting.push(isWaiting));
    excel.failingWrite = 1;
    excel.failingCode = "InvalidOperationInCellEditMode";
    await host.write([{ address: at("B2"), cells: [[1]] }]);
    stop?.();
    expect((await host.read([at("B2")]))[0]?.values).toEqual([[1]]);
    expect(waiting).toEqual([false, true, false]);
  });

  it("shows a block, and tells which is selected", async () => {
    await host.select(at("B2:B3"));
    expect(await host.selection()).toEqual(at("B2:B3"));
    excel.workbook.selected = "'Floor 1 ''east'''!$C$4";
    expect(await host.selection()).toEqual(at("C4", "Floor 1 'east'"));
    excel.workbook.selected = null;
    expect(await host.selection()).toBeNull();
  });

  it("tells which sheet changed until it is told to stop", async () => {
    const changed: string[] = [];
    const stop = await host.watch((sheet) => changed.push(sheet));
    await excel.change("Notes");
    expect(changed).toEqual(["Notes"]);
    await stop();
    expect(excel.handlers.size).toBe(0);
    await excel.change("Outlets");
    expect(changed).toEqual(["Notes"]);
  });

  it("tells that something else is selected until it is told to stop", async () => {
    let moves = 0;
    const stop = await host.watchSelection(() => {
      moves += 1;
    });
    await excel.moveSelection("Outlets");
    expect(moves).toBe(1);
    await excel.change("Outlets");
    expect(moves).toBe(1);
    await stop();
    expect(excel.selectionHandlers.size).toBe(0);
    await excel.moveSelection("Notes");
    expect(moves).toBe(1);
  });

  it("adds a template's sheets from its bytes, at the end, and names them", async () => {
    const bytes = Uint8Array.from({ length: 100_000 }, (_, index) => index % 256);
    const withTemplate = excelHost(async () => bytes);
    expect(await withTemplate.addTemplate("room-balance")).toEqual(["Notes"]);
    expect(Buffer.from(excel.inserted[0] ?? "", "base64").equals(bytes)).toBe(true);
  });

  it("enters a template's formulas again where Excel did not know them, without being asked", async () => {
    excel.sheet("Notes").stuck.set("B1", "=_xldudf_VANE_AIRFLOW(400,2.5)");
    excel.sheet("Notes").protection = { allowSort: true };
    await host.addTemplate("room-balance");
    expect((await host.read([at("B1", "Notes")]))[0]?.values).toEqual([[1000]]);
    expect(excel.sheet("Notes").protection).toEqual({ allowSort: true });
  });

  it("says which Excel is needed where a sheet cannot be taken in", async () => {
    vi.stubGlobal("Office", { context: { requirements: { isSetSupported: () => false } } });
    expect(await messageOf(host.addTemplate("room-balance"))).toContain("Microsoft 365");
  });
});

describe("repair of formulas that Excel read before the add-in was there", () => {
  let excel: FakeExcel;
  let host: ReturnType<typeof enter>;

  beforeEach(() => {
    excel = new FakeExcel({
      sheets: [
        { name: "Outlets", cells: { B2: 400, B3: 600, C2: 2.5, C3: 2.5, D7: "=NOT.OURS(1)" } },
        { name: "Locked", cells: { A1: 1 } },
        { name: "Sealed", cells: { A1: 1 } },
      ],
      names: {},
    });
    host = enter(excel);
    const outlets = excel.sheet("Outlets");
    outlets.stuck.set("D2", "=_xldudf_VANE_AIRFLOW(B2,C2)");
    outlets.stuck.set("D3", "=VANE.AIRFLOW(B3,C3)");
    excel.sheet("Locked").stuck.set("B1", '=IF(A1>0,_xldudf_VANE_AIRFLOW_FACE(12,6,500,1),"VANE.AIRFLOW(")');
    excel.sheet("Locked").protection = { allowSort: true, selectionMode: "Normal" };
    excel.sheet("Sealed").stuck.set("B1", "=VANE.AIRFLOW(A1,1)");
    excel.sheet("Sealed").protection = { allowSort: false };
    excel.sheet("Sealed").hasPassword = true;
  });

  it("finds both spellings and changes nothing before the person agrees", async () => {
    const plan = await host.planRepair();
    expect(plan.count).toBe(4);
    expect(plan.sheets.map(({ sheet, isProtected, formulas }) => [sheet, isProtected, formulas.length])).toEqual([
      ["Outlets", false, 2],
      ["Locked", true, 1],
      ["Sealed", true, 1],
    ]);
    expect((await host.read([at("D2")]))[0]?.values[0]?.[0]).toMatchObject({ error: "#NAME?" });
  });

  it("enters them again as a person types them, and they calculate", async () => {
    await host.repair(await host.planRepair());
    const [block] = await host.read([at("D2:D3")]);
    expect(block?.values).toEqual([[1000], [1500]]);
    expect(block?.formulas).toEqual([["=VANE.AIRFLOW(B2,C2)"], ["=VANE.AIRFLOW(B3,C3)"]]);
  });

  it("leaves text that only looks like a call, and protects a sheet again as it was", async () => {
    await host.repair(await host.planRepair());
    const [block] = await host.read([at("B1", "Locked")]);
    expect(block?.formulas).toEqual([['=IF(A1>0,VANE.AIRFLOW.FACE(12,6,500,1),"VANE.AIRFLOW(")']]);
    expect(block?.values).toEqual([[250]]);
    expect(excel.sheet("Locked").protection).toEqual({ allowSort: true, selectionMode: "Normal" });
  });

  it("says what to do about a sheet with a password, and repairs the others", async () => {
    const outcome = await host.repair(await host.planRepair());
    expect(outcome.repaired).toBe(3);
    expect(outcome.unrepaired).toHaveLength(1);
    expect(outcome.unrepaired[0]?.message).toMatch(/“Sealed” is protected with a password\. Unprotect it/);
    expect(excel.sheet("Sealed").protection).toEqual({ allowSort: false });
  });

  it("protects a sheet again even where Excel refuses the formulas", async () => {
    const plan = await host.planRepair();
    excel.failingWrite = 1;
    const locked = { ...plan, sheets: plan.sheets.filter(({ sheet }) => sheet === "Locked") };
    const { repaired, unrepaired } = await host.repair(locked);
    expect(repaired).toBe(0);
    expect(unrepaired[0]?.message).toContain("“Locked”: B1 not entered again");
    expect(excel.sheet("Locked").protection).toEqual({ allowSort: true, selectionMode: "Normal" });
  });

  it("leaves out only the formula that Excel refuses, and names its cell", async () => {
    for (const row of [4, 5, 6]) excel.sheet("Outlets").stuck.set(`D${row}`, `=VANE.AIRFLOW(B3,C${row})`);
    excel.refusedFormula = "=VANE.AIRFLOW(B3,C5)";
    const { repaired, unrepaired } = await host.repair(await host.planRepair());
    expect(repaired).toBe(5);
    expect(unrepaired.map(({ sheet, count }) => [sheet, count])).toEqual([
      ["Outlets", 1],
      ["Sealed", 1],
    ]);
    expect(unrepaired[0]?.message).toContain("“Outlets”: D5 not entered again");
    expect((await host.planRepair()).sheets.map(({ formulas }) => formulas.length)).toEqual([1, 1]);
  });

  it("enters a call again that Excel took for one of another workbook", async () => {
    excel.sheet("Outlets").stuck.set("D4", "=[2]!_xldudf_VANE_AIRFLOW(B3,C3)+[1]Rooms!A1");
    const plan = await host.planRepair();
    const typed = plan.sheets[0]?.formulas.find(({ row }) => row === 4)?.typed;
    expect(typed).toBe("=VANE.AIRFLOW(B3,C3)+[1]Rooms!A1");
  });

  it("touches only the sheets that were agreed to, and only what is still stuck", async () => {
    const plan = await host.planRepair();
    excel.sheet("Outlets").stuck.delete("D3");
    const outlets = { ...plan, sheets: plan.sheets.filter(({ sheet }) => sheet === "Outlets") };
    expect(await host.repair(outlets)).toEqual({ repaired: 1, unrepaired: [] });
    expect((await host.planRepair()).count).toBe(2);
  });

  it("names a function that this version does not have instead of entering it again", async () => {
    excel.sheet("Outlets").stuck.set("D9", "=_xldudf_VANE_TOMORROW(1)");
    const { unknown, count } = await host.planRepair();
    expect(count).toBe(4);
    expect(unknown).toEqual([{ sheet: "Outlets", address: "D9", functionName: "_xldudf_VANE_TOMORROW" }]);
  });
});
