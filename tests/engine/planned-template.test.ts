import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { calculateXlsx } from "../../src/engine/calculation.js";
import { plannedTemplate } from "../../src/engine/planned-template.js";
import {
  BALANCE_BLOCKS,
  type BalanceBlock,
  checkedFile,
  checkWorkbook,
  fileSource,
  findLists,
  readList,
  TEMPLATES,
  type TemplateId,
  type TemplateOptions,
} from "../../src/workbook/index.js";
import {
  cellAt,
  formatAddress,
  formulaCellsOf,
  openWorkbook,
  parseAddress,
  patchWorkbook,
  readSheet,
  type Workbook,
} from "../../src/xlsx/index.js";
import { cellUnder } from "../support/plan-places.js";

/** Every formula of a workbook with its stored result, by sheet and cell. */
function formulasOf(workbook: Workbook) {
  return workbook.sheets.flatMap(({ name }) =>
    [...formulaCellsOf(readSheet(workbook, name))].map(({ row, column, formula, value }) => ({
      place: `${name}!${formatAddress(row, column)}`,
      formula: formula.text,
      value,
    })),
  );
}

/** A new workbook of a template with cells filled in, calculated. */
async function filled(
  id: TemplateId,
  options: TemplateOptions,
  sheet: string,
  cells: Readonly<Record<string, string | number>>,
) {
  const edits = Object.entries(cells).map(([address, value]) => ({ kind: "value", sheet, address, value }) as const);
  const blank = await plannedTemplate(id, options);
  const typed = openWorkbook(patchWorkbook(blank, edits), "job.xlsx");
  const changed = Object.keys(cells).flatMap((address) => {
    const place = parseAddress(address);
    return place === undefined ? [] : [{ sheet, ...place }];
  });
  return openWorkbook(patchWorkbook(typed, calculateXlsx(typed, changed).edits), "job.xlsx");
}

describe("a template made from its plan", () => {
  it.each(["room-balance", "before-after"] as const)(
    "is the file of %s, formula by formula and result by result",
    async (id) => {
      const kept = openWorkbook(readFileSync(`templates/${id}.xlsx`), `${id}.xlsx`);
      expect(formulasOf(await plannedTemplate(id, {}))).toEqual(formulasOf(kept));
    },
  );

  it("averages every one of nine readings, and the list of outlets reads what it says", async () => {
    const options = { points: 9 };
    const plan = TEMPLATES["room-balance"]("", options);
    const cell = (header: string) => cellUnder(plan, "Outlets", header, 9);
    // Eight readings of 300 fpm and a ninth of 750: 350 on average, over one square foot.
    const readings = Array.from({ length: 9 }, (_, index) => [cell(`R${index + 1}`), index < 8 ? 300 : 750] as const);
    const job = await filled("room-balance", options, "Outlets", {
      [cell("Outlet")]: "S1",
      [cell("Kind")]: "supply",
      [cell("Width or diameter")]: 12,
      [cell("Height")]: 12,
      [cell("Factor")]: 1,
      [cell("Design airflow")]: 350,
      ...Object.fromEntries(readings),
    });
    const shown = (header: string) => cellAt(readSheet(job, "Outlets"), cell(header))?.value;
    expect(shown("Average velocity")).toBeCloseTo(350, 9);
    expect(shown("Airflow")).toBeCloseTo(350, 9);
    expect(shown("Verdict")).toBe("within");
    const outlets = findLists(fileSource(job)).value.flatMap((list) => readList(list, "ip").outlets);
    expect(outlets.map(({ tag, measured }) => [tag, Math.round(measured ?? 0)])).toEqual([["S1", 350]]);
  });

  it("is read as its rows are meant where it holds every block: published area, and readings as found", async () => {
    // The block for a thermal meter gives no airflow before the job says how warm the air is.
    const blocks = (Object.keys(BALANCE_BLOCKS) as BalanceBlock[]).filter((block) => block !== "thermal");
    const options = { blocks };
    const plan = TEMPLATES["room-balance"]("", options);
    const cell = (header: string) => cellUnder(plan, "Outlets", header, 9);
    const readings = (prefix: string, velocity: number) =>
      Object.fromEntries([1, 2, 3, 4, 5, 6].map((point) => [cell(`${prefix}${point}`), velocity]));
    const job = await filled("room-balance", options, "Outlets", {
      [cell("Outlet")]: "S1",
      [cell("Kind")]: "supply",
      [cell("Width or diameter")]: 12,
      [cell("Height")]: 12,
      [cell("Published area")]: 72,
      [cell("Area is")]: "effective area",
      [cell("Design set")]: 200,
      ...readings("B", 300),
      ...readings("R", 400),
    });
    const [outlet] = findLists(fileSource(job)).value.flatMap((list) => readList(list, "ip").outlets);
    expect(outlet).toMatchObject({ design: 200, found: { flow: 150 }, now: { flow: 200 }, freeArea: 0.5 });
    expect(outlet?.findings).toEqual([]);
    const { findings } = checkWorkbook(checkedFile(job, calculateXlsx(job)));
    expect(findings.map(({ kind }) => kind)).toEqual([]);
  });

  it("lays sweeps out with as many columns for their seconds", async () => {
    const { sheets } = TEMPLATES["face-sweep"]("", { points: 7 });
    const columns = sheets.flatMap(({ tables }) => tables).flatMap((table) => table.columns.map(({ name }) => name));
    expect(columns.filter((name) => /^[Vs]\d+$/.test(name))).toHaveLength(14);
  });
});
