import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { calculateXlsx, patchAndCalculate } from "../../../src/engine/calculation.js";
import { plannedTemplate } from "../../../src/engine/planned-template.js";
import { type FileHost, fileHost, openWorkbookFile } from "../../../src/hosts/file/index.js";
import { addBeforeAfter, type FilledRow, numbered, TEMPLATES, tableEntries } from "../../../src/workbook/index.js";
import type { CellEdit } from "../../../src/xlsx/index.js";
import { vanesheetIn } from "../../cli/vanesheet.js";
import { cellUnder } from "../../support/plan-places.js";

/*
 * A sheet of before and after from the visits of a room balance. Invented readings; airflow by hand: 14 in × 6 in is
 * 84 in², three quarters free, 0.4375 ft², times the average in fpm.
 */

const OPTIONS = { blocks: ["visits", "areas"] } as const;
const OUTLET: FilledRow = {
  ...{ System: "AHU-1", Room: "Hall", Kind: "supply", "Width or diameter": 14, Height: 6 },
  "Design airflow": 180,
};
const found = (...values: number[]) => numbered("B", values);
const left = (...values: number[]) => numbered("R", values);

const ROWS: readonly FilledRow[] = [
  { ...OUTLET, Outlet: "S-1", Factor: 0.75, ...found(300, 320, 310), ...left(400, 420, 410), Note: "damper 40 %" },
  { ...OUTLET, Outlet: "S-2", Factor: 0.75, ...found(300, 320, 310) },
  { ...OUTLET, Outlet: "S-3", Factor: 0.75, ...left(400, 420, 410) },
  { ...OUTLET, Outlet: "S-4", "Published area": 60, "Area is": "effective area", ...found(300), ...left(320) },
  { ...OUTLET, Outlet: "S-5", Factor: 0.75, ...found(300, 320, 310), ...left(305), "Reading is": "old" },
  { ...OUTLET, Outlet: "S-6", Factor: 0.75, ...found(0, 0, 0), ...left(300, 320, 310) },
];

async function job(rows: readonly FilledRow[] = ROWS): Promise<Uint8Array> {
  const plan = TEMPLATES["room-balance"]("", OPTIONS);
  const edits = Object.entries(tableEntries(plan, "Outlets", rows)).flatMap(([sheet, cells]) =>
    Object.entries(cells).map(([address, value]): CellEdit => ({ kind: "value", sheet, address, value })),
  );
  return patchAndCalculate(await plannedTemplate("room-balance", OPTIONS), edits).bytes;
}

const folder = mkdtempSync(join(tmpdir(), "visits-"));
const path = (name: string) => join(folder, name);

const PLAN = TEMPLATES["before-after"]("");
/** Row 1 is the first outlet. */
const cellOf = (heading: string, row: number) => cellUnder(PLAN, "Changes", heading, 6 + row);

async function reader(host: FileHost, sheet = "Before and after") {
  return async (heading: string, row: number) => {
    const [block] = await host.read([{ sheet, range: cellOf(heading, row) }]);
    return block?.values[0]?.[0];
  };
}

/** What both ways must show. */
async function expectShown(shown: (heading: string, row: number) => Promise<unknown>): Promise<void> {
  expect(await shown("Airflow before", 1)).toBeCloseTo(0.4375 * 310, 9);
  expect(await shown("Airflow after", 1)).toBeCloseTo(0.4375 * 410, 9);
  expect(await shown("Did it change?", 1)).toMatch(/^higher/);
  expect(await shown("Note", 1)).toBe("damper 40 %");
  expect(await shown("Airflow after", 2)).toBe("");
  expect(await shown("Note", 2)).toBe("No readings as left.");
  expect(await shown("Airflow before", 3)).toBe("");
  expect(await shown("Note", 3)).toBe("No readings as found.");
  // 60 in² effective, whatever the size.
  expect(await shown("Airflow before", 4)).toBeCloseTo((60 / 144) * 300, 9);
  expect(await shown("Airflow after", 4)).toBeCloseTo((60 / 144) * 320, 9);
  expect(await shown("Airflow after", 5)).toBe("");
  expect(await shown("Note", 5)).toBe("Its readings are from before the last change.");
  // A dead outlet was read: 0 is a reading.
  expect(await shown("Airflow before", 6)).toBe(0);
}

