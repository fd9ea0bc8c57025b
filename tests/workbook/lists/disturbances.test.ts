import { beforeAll, describe, expect, it } from "vitest";
import { calculateXlsx } from "../../../src/engine/index.js";
import { XLSX_TASKS } from "../../../src/hosts/page/file/xlsx-tasks.js";
import { pageHost } from "../../../src/hosts/page/page-host.js";
import { calculatePlan } from "../../../src/tools/templates/calculate-plan.js";
import { placeOf } from "../../../src/workbook/finding.js";
import { readOutletLists, TEMPLATES, type TemplateId } from "../../../src/workbook/index.js";
import { writeTemplate } from "../../../src/workbook/plan-file/index.js";
import { type OutletsRead, readOutlets } from "../../../src/workbook/rollup/index.js";
import { openWorkbook } from "../../../src/xlsx/index.js";
import { templateFile } from "../../hosts/page/page-host-over.js";
import { pageInNode } from "../../hosts/page/page-in-node.js";
import { filledWith } from "../../support/filled-templates.js";
import { DISTURBANCES } from "./disturbances.js";
import { type ReadingRow, rowsWithReadings } from "./rows-with-readings.js";
import { packed, type Taken, taken } from "./sheet-xml.js";

const templates = Object.keys(TEMPLATES) as TemplateId[];

/** A page is opened for each: DISTURBED=all opens one for every template that holds a list. */
const IN_PANE: readonly TemplateId[] =
  process.env["DISTURBED"] === "all"
    ? ["room-balance", "face-sweep", "before-after", "job-summary"]
    : ["room-balance", "job-summary"];

const filled = new Map<TemplateId, Taken>();

beforeAll(async () => {
  for (const template of templates) {
    const plan = TEMPLATES[template]("");
    filled.set(template, taken(await writeTemplate(plan, filledWith(template, plan), calculatePlan)));
  }
});

/** Whether a place such as `Outlets!J9`, `Outlets!9:12,15:15` or `Outlets` speaks of a row. */
function speaksOf(place: string, { sheet, row }: ReadingRow): boolean {
  if (place === sheet) return true;
  if (!place.startsWith(`${sheet}!`)) return false;
  return place
    .slice(sheet.length + 1)
    .split(",")
    .some((part) => {
      const [first = 0, last = first] = [...part.matchAll(/\d+/g)].map(([digits]) => Number(digits));
      return row >= first && row <= last;
    });
}

/** A finding about the headings of a sheet speaks of every row of it. */
const isOfSheet = ({ kind, leftOut }: OutletsRead["findings"][number]) =>
  leftOut === "workbook" || leftOut === "list" || kind === "no-outlets";

function namedIn(findings: OutletsRead["findings"], row: ReadingRow): boolean {
  return findings.some(
    (finding) =>
      speaksOf(placeOf(finding), row) ||
      (row.isTraverse && finding.leftOut === "outlet" && finding.sheet === row.sheet) ||
      (isOfSheet(finding) && (finding.sheet === "" || finding.sheet === row.sheet)),
  );
}

/** Rows with a reading that are in no total and in no finding of a roll-up. */
function passedOver(rows: readonly ReadingRow[], { value, findings }: OutletsRead): readonly ReadingRow[] {
  const inTotals = value.filter(({ status }) => status === "compared" || status === "no design");
  const traverses = new Set(inTotals.filter(({ kind }) => kind === "duct").map(({ sheet }) => sheet));
  return rows.filter(
    (row) =>
      !traverses.has(row.sheet) &&
      !inTotals.some((outlet) => outlet.sheet === row.sheet && outlet.row === row.row) &&
      !namedIn(findings, row),
  );
}

function rolledUp(bytes: Uint8Array): OutletsRead {
  const workbook = openWorkbook(bytes, "job.xlsx");
  const stored = readOutlets(workbook, new Map());
  if (!stored.findings.some(({ kind }) => kind === "not-calculated")) return stored;
  const { edits } = calculateXlsx(workbook);
  return readOutlets(workbook, new Map(edits.map(({ sheet, address, value }) => [`${sheet}!${address}`, value])));
}

/** Opens a file in the page and reads its outlets as the pane does. */
async function inPane(bytes: Uint8Array) {
  const { data, protectedSheetIds } = XLSX_TASKS.read(bytes, "job.xlsx");
  const context = pageInNode({
    title: "job",
    data,
    movedSheetIds: [],
    protectedSheetIds,
    isChanged: false,
    file: null,
  });
  return readOutletLists(pageHost(context, context.watchers, templateFile), "ip");
}

describe.each(templates)("every row with a reading is in a total or named in a finding: %s", (template) => {
  it.each(DISTURBANCES)("$title", async ({ happen }) => {
    const workbook = filled.get(template);
    const disturbed = workbook && happen(workbook);
    if (disturbed === undefined) return;
    const bytes = packed(disturbed);
    const rows = rowsWithReadings(taken(bytes));
    expect(rows.length).toBeGreaterThan(2);
    const stored = readOutlets(openWorkbook(bytes, "job.xlsx"), new Map());
    expect(passedOver(rows, stored), "as stored").toEqual([]);
    expect(passedOver(rows, rolledUp(bytes)), "rolled up").toEqual([]);
    if (!IN_PANE.includes(template)) return;
    const { value, findings, remarks } = await inPane(bytes);
    const inLists = (row: ReadingRow) =>
      value.some((outlet) => outlet.sheet === row.sheet && outlet.row === row.row && outlet.measured !== null);
    const named = (row: ReadingRow) =>
      [...findings, ...remarks].some((issue) => {
        const place = issue.split(": ")[0] ?? "";
        const isOfHeadings = issue.includes("heading") && place.split("!")[0] === row.sheet;
        return isOfHeadings || speaksOf(place, row);
      });
    expect(
      rows.filter((row) => !inLists(row) && !named(row)),
      "in the pane",
    ).toEqual([]);
  });
});

describe("the totals of a disturbed workbook", () => {
  const totals = (bytes: Uint8Array) => {
    const { value } = rolledUp(bytes);
    const compared = value.filter(({ status }) => status === "compared");
    return compared.reduce((sum, { measuredCfm }) => sum + (measuredCfm ?? 0), 0);
  };
  const of = (template: TemplateId, title: string) => {
    const workbook = filled.get(template);
    const disturbed = workbook && DISTURBANCES.find((one) => one.title === title)?.happen(workbook);
    if (disturbed === undefined) throw new Error(`${title} does not happen to ${template}.`);
    return totals(packed(disturbed));
  };

  it.each(templates)("are those of the sound one where only names, order or stored results differ: %s", (template) => {
    const sound = of(template, "nothing");
    expect(of(template, "the sheet renamed")).toBeCloseTo(sound, 9);
    expect(of(template, "no results stored")).toBeCloseTo(sound, 9);
    expect(of(template, "#NAME? stored, as by a program without the functions")).toBeCloseTo(sound, 9);
    if (template !== "duct-traverse") expect(of(template, "a column moved")).toBeCloseTo(sound, 9);
  });

  it("hold the outlets of a copied sheet, and those typed below a table, worked out from their readings", () => {
    const sound = of("room-balance", "nothing");
    expect(of("room-balance", "the sheet copied, as “Name (2)”")).toBeCloseTo(2 * sound, 9);
    // Three more of the first outlet: half a square foot, free to 0.78, and a mean of 1670 / 6 fpm.
    expect(of("room-balance", "rows filled below the table")).toBeCloseTo(sound + 3 * 0.5 * 0.78 * (1670 / 6), 9);
  });
});
