import ExcelJS from "exceljs";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import {
  fileSource,
  findLists,
  hostSource,
  mappingEdits,
  mappingOf,
  proposeColumns,
  readAnswer,
  readList,
  type WorkbookHost,
  withAnswers,
} from "../../../src/workbook/index.js";
import { openWorkbook, patchWorkbook } from "../../../src/xlsx/index.js";
import { pageHostOver } from "../../hosts/page/page-host-over.js";
import { type BuiltPane, buildPane, openTab } from "./open-pane.js";
import { faultsInAnySetting } from "./pane-faults.js";

let pane: BuiltPane;

// A person's keys take a person's time, and other tests share the machine.
vi.setConfig({ testTimeout: 240_000 });

beforeAll(async () => {
  pane = await buildPane();
}, 300_000);

afterAll(() => pane?.close());

/** An invented sheet of a contractor: one heading that says nothing, one airflow without its factor, one typed. */
const OWN = {
  sheets: [
    {
      name: "Grilles",
      cells: {
        ...{
          A2: "Grille",
          B2: "W in",
          C2: "H in",
          D2: "Factor",
          E2: "Vel 1",
          F2: "Vel 2",
          G2: "Wanted",
          H2: "Actual CFM",
        },
        ...{ A3: "S1", B3: 14, C3: 6, D3: 0.75, E3: 390, F3: 410, G3: 180, H3: "=B3*C3/144*D3*AVERAGE(E3:F3)" },
        ...{ A4: "S2", B4: 12, C4: 6, D4: 0.7, E4: 350, F4: 350, G4: 120, H4: "=B4*C4/144*AVERAGE(E4:F4)" },
        ...{ A5: "S3", B5: 8, C5: 4, D5: 0.8, E5: 300, F5: 320, G5: 55, H5: 56 },
      },
    },
  ],
  names: {},
};

async function formulasIn(host: WorkbookHost, range: string): Promise<readonly (string | null)[]> {
  const [block] = await host.read([{ sheet: "Grilles", range }]);
  return block?.formulas[0] ?? [];
}

