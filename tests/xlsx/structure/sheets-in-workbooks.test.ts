import { Buffer } from "node:buffer";
import { readFileSync } from "node:fs";
import ExcelJS from "exceljs";
import { SaxesParser } from "saxes";
import { beforeAll, describe, expect, it } from "vitest";
import { calculateXlsx } from "../../../src/engine/index.js";
import { handoffOf } from "../../../src/workbook/index.js";
import {
  cellAt,
  cellsOf,
  copySheet,
  deleteSheet,
  dependentsOfSheet,
  formulaCellsOf,
  moveSheet,
  openWorkbook,
  patchWorkbook,
  readSheet,
  renameSheet,
  sheetNameProblem,
  type Workbook,
} from "../../../src/xlsx/index.js";
import { richWorkbook } from "../../hosts/file/rich-workbook.js";
import { recalculated } from "../../support/libreoffice.js";
import { rawEntries } from "../raw-entries.js";

const opened = (name: string) => openWorkbook(readFileSync(`templates/${name}.xlsx`), `${name}.xlsx`);
const partsOf = ({ archive }: Workbook) =>
  new Map(rawEntries(archive.bytes).map((entry) => [entry.name, entry.content]));
const namesOf = (workbook: Workbook) => workbook.sheets.map(({ name }) => name);

const printArea = (workbook: Workbook, of: string) =>
  workbook.names.find(({ name, sheet }) => name === "_xlnm.Print_Area" && sheet === of)?.refersTo ?? "";

function changedParts(before: Workbook, after: Workbook): readonly string[] {
  const now = partsOf(after);
  return [...partsOf(before)].flatMap(([name, content]) => (now.get(name)?.equals(content) === true ? [] : [name]));
}

/** Well-formed, every relationship leads to a part, every part has a content type. */
async function requireSound(workbook: Workbook): Promise<void> {
  const parts = partsOf(workbook);
  for (const [name, content] of parts) {
    if (!/\.(xml|rels|vml)$/.test(name)) continue;
    const parser = new SaxesParser({ xmlns: true });
    parser.on("error", (cause) => {
      throw new Error(`${name}: ${cause.message}`);
    });
    parser.write(content.toString("utf8")).close();
    if (!name.endsWith(".rels")) continue;
    const source = name.replace("_rels/", "").replace(/\.rels$/, "");
    for (const [, target = ""] of content
      .toString("utf8")
      .matchAll(/Target="([^"]*)"(?![^>]*TargetMode="External")/g)) {
      if (/TargetMode="External"/.test(target) || /^https?:/.test(target)) continue;
      const path = new URL(target, `file:///${source}`).pathname.slice(1);
      expect([...parts.keys()], `${name} leads to ${target}`).toContain(path);
    }
  }
  const types = parts.get("[Content_Types].xml")?.toString("utf8") ?? "";
  for (const [, name = ""] of types.matchAll(/PartName="\/([^"]*)"/g)) expect([...parts.keys()]).toContain(name);
  await new ExcelJS.Workbook().xlsx.load(Buffer.from(workbook.archive.bytes) as unknown as ArrayBuffer);
}

