import { deleteRows, findTable, growTable, type OutdatedCell, type Workbook } from "../../xlsx/index.js";
import type { TemplateId } from "../host.js";
import { JOB_SUMMARY_TABLE } from "./job-summary/columns.js";
import { RETEST_ROWS, RETEST_SHARE } from "./room-balance/retest-table.js";

/** What a job has of which a template keeps a row each. */
export type SizedThing = "outlets" | "rooms" | "systems";

/** How many rows a new workbook is to have; what is left out stays as the template has it. */
export type TemplateSizes = Readonly<Partial<Record<SizedThing, number>>>;

/** The table of a template that holds them. */
export const SIZED_TABLES: Readonly<Record<TemplateId, Readonly<Partial<Record<SizedThing, string>>>>> = {
  "room-balance": { outlets: "Outlets", rooms: "Rooms", systems: "Systems" },
  "duct-traverse": {},
  "face-sweep": { outlets: "Sweeps" },
  "before-after": { outlets: "Changes" },
  "job-summary": { outlets: JOB_SUMMARY_TABLE },
};

/** A table whose rows follow from the number of outlets; it never gets fewer than the template has. */
const RETEST_TABLE = "Retest";

/** A table of a thousand rows is slow in a spreadsheet program; a job beyond this is better kept in several workbooks. */
export const MOST_ROWS = 5000;

/**
 * Gives the tables of a blank template as many rows as a job needs: formulas, rules, sums of other sheets, print areas and
 * charts come with them.
 *
 * @param template - As opened, with nothing filled in
 * @param id - Which template it is
 * @param sizes - How many rows of what
 * @returns The workbook, and the formulas to calculate before it is saved
 */
export function sizedTemplate(
  template: Workbook,
  id: TemplateId,
  sizes: TemplateSizes,
): { readonly workbook: Workbook; readonly outdated: readonly OutdatedCell[] } {
  let workbook = template;
  const outdated: OutdatedCell[] = [];
  for (const [thing, name] of Object.entries(SIZED_TABLES[id])) {
    const wanted = sizes[thing as SizedThing];
    if (wanted === undefined) continue;
    const { sheet, table } = findTable(workbook, name);
    const first = table.range.firstRow + table.headerRows;
    const rows = table.range.lastRow - table.totalsRows - first + 1;
    if (wanted === rows) continue;
    const done =
      wanted > rows
        ? growTable(workbook, { table: name, count: wanted - rows })
        : deleteRows(workbook, { sheet: sheet.name, row: first + wanted, count: rows - wanted });
    workbook = done.workbook;
    outdated.push(...done.outdated);
  }
  const again = id === "room-balance" ? Math.ceil(RETEST_SHARE * (sizes.outlets ?? 0)) : 0;
  if (again > RETEST_ROWS) {
    const done = growTable(workbook, { table: RETEST_TABLE, count: again - RETEST_ROWS });
    workbook = done.workbook;
    outdated.push(...done.outdated);
  }
  return { workbook, outdated };
}