describe("Your own sheet, on the tab Start", () => {
  it("proposes what the columns hold, takes the answer, keeps it, and changes the formulas that are chosen", async () => {
    const host = pageHostOver(OWN);
    const page = await pane.open(host);
    await openTab(page, "Start");
    await page.getByRole("button", { name: "Look at this sheet" }).press("Enter");
    await page.getByText("No column is known for the design airflow. Choose it below.").waitFor();
    const keep = page.getByRole("button", { name: "Keep in the workbook" });
    expect(await keep.isDisabled()).toBe(true);
    expect(await page.getByLabel(/^E Vel 1/).inputValue()).toBe("reading.now.velocity");
    expect(await page.getByLabel("Unit of column B").inputValue()).toBe("in");
    expect(await faultsInAnySetting(page, "own-sheet")).toEqual([]);
    await page.getByLabel(/^G Wanted/).selectOption("design");
    await page.getByLabel("Unit of column G").selectOption("cfm");
    await keep.press("Enter");
    await page.getByText("The workbook keeps it.").waitFor();
    const [list] = findLists(await hostSource(host)).value;
    if (list === undefined) throw new Error("The list was not kept.");
    const { outlets } = readList(list, null);
    expect(outlets.map(({ tag, design, now }) => [tag, design, now.flow])).toEqual([
      ["S1", 180, expect.closeTo(175, 9)],
      ["S2", 120, expect.closeTo(175, 9)],
      ["S3", 55, 56],
    ]);

    await page.getByRole("button", { name: "Show formulas that can be changed" }).press("Enter");
    await page.getByText("175 now, 122.5 after the change. The factor 0.7 is missing.").waitFor();
    await page.getByText("It was typed; a typed value is never replaced.").waitFor();
    await page.getByRole("checkbox", { name: "S1, H3" }).uncheck();
    await page.getByRole("button", { name: "Change 1 formula" }).press("Enter");
    await page.getByText("1 formula was changed.").waitFor();
    const [block] = await host.read([{ sheet: "Grilles", range: "H3:H5" }]);
    expect(block?.formulas).toEqual([
      ["=B3*C3/144*D3*AVERAGE(E3:F3)"],
      ["=VANE.AIRFLOW.FACE(B4,C4,E4:F4,D4,COUNT(E4:F4))"],
      [null],
    ]);
    expect(block?.values[1]?.[0]).toBeCloseTo(122.5, 9);

    await page.getByRole("button", { name: "Take it back" }).press("Enter");
    await page.getByText("1 formula as before.").waitFor();
    expect(await formulasIn(host, "H4")).toEqual(["=B4*C4/144*AVERAGE(E4:F4)"]);

    await page.getByRole("button", { name: "Show formulas that can be changed" }).press("Enter");
    await page.getByLabel("Write into column").fill("G");
    await page.getByRole("button", { name: "Write 2 formulas" }).press("Enter");
    await page.getByText("Grilles!G3 is in use.").waitFor();
    await page.getByLabel("Write into column").fill("J");
    await page.getByRole("button", { name: "Write 2 formulas" }).press("Enter");
    await page.getByText("2 formulas written into column J. The old ones are as they were.").waitFor();
    expect(await formulasIn(host, "H4:J4")).toEqual([
      "=B4*C4/144*AVERAGE(E4:F4)",
      null,
      "=VANE.AIRFLOW.FACE(B4,C4,E4:F4,D4,COUNT(E4:F4))",
    ]);

    await host.select({ sheet: "Grilles", range: "J3" });
    await page.getByRole("button", { name: "VANE formulas of this column to plain ones" }).press("Enter");
    await page.getByText("122.5 now, and the same after the change.").waitFor();
    expect(await faultsInAnySetting(page, "own-sheet-back")).toEqual([]);
    await page.getByRole("button", { name: "Change 2 formulas" }).press("Enter");
    await page.getByText("2 formulas were changed.").waitFor();
    expect((await formulasIn(host, "J4"))[0]).not.toContain("VANE");
    const [plain] = await host.read([{ sheet: "Grilles", range: "J4" }]);
    expect(plain?.values[0]?.[0]).toBeCloseTo(122.5, 9);
    await page.context().close();
  });

  it("takes the columns over as another workbook of the same make keeps them, and says what does not fit", async () => {
    const made = new ExcelJS.Workbook();
    const sheet = made.addWorksheet("Grilles");
    for (const [at, value] of Object.entries(OWN.sheets[0]?.cells ?? {})) {
      if (typeof value === "string" && value.startsWith("=")) continue;
      sheet.getCell(at).value = value;
    }
    const file = openWorkbook(new Uint8Array(await made.xlsx.writeBuffer()), "first.xlsx");
    const [list] = proposeColumns(fileSource(file)).map((one) => withAnswers(one, [readAnswer("G=design cfm")]));
    if (list === undefined) throw new Error("No list was proposed.");
    const kept = patchWorkbook(file, mappingEdits(file, [mappingOf(list)]));
    const other = { ...OWN.sheets[0], name: "Upper floor", cells: { A2: "Grille", B2: "W in", C2: "H in" } };
    const host = pageHostOver({ sheets: [...OWN.sheets, other], names: {} });
    const page = await pane.open(host);
    await openTab(page, "Start");
    const choose = page.getByLabel("Same columns as in another workbook");
    const upload = (bytes: Uint8Array) =>
      choose.setInputFiles({ name: "first.xlsx", mimeType: "application/octet-stream", buffer: Buffer.from(bytes) });
    await upload(file.archive.bytes);
    await page.getByText("first.xlsx keeps nothing of its columns.").waitFor();
    await choose.setInputFiles([]);
    await upload(kept);
    await page.getByText("“Grilles”, headings in row 2: 8 columns as in first.xlsx.").waitFor();
    await page.getByRole("button", { name: "Keep these in the workbook" }).press("Enter");
    await page.getByText("The workbook keeps it.").waitFor();
    const lists = findLists(await hostSource(host)).value;
    expect(lists.map((one) => [one.sheet, one.columns.get("design")])).toEqual([["Grilles", 7]]);
    await page.context().close();
  });

  it("says where there is nothing to take over, or nothing left to", async () => {
    const page = await pane.open(pageHostOver({ sheets: [{ name: "Mine", cells: { A1: 1 } }], names: {} }));
    await openTab(page, "Start");
    await page.getByRole("button", { name: "Look at this sheet" }).press("Enter");
    await page.getByText("Nothing on “Mine” looks like a list of outlets.").waitFor();
    await page.getByRole("button", { name: "Show formulas that can be changed" }).press("Enter");
    await page.getByText("No outlets of “Mine” are known.").waitFor();
    await page.context().close();
  });
});
