import { beforeAll, describe, expect, it } from "vitest";
import { actualVelocity, targetVelocity } from "../../../src/core/index.js";
import { calculateXlsx } from "../../../src/engine/index.js";
import { calculatePlan } from "../../../src/tools/templates/calculate-plan.js";
import {
  checkedFile,
  checkWorkbook,
  handoffOf,
  readOutletLists,
  readSelectedOutlet,
  TEMPLATES,
  type TemplatePlan,
} from "../../../src/workbook/index.js";
import { type Entries, writeTemplate } from "../../../src/workbook/plan-file/index.js";
import { fileSource } from "../../../src/workbook/source/index.js";
import { visitsOf } from "../../../src/workbook/template/before-after/from-visits.js";
import { cellAt, openWorkbook, patchWorkbook, readSheet, type Workbook } from "../../../src/xlsx/index.js";
import { givenPlan, pageHostOver } from "../../hosts/page/page-host-over.js";
import { filledWith, inSi } from "../../support/filled-templates.js";
import { recalculated } from "../../support/libreoffice.js";
import { cellUnder } from "../../support/plan-places.js";

/*
 * One job read twice with the same numbers: by a vane, and by a thermal meter at a mile of elevation, where the density
 * is 0.0617 lb/ft³. Each airflow of the second is 0.075 over that density times the first.
 */

const VANE = TEMPLATES["room-balance"]("");
const THERMAL = TEMPLATES["room-balance"]("", { blocks: ["thermal", "visits"] });

const at = (plan: TemplatePlan, header: string, row: number) => cellUnder(plan, "Outlets", header, row);

function values(plan: TemplatePlan, entries: Entries) {
  const results = calculatePlan(plan, entries);
  const shown = (header: string, row: number) => results.get("Outlets")?.get(at(plan, header, row))?.value;
  return {
    shown,
    line: results.get("Outlets")?.get("B2")?.value,
    density: results.get("Job")?.get(densityCell())?.value,
  };
}

/** The cell of the density on the sheet Job. */
function densityCell(): string {
  const label = VANE.sheets[0]?.cells.find(({ content }) => content === "Density of the air");
  return (label?.at ?? "").replace("A", "B");
}

/** The cell of a job detail. */
const jobCellOf = (name: string) =>
  (VANE.names.find((one) => one.name === name)?.refersTo ?? "").replace("Job!", "").replaceAll("$", "");

const withJob = (entries: Entries, name: string, value: string | null): Entries => ({
  ...entries,
  Job: { ...entries["Job"], [jobCellOf(name)]: value },
});

describe.each([
  ["ip", (entries: Entries) => entries],
  ["si", inSi],
] as const)("a room balance for a thermal meter, %s", (_, units) => {
  const vane = values(VANE, units(filledWith("room-balance", VANE)));
  const thermal = values(THERMAL, units(filledWith("room-balance", THERMAL)));

  it("multiplies every airflow by standard over actual density, and divides what the meter has to show", () => {
    const ratio = Number(thermal.shown("Velocity factor", 9));
    expect(ratio).toBeGreaterThan(1.2);
    expect(ratio * Number(thermal.density)).toBeCloseTo(units({})["Job"] === undefined ? 0.075 : 1.2014, 4);
    for (const row of [9, 10, 15]) {
      expect(Number(thermal.shown("Airflow", row))).toBeCloseTo(ratio * Number(vane.shown("Airflow", row)), 8);
      expect(Number(thermal.shown("Design velocity", row)) * ratio).toBeCloseTo(
        Number(vane.shown("Design velocity", row)),
        8,
      );
      expect(thermal.shown("Average velocity", row)).toBe(vane.shown("Average velocity", row));
      // Area times what the meter shows is standard airflow.
      expect(Number(thermal.shown("Standard airflow", row))).toBeCloseTo(Number(vane.shown("Airflow", row)), 8);
    }
    expect(thermal.line).toMatch(/^For a thermal meter: readings are standard velocity/);
  });
});

