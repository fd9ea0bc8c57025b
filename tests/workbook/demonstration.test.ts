import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { describe, expect, it } from "vitest";
import demoHouse from "../../shared/demo/demo-house.json" with { type: "json" };
import { calculateXlsx } from "../../src/engine/index.js";
import { XLSX_TASKS } from "../../src/hosts/page/file/xlsx-tasks.js";
import { pageHost } from "../../src/hosts/page/page-host.js";
import { placeOf } from "../../src/workbook/finding.js";
import {
  balanceGroups,
  checkedFile,
  checkWorkbook,
  handoffOf,
  type InteractiveHost,
  limitsForKind,
  planPlacement,
  readJob,
  readOutletLists,
} from "../../src/workbook/index.js";
import { readOutlets } from "../../src/workbook/rollup/index.js";
import { formulaCellsOf, openWorkbook, patchWorkbook, readSheet } from "../../src/xlsx/index.js";
import { templateFile } from "../hosts/page/page-host-over.js";
import { pageInNode } from "../hosts/page/page-in-node.js";

const bytes = new Uint8Array(readFileSync(resolve("templates/demonstration.xlsx")));
const workbook = openWorkbook(bytes, "demonstration.xlsx");

function inPage(): InteractiveHost {
  const { data, protectedSheetIds } = XLSX_TASKS.read(bytes, "demonstration.xlsx");
  const view = { title: "Demonstration", data, movedSheetIds: [], protectedSheetIds, isChanged: false, file: null };
  const context = pageInNode(view);
  return pageHost(context, context.watchers, templateFile);
}

type DemoOutlet = (typeof demoHouse.outlets)[number];

/** By hand: area in ft², its free part, and the mean of what was read last. */
function airflowCfm({ outlet, widthIn, heightIn, freeAreaRatio, readingsFpm }: DemoOutlet): number | null {
  const readings: readonly (number | null)[] =
    demoHouse.changes.find((change) => change.outlet === outlet)?.leftFpm ?? readingsFpm;
  const taken = readings.filter((reading) => reading !== null);
  if (taken.length === 0) return null;
  const areaFt2 = heightIn === null ? (Math.PI / 4) * (widthIn / 12) ** 2 : (widthIn * heightIn) / 144;
  return areaFt2 * (freeAreaRatio ?? 0.75) * (taken.reduce((sum, reading) => sum + reading, 0) / taken.length);
}

describe("the demonstration", () => {
  it("rolls up: every outlet once, its trunk as a duct, and each airflow as by hand", () => {
    const { value, findings } = readOutlets(workbook, new Map());
    const outlets = value.filter(({ kind }) => kind !== "duct");
    expect(outlets).toHaveLength(demoHouse.outlets.length);
    for (const outlet of demoHouse.outlets) {
      const found = outlets.find((one) => one.outlet === outlet.outlet);
      const expected = airflowCfm(outlet);
      if (expected === null) expect(found?.status).toBe("not measured");
      else expect(found?.measuredCfm, outlet.outlet).toBeCloseTo(expected, 9);
      expect(found?.designCfm).toBe(outlet.designCfm);
    }
    // 18 in by 18 in are 2.25 ft²; the nine readings have a mean of 4600 / 9 fpm.
    expect(value.find(({ kind }) => kind === "duct")?.measuredCfm).toBeCloseTo((2.25 * 4600) / 9, 9);
    expect(findings.map((finding) => [finding.kind, finding.leftOut, placeOf(finding)])).toEqual([
      ["listed-twice", "nothing", "Outlets!9:10,13:14"],
    ]);
  });

  it("is checked without an error", () => {
    const { findings } = checkWorkbook(checkedFile(workbook, calculateXlsx(workbook)));
    expect(findings.filter(({ severity }) => severity === "error")).toEqual([]);
  });

  it("is balanced with the limits that its job states", async () => {
    const host = inPage();
    const job = await readJob(host);
    if (job === null) throw new Error("The demonstration states no job.");
    expect(limitsForKind("supply", job.details)).toMatchObject({
      minusPercent: demoHouse.minusPercent,
      plusPercent: demoHouse.plusPercent,
      isAssumed: false,
    });
    const { value, findings } = await readOutletLists(host, job.details.units);
    expect(findings).toEqual([]);
    const groups = balanceGroups(value).filter(({ sheet }) => sheet === "Outlets");
    expect(groups.map(({ system, kind, outlets }) => [system, kind, outlets.length])).toEqual([
      ["AHU-1", "supply", 14],
      ["AHU-1", "return", 4],
    ]);
  });

  it("takes a measurement into the row of an outlet", async () => {
    const host = inPage();
    await host.select({ sheet: "Outlets", range: "A21" });
    const placement = await planPlacement(host, {
      kind: "face points",
      units: "ip",
      size: { shape: "round", diameter: 6 },
      factor: 0.8,
      lines: 1,
      pointsPerLine: 2,
      readings: [190, 210],
    });
    if ("refusal" in placement) throw new Error(placement.refusal);
    if (placement.resultAt === null) throw new Error("No cell shows the airflow.");
    expect(placement.where).toContain("S13, row 21");
    await host.write(placement.edits);
    const [block] = await host.read([placement.resultAt]);
    // π/4 · (1/2)² ft², 0.8 of it free, at 200 fpm.
    expect(block?.values[0]?.[0]).toBeCloseTo((Math.PI / 16) * 0.8 * 200, 9);
  });

  it("is handed off without a call of ours", () => {
    const copy = openWorkbook(patchWorkbook(workbook, handoffOf(workbook).edits), "copy.xlsx");
    const calls = copy.sheets.flatMap(({ name }) =>
      [...formulaCellsOf(readSheet(copy, name))].filter(({ formula }) =>
        /VANE[._]/.test(formula.text.replace(/"[^"]*"/g, "")),
      ),
    );
    expect(calls).toEqual([]);
  });
});