describe("a sheet's name", () => {
  it.each([
    ["", /needs a name/],
    ["x".repeat(32), /at most 31 characters; this has 32/],
    ["a/b", /cannot hold \//],
    ["a:b", /cannot hold :/],
    ["'a", /apostrophe/],
    ["history", /Excel keeps/],
    ["rooms", /There is a sheet “Rooms” already/],
  ])("%j is refused in words", (name, words) => {
    expect(sheetNameProblem(name, ["Rooms"])).toMatch(words);
    expect(() => renameSheet(opened("room-balance"), { sheet: "Outlets", name })).toThrow(words);
  });

  it("may change its letters' case", () => {
    expect(namesOf(renameSheet(opened("room-balance"), { sheet: "outlets", name: "OUTLETS" }).workbook)[1]).toBe(
      "OUTLETS",
    );
  });
});

describe("a sheet that is renamed", () => {
  const before = opened("demonstration");
  const name = "Grilles & Co's";

  it("is named anew in formulas, names, rules, charts and print areas, and all results stay", async () => {
    const { workbook: after } = renameSheet(before, { sheet: "Outlets", name });
    await requireSound(after);
    const all = [...partsOf(after)].filter(([part]) => /sheet\d+\.xml|table|chart|workbook\.xml$/.test(part));
    expect(all.filter(([, content]) => /\bOutlets!/.test(content.toString("utf8"))).map(([part]) => part)).toEqual([]);
    expect(partsOf(after).get("xl/charts/chart1.xml")?.toString("utf8")).toContain("'Grilles &amp; Co''s'!$A$9:$A$38");
    expect(after.names.find(({ name: one, sheet }) => one === "_xlnm.Print_Area" && sheet === name)?.refersTo).toBe(
      printArea(before, "Outlets").replace("Outlets!", "'Grilles & Co''s'!"),
    );
    const { edits, kept } = calculateXlsx(after);
    expect({ edits, kept }).toEqual({ edits: [], kept: [] });
  });

  it("and back, is byte for byte what it was", () => {
    const there = renameSheet(before, { sheet: "Outlets", name }).workbook;
    expect(changedParts(before, renameSheet(there, { sheet: name, name: "Outlets" }).workbook)).toEqual([]);
  });
});

describe("a sheet that is moved", () => {
  const before = opened("demonstration");

  it("keeps its print area, and every part but the list of sheets its bytes", async () => {
    const { workbook: after } = moveSheet(before, { sheet: "Outlets", to: 5 });
    await requireSound(after);
    const others = namesOf(before).filter((name) => name !== "Outlets");
    expect(namesOf(after)).toEqual([...others.slice(0, 4), "Outlets", ...others.slice(4)]);
    expect(changedParts(before, after)).toEqual(["xl/workbook.xml"]);
    const areas = (workbook: Workbook) =>
      workbook.names.map(({ name, sheet, refersTo }) => [name, sheet, refersTo].join(" "));
    expect(areas(after)).toEqual(areas(before));
    expect(changedParts(before, moveSheet(after, { sheet: "Outlets", to: 2 }).workbook)).toEqual([]);
    expect(() => moveSheet(before, { sheet: "Outlets", to: namesOf(before).length + 1 })).toThrow(
      /cannot be moved to place \d+. The places are 1 to \d+/,
    );
  });
});

describe("a sheet that is copied", () => {
  const before = opened("demonstration");

  it("stands behind its model, with a table of its own, and reads itself", async () => {
    const { workbook: after, sheet } = copySheet(before, { sheet: "Outlets" });
    await requireSound(after);
    expect(sheet).toBe("Outlets (2)");
    expect(namesOf(after).slice(1, 3)).toEqual(["Outlets", "Outlets (2)"]);
    const [model, copy] = [readSheet(after, "Outlets"), readSheet(after, sheet)];
    expect(copy.tables[0]?.name).not.toBe(model.tables[0]?.name);
    expect(copy.tables[0]?.range).toEqual(model.tables[0]?.range);
    expect(copy.validations).toEqual(model.validations);
    const shown = (one: typeof copy) =>
      [...cellsOf(one)].map(({ address, value, formula }) => [address, value, formula?.text]);
    expect(shown(copy)).toEqual(shown(model));
    expect(calculateXlsx(after).edits).toEqual([]);
    const changed = changedParts(before, after).filter((part) => !/rels$|Content_Types|workbook\.xml$/.test(part));
    expect(changed).toEqual([]);
    const print = after.names.filter(({ name, sheet: scope }) => name === "_xlnm.Print_Area" && scope === sheet);
    expect(print.map(({ refersTo }) => refersTo)).toEqual([
      printArea(before, "Outlets").replace("Outlets!", "'Outlets (2)'!"),
    ]);
  });

  it("takes its chart along, whose own figures are the copy's", async () => {
    const { workbook: after } = copySheet(before, { sheet: "Chart", name: "Second chart" });
    await requireSound(after);
    const charts = [...partsOf(after)].filter(([part]) => /charts\/chart\d*\.xml$/.test(part));
    expect(charts).toHaveLength(2);
    expect(charts[1]?.[1].toString("utf8")).toContain("'Second chart'!$A$30:$A$59");
    expect(charts[1]?.[1].toString("utf8")).toContain("Outlets!$A$9:$A$38");
  });

  it("and deleted again, leaves what was there", async () => {
    const { workbook: there, sheet } = copySheet(before, { sheet: "Outlets" });
    const { workbook: back, notices } = deleteSheet(there, { sheet });
    await requireSound(back);
    expect(notices).toEqual([]);
    expect([...partsOf(back).keys()].sort()).toEqual([...partsOf(before).keys()].sort());
    expect(calculateXlsx(back).edits).toEqual([]);
  });
});

describe("a sheet that is deleted", () => {
  const before = opened("demonstration");

  it("is announced with what refers to it, which then is #REF!, and takes its own parts with it", async () => {
    const dependents = dependentsOfSheet(before, "outlets");
    const places = dependents.map(({ place }) => place);
    const reading = [...formulaCellsOf(readSheet(before, "Rooms"))].filter(({ formula }) =>
      formula.text.includes("Outlets!"),
    );
    expect(places).toEqual(expect.arrayContaining(reading.map(({ address }) => `Rooms!${address}`)));
    expect(places.some((place) => /the table Rooms/.test(place))).toBe(true);
    expect(places).toContain("a chart or drawing");
    const { workbook: after, outdated } = deleteSheet(before, { sheet: "outlets" });
    await requireSound(after);
    expect(namesOf(after)).not.toContain("Outlets");
    expect(partsOf(after).has("xl/tables/table1.xml")).toBe(false);
    const left = after.sheets.flatMap(({ name }) =>
      [...formulaCellsOf(readSheet(after, name))].map(({ formula }) => formula.text),
    );
    expect(left.filter((text) => /\bOutlets!/.test(text))).toEqual([]);
    expect(left.filter((text) => text.includes("#REF!"))).toHaveLength(outdated.length);
    expect(outdated).toHaveLength(dependents.filter(({ place }) => /^[\w-]+!|^'/.test(place)).length);
    const areas = after.names.filter(({ name }) => name === "_xlnm.Print_Area");
    expect(
      areas.map(({ sheet, refersTo }) => refersTo.startsWith(sheet ?? "") || refersTo.startsWith(`'${sheet}`)),
    ).not.toContain(false);
    const { edits } = calculateXlsx(after, outdated);
    const bytes = patchWorkbook(after, edits);
    expect(cellAt(readSheet(openWorkbook(bytes, "after.xlsx"), "Rooms"), reading[0]?.address ?? "")?.value).toEqual({
      error: "#REF!",
    });
  });

  it("is not the last one in view", () => {
    let workbook = before;
    for (const name of namesOf(before).slice(1)) workbook = deleteSheet(workbook, { sheet: name }).workbook;
    expect(() => deleteSheet(workbook, { sheet: "Job" })).toThrow(/is the only one in view/);
    expect(() => deleteSheet(before, { sheet: "Nothing" })).toThrow(
      /sheet “Nothing”: is not in the workbook. Its sheets are “Job”/,
    );
  });
});

describe("sheets of a workbook with everything that people keep beside cells", () => {
  let before: Workbook;
  beforeAll(async () => {
    before = openWorkbook(await richWorkbook(), "rich.xlsx");
  });

  it("are renamed for its pivot table, its sparkline and its names", () => {
    const { workbook: after, notices } = renameSheet(before, { sheet: "Outlets", name: "Open ings" });
    const text = (pattern: RegExp) =>
      [...partsOf(after)]
        .filter(([name]) => pattern.test(name))
        .map(([, content]) => content.toString("utf8"))
        .join();
    expect(text(/pivotCacheDefinition/)).toContain('sheet="Open ings"');
    expect(text(/sheet1\.xml$/)).toContain("<xm:f>'Open ings'!E2:G2</xm:f>");
    expect(after.names.find(({ name }) => name === "AllAirflow")?.refersTo).toBe("'Open ings'!$H$2:$H$13");
    expect(notices).toHaveLength(1);
  });

  it("are not copied with a pivot table", () => {
    expect(() => copySheet(before, { sheet: "By room" })).toThrow(
      /sheet “By room”: holds a pivot table, which cannot be copied/,
    );
  });

  it("are copied with their notes, picture and chart", async () => {
    const { workbook: after, sheet } = copySheet(before, { sheet: "Outlets" });
    await requireSound(after);
    expect(readSheet(after, sheet).comments).toEqual(readSheet(before, "Outlets").comments);
    const back = deleteSheet(after, { sheet }).workbook;
    await requireSound(back);
    expect([...partsOf(back).keys()].sort()).toEqual(
      [...partsOf(before).keys()].filter((name) => !/calcChain/.test(name)).sort(),
    );
  });
});

describe("LibreOffice, which calculates a workbook anew after sheets changed", () => {
  it("finds the same numbers", async () => {
    const house = opened("demonstration");
    const plain = openWorkbook(patchWorkbook(house, handoffOf(house).edits), "plain.xlsx");
    const renamed = renameSheet(plain, { sheet: "Outlets", name: "It's renamed" }).workbook;
    const moved = moveSheet(plain, { sheet: "Rooms", to: 1 }).workbook;
    const copied = copySheet(plain, { sheet: "Outlets" }).workbook;
    const shown = await recalculated(
      new Map(Object.entries({ plain, renamed, moved, copied }).map(([name, { archive }]) => [name, archive.bytes])),
    );
    const read = (name: string) => openWorkbook(shown.get(name) ?? new Uint8Array(), `${name}.xlsx`);
    const valuesOf = (workbook: Workbook, sheet: string) =>
      [...cellsOf(readSheet(workbook, sheet))]
        .filter(({ formula }) => formula !== undefined)
        .map(({ address, value }) => `${address} ${JSON.stringify(value)}`);
    const want = read("plain");
    for (const sheet of ["Outlets", "Rooms", "Systems", "Before and after"]) {
      const values = valuesOf(want, sheet);
      expect(values.length).toBeGreaterThan(50);
      expect(valuesOf(read("renamed"), sheet === "Outlets" ? "It's renamed" : sheet), sheet).toEqual(values);
      expect(valuesOf(read("moved"), sheet), sheet).toEqual(values);
      expect(valuesOf(read("copied"), sheet), sheet).toEqual(values);
      if (sheet === "Outlets") expect(valuesOf(read("copied"), "Outlets (2)")).toEqual(values);
    }
  }, 180_000);
});