describe("a room balance for a thermal meter", () => {
  const filled = filledWith("room-balance", THERMAL);
  let workbook: Workbook;
  beforeAll(async () => {
    workbook = openWorkbook(await writeTemplate(THERMAL, filled, calculatePlan), "thermal.xlsx");
  });

  it("gives the velocity of the core function", () => {
    const { shown, density } = values(THERMAL, filled);
    const actual = actualVelocity(Number(shown("Average velocity", 9)), Number(density));
    expect(Number(shown("Airflow", 9))).toBeCloseTo(actual * Number(shown("Free area", 9)), 6);
  });

  it("gives no airflow without the density of the air, and says why", () => {
    const { shown, line } = values(THERMAL, withJob(filled, "Job_AirTemperature", null));
    expect([shown("Velocity factor", 9), shown("Airflow", 9), shown("Design velocity", 9)]).toEqual(["", "", ""]);
    expect(shown("Verdict", 9)).toBe("no density");
    expect(line).toMatch(/^Enter the air temperature on the sheet Job/);
  });

  it("is checked with its factor, and a reading put into it says what the sheet will make of it", async () => {
    const { findings } = checkWorkbook(checkedFile(workbook, calculateXlsx(workbook)));
    expect(findings.filter(({ kind }) => kind === "result-not-from-inputs")).toEqual([]);
    const plain = openWorkbook(patchWorkbook(workbook, handoffOf(workbook).edits), "handoff.xlsx");
    const inCopy = checkWorkbook(checkedFile(plain, calculateXlsx(plain))).findings;
    expect(inCopy.filter(({ kind }) => kind === "result-not-from-inputs")).toEqual([]);
  });

  it("is balanced to the velocity that the meter has to show", async () => {
    const given = { ...givenPlan(THERMAL) };
    const sheets = given.sheets.map(({ name, cells }) => ({
      name,
      cells: Object.fromEntries(
        Object.entries({ ...cells, ...filled[name] }).flatMap(([one, value]) => (value === null ? [] : [[one, value]])),
      ),
    }));
    const host = pageHostOver({ ...given, sheets });
    const { value, findings } = await readOutletLists(host, "ip");
    expect(findings).toEqual([]);
    const { shown } = values(THERMAL, filled);
    const outlet = value[0];
    const target = targetVelocity(outlet?.design ?? 0, outlet?.freeArea ?? 0, 1);
    expect(target).toBeCloseTo(Number(shown("Design velocity", 9)), 8);
    await host.select({ sheet: "Outlets", range: "A9" });
    const selected = await readSelectedOutlet(host, "ip");
    expect(selected?.opening?.findings.join(" ")).toMatch(/for a thermal meter: its airflow is 1\.2\d\d times/);
  });

  it("gives its readings to no sheet that takes them for actual velocity", () => {
    expect(() => visitsOf(fileSource(workbook), "thermal.xlsx")).toThrow(/thermal\.xlsx is for a thermal meter/);
  });

  it("gives the same in LibreOffice, in its hand-off copy", async () => {
    const copy = patchWorkbook(workbook, handoffOf(workbook).edits);
    const there = openWorkbook((await recalculated(new Map([["copy", copy]]))).get("copy") ?? copy, "copy.xlsx");
    const { shown } = values(THERMAL, filled);
    for (const header of ["Velocity factor", "Airflow", "Design velocity", "Percent of design"]) {
      const value = cellAt(readSheet(there, "Outlets"), at(THERMAL, header, 9))?.value;
      expect(Number(value)).toBeCloseTo(Number(shown(header, 9)), 8);
    }
  });
});

describe("a room balance for other meters", () => {
  const filled = filledWith("room-balance", VANE);

  it.each(["Thermal anemometer, invented model", "hot-wire probe"])(
    "says above the outlets that the meter of the job is thermal: %s",
    (instrument) => {
      expect(values(VANE, withJob(filled, "Job_Instrument", instrument)).line).toMatch(/thermal: set it to actual/);
    },
  );

  it("says nothing of a vane", () => {
    expect(values(VANE, withJob(filled, "Job_Instrument", "Rotating vane, 4 in")).line).toBe("");
  });
});