describe("The visits of a room balance", () => {
  it("fill a workbook of before and after by the command, in VANE and in plain formulas", async () => {
    writeFileSync(path("job.xlsx"), await job());
    for (const more of [[], ["--plain"]]) {
      const made = path(`made${more.length}.xlsx`);
      const { status, out } = vanesheetIn(folder, ["new", "before-after", made, "--from", "job.xlsx", ...more]);
      expect(status).toBe(0);
      expect(out).toContain("S-2: No readings as left. S-3: No readings as found. S-5: Its readings");
      await expectShown(await reader(fileHost(await openWorkbookFile(made), calculateXlsx)));
    }
  });

  it("are followed by the sheet that is added to their own workbook", async () => {
    writeFileSync(path("own.xlsx"), await job());
    const host = fileHost(await openWorkbookFile(path("own.xlsx")), calculateXlsx);
    const { sheets, visits } = await addBeforeAfter(host);
    expect(sheets).toEqual(["Before and after", "Before and after notes"]);
    expect(visits.outlets).toHaveLength(6);
    const shown = await reader(host);
    await expectShown(shown);
    const balance = TEMPLATES["room-balance"]("", OPTIONS);
    await host.write([
      { address: { sheet: "Outlets", range: cellUnder(balance, "Outlets", "R1", 10) }, cells: [[400]] },
      { address: { sheet: "Outlets", range: cellUnder(balance, "Outlets", "R1", 9) }, cells: [["much"]] },
    ]);
    expect(await shown("Airflow after", 2)).toBeCloseTo(0.4375 * 400, 9);
    expect(await shown("Note", 2)).toBe("");
    // Text among readings is refused there as it is here.
    expect(await shown("A1", 1)).toMatchObject({ error: "#VALUE!" });
  });

  it("are refused with words where there are none, and beside what follows from the job", async () => {
    writeFileSync(path("plain.xlsx"), (await plannedTemplate("room-balance", {})).archive.bytes);
    const command = (...given: string[]) => vanesheetIn(folder, ["new", "before-after", "no.xlsx", ...given]);
    expect(command("--from", "plain.xlsx").err).toContain("no list with readings as found");
    writeFileSync(path("empty.xlsx"), await job([]));
    expect(command("--from", "empty.xlsx").err).toContain("no outlets yet");
    expect(command("--from", "job.xlsx", "--units", "si").err).toContain("readings are not converted");
    expect(command("--from", "job.xlsx", "--outlets", "9").err).toContain("--outlets follows from the job");
    expect(command("--from", "missing.xlsx").err).toContain("missing.xlsx");
  });

  it("get as many rows as there are outlets", async () => {
    const rows = Array.from({ length: 41 }, (_, index) => ({ ...ROWS[0], Outlet: `S-${index + 1}` })) as FilledRow[];
    writeFileSync(path("many.xlsx"), await sized(rows));
    const host = fileHost(await openWorkbookFile(path("many.xlsx")), calculateXlsx);
    const { visits } = await addBeforeAfter(host);
    expect(visits.outlets).toHaveLength(41);
    const shown = await reader(host);
    expect(await shown("Outlet", 41)).toBe("S-41");
    expect(await shown("Airflow after", 41)).toBeCloseTo(0.4375 * 410, 9);
  });
});

/** A job with more outlets than the template has rows. */
async function sized(rows: readonly FilledRow[]): Promise<Uint8Array> {
  writeFileSync(path("few.xlsx"), await job(rows.slice(0, 30)));
  const host = fileHost(await openWorkbookFile(path("few.xlsx")), calculateXlsx);
  const sheet = "Outlets";
  await host.addRows?.({ kind: "growTable", sheet, row: 9, count: rows.length - 30 });
  const balance = TEMPLATES["room-balance"]("", OPTIONS);
  await host.write(
    rows.slice(30).flatMap((row, index) =>
      Object.entries(row).map(([heading, content]) => ({
        address: { sheet, range: cellUnder(balance, "Outlets", heading, 39 + index) },
        cells: [[content]],
      })),
    ),
  );
  await host.save();
  return (await openWorkbookFile(path("few.xlsx"))).workbook.archive.bytes;
}
