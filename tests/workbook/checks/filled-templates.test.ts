import { describe, expect, it } from "vitest";
import { calculateXlsx } from "../../../src/engine/index.js";
import { calculatePlan } from "../../../src/tools/templates/calculate-plan.js";
import {
  checkedFile,
  checkWorkbook,
  TEMPLATES,
  type TemplateId,
  type TemplatePlan,
} from "../../../src/workbook/index.js";
import { type Entries, writeTemplate } from "../../../src/workbook/plan-file/index.js";
import { openWorkbook } from "../../../src/xlsx/index.js";
import { filledWith, ovalTraverse, pitotTraverse } from "../../support/filled-templates.js";
import { cellUnder } from "../../support/plan-places.js";

async function found(plan: TemplatePlan, entries: Entries) {
  const workbook = openWorkbook(await writeTemplate(plan, entries, calculatePlan), "filled.xlsx");
  const { findings, vaneFormulaCount } = checkWorkbook(checkedFile(workbook, calculateXlsx(workbook)));
  expect(vaneFormulaCount).toBeGreaterThan(20);
  // The rooms' loads are made up apart from the outlets' designs: that they do not add up is told, and only of rooms.
  const apart = findings.filter(({ kind }) => kind === "designs-apart");
  expect(new Set(apart.map(({ sheet }) => sheet)).size).toBeLessThanOrEqual(1);
  const others = findings.filter((finding) => !apart.includes(finding));
  return others.map(({ kind, sheet, cell }) => `${sheet}!${cell} ${kind}`);
}

const at = (template: TemplateId, table: string, header: string, row: number) =>
  cellUnder(TEMPLATES[template](""), table, header, row);

/** What the demonstration job leaves out on purpose; everything else in it is in order. */
const LEFT_OUT: Readonly<Record<TemplateId, readonly string[]>> = {
  "room-balance": [`Rooms!${at("room-balance", "Rooms", "Cooling load", 10)} load-missing`],
  "duct-traverse": [],
  "face-sweep": [
    `Face sweep!${at("face-sweep", "Sweeps", "s1", 18)}:${at("face-sweep", "Sweeps", "s4", 18)} unfinished-row`,
  ],
  "before-after": [],
  "job-summary": [`Job summary!${at("job-summary", "JobSummary", "Design airflow", 17)} percent-without-design`],
};

describe.each(Object.keys(TEMPLATES) as TemplateId[])("the template %s", (template) => {
  const plan = TEMPLATES[template]("");

  it("has nothing to find while it is blank", async () => {
    expect(await found(plan, {})).toEqual([]);
  });

  it("has nothing to find with the demonstration job in it but what that leaves out", async () => {
    expect(await found(plan, filledWith(template, plan))).toEqual(LEFT_OUT[template]);
  });
});

describe("a traverse of a flat oval duct", () => {
  it("has nothing to find: its sides are no rectangle's", async () => {
    expect(await found(TEMPLATES["duct-traverse"](""), ovalTraverse())).toEqual([]);
  });
});

describe("a traverse by Pitot tube", () => {
  it("has nothing to find: pressures are no velocities that are too small", async () => {
    expect(await found(TEMPLATES["duct-traverse"](""), pitotTraverse())).toEqual([]);
  });
});
