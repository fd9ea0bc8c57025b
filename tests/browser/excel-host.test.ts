import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type BlockAddress, HostError, type WorkbookHost } from "../../src/workbook/index.js";
import { describeHostContract } from "../hosts/contract.js";
import { FakeWorkbook } from "../hosts/excel/fake-workbook.js";
import { answerAsExcel } from "./answer-as-excel.js";
import { type BridgeWindow, type ExcelBridge, openAddin, type RichRequest } from "./office-bridge.js";

/*
 * The Excel host with the real office.js in a real browser. A stand-in answers the requests that Excel would receive;
 * one that it does not know fails the test.
 */

/** More than Excel is asked for at once. */
const WORKBOOK_FILE = Uint8Array.from({ length: 300_000 }, (_, index) => index % 251);

let excel: ExcelBridge;
let workbook: FakeWorkbook;

/** The build takes seconds on an idle machine and minutes on a busy one. */
const BUILD_TIMEOUT_MS = 300_000;

beforeAll(async () => {
  excel = await openAddin({
    furtherEntries: { host: "./tests/browser/excel-host-entry.ts" },
    answer: (request) => answerAsExcel(workbook)(request),
    workbookFile: WORKBOOK_FILE,
  });
  await excel.page.addScriptTag({ url: "host.js" });
}, BUILD_TIMEOUT_MS);

afterAll(async () => {
  await excel?.close();
});

type Called = { readonly value: unknown } | { readonly hostError: string };

interface TestWindow {
  readonly callHost: (name: string, args: readonly unknown[]) => Promise<Called>;
}

async function callHost(name: string, ...args: readonly unknown[]): Promise<unknown> {
  const outcome = await excel.page.evaluate(
    ([called, given]) => (window as unknown as TestWindow).callHost(called, given),
    [name, args] as const,
  );
  if ("hostError" in outcome) throw new HostError(outcome.hostError);
  return outcome.value;
}

/** The host in the page, called from here. */
const host: WorkbookHost = {
  kind: "excel",
  sheets: async () => (await callHost("sheets")) as Awaited<ReturnType<WorkbookHost["sheets"]>>,
  read: async (addresses) => (await callHost("read", addresses)) as Awaited<ReturnType<WorkbookHost["read"]>>,
  write: async (edits) => {
    await callHost("write", edits);
  },
  names: async () => new Map((await callHost("names")) as readonly (readonly [string, string])[]),
  keepColumns: async (names) => {
    await callHost("keepColumns", names);
  },
  layouts: async (sheets) =>
    (await callHost("layouts", sheets)) as Awaited<ReturnType<NonNullable<WorkbookHost["layouts"]>>>,
  addTemplate: async () => [],
};

describeHostContract("the Excel host over the real office.js", async (given) => {
  workbook = new FakeWorkbook(given);
  return { host, close: async () => undefined };
});

const at = (range: string, sheet = "Outlets"): BlockAddress => ({ sheet, range });

/** How office.js begins a path to one of its own services. */
const SERVICE = 2;

/** The requests about the workbook that a call causes, without those by which office.js tidies up. */
async function requestsOf(call: () => Promise<unknown>): Promise<readonly RichRequest[]> {
  const before = (await excel.requests()).length;
  await call();
  const all = (await excel.requests()).slice(before);
  return all.filter(
    ({ Actions, ObjectPaths }) =>
      Object.values(ObjectPaths).every(({ ObjectPathType }) => ObjectPathType !== SERVICE) &&
      Actions.some(({ Name, ActionType }) => ActionType > 1 && Name !== "_RemoveReference"),
  );
}

describe("the requests that Excel receives", () => {
  it("are one for many blocks read, and two for many written, with calculation held back in the second", async () => {
    workbook = new FakeWorkbook({ sheets: [{ name: "Outlets", cells: {} }], names: {} });
    const blocks = Array.from({ length: 30 }, (_, row) => at(`B${row + 1}`));
    expect(await requestsOf(() => host.read(blocks))).toHaveLength(1);
    const edits = blocks.map((address, row) => ({ address, cells: [[row]] }));
    const [look, write, ...more] = await requestsOf(() => host.write(edits));
    expect(more).toEqual([]);
    expect(look?.Actions.some(({ Name }) => Name === "Formulas")).toBe(false);
    const names = write?.Actions.map(({ Name }) => Name) ?? [];
    expect(names.filter((name) => name === "Formulas")).toHaveLength(30);
    expect(names).toContain("SuspendApiCalculationUntilNextSync");
  });

  it("show the selected block, and select another", async () => {
    workbook = new FakeWorkbook({ sheets: [{ name: "Outlets", cells: {} }], names: {} });
    expect(await callHost("selection")).toBeNull();
    await callHost("select", at("C3:D4"));
    expect(await callHost("selection")).toEqual(at("C3:D4"));
  });

  it("enter stuck formulas again under a protection that stays as it was", async () => {
    workbook = new FakeWorkbook({ sheets: [{ name: "Outlets", cells: { B2: 400, C2: 2.5 } }], names: {} });
    const sheet = workbook.sheet("Outlets");
    sheet.stuck.set("D2", "=_xldudf_VANE_AIRFLOW(B2,C2)");
    sheet.protection = { allowSort: true, allowAutoFilter: true, selectionMode: "Normal" };
    const plan = await callHost("planRepair");
    expect(plan).toMatchObject({ count: 1, sheets: [{ sheet: "Outlets", isProtected: true }] });
    expect(await callHost("repair", plan)).toEqual({ repaired: 1, unrepaired: [] });
    expect((await host.read([at("D2")]))[0]?.values).toEqual([[1000]]);
    expect(sheet.protection).toEqual({ allowSort: true, allowAutoFilter: true, selectionMode: "Normal" });
  });

  it("hand the whole workbook over as a file, in parts, and close it", async () => {
    const { bytes, name } = (await callHost("workbookBytes")) as { readonly bytes: Uint8Array; readonly name: string };
    expect(name).toBe("Book1.xlsx");
    expect(Buffer.from(bytes).equals(Buffer.from(WORKBOOK_FILE))).toBe(true);
    expect(await excel.page.evaluate(() => (window as unknown as BridgeWindow).simulatedExcel.openFiles)).toBe(0);
  });

  it("open a file as a new workbook", async () => {
    workbook = new FakeWorkbook({ sheets: [{ name: "Outlets", cells: {} }], names: {} });
    await callHost("openWorkbook", Uint8Array.from([80, 75, 3, 4]));
    expect(workbook.opened).toEqual([Buffer.from([80, 75, 3, 4]).toString("base64")]);
  });

  it.each([
    [0, "$2:$2"],
    [8, "$1:$8"],
  ])("set a sheet with %i frozen rows up for printing with the rows %s on every page", async (frozenRows, rows) => {
    workbook = new FakeWorkbook({ sheets: [{ name: "Outlets", cells: { B2: 400, C9: 2.5 } }], names: {} });
    workbook.frozenRows = frozenRows;
    expect(await callHost("setUpPrint")).toBe("Outlets");
    expect(workbook.printSetUp).toEqual([
      ["Orientation", "Landscape"],
      ["Zoom", { horizontalFitToPages: 1 }],
      ["SetPrintTitleRows", rows],
    ]);
  });

  it("set no empty sheet up for printing, and say why", async () => {
    workbook = new FakeWorkbook({ sheets: [{ name: "Outlets", cells: {} }], names: {} });
    await expect(callHost("setUpPrint")).rejects.toThrow("“Outlets” is empty");
    expect(workbook.printSetUp).toEqual([]);
  });
});
