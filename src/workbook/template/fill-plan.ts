import { formatAddress, parseRange } from "../../xlsx/address.js";
import { JOB_NAMES, JOB_SHEET } from "./job-sheet.js";
import type { CellContent, WorkbookPlan } from "./sheet-plan.js";

/** What a person enters into a plan's sheets, by sheet and address. */
export type FilledCells = Readonly<Record<string, Readonly<Record<string, CellContent>>>>;

/** One row of a table, by the headings of its input columns; what is null stays empty. */
export type FilledRow = Readonly<Record<string, CellContent>>;

/**
 * Puts rows into the input columns of a plan's table.
 *
 * @throws {Error} When the plan has no such table, or a heading is none of its inputs: a fault of the caller
 */
export function tableEntries(plan: WorkbookPlan, tableName: string, rows: readonly FilledRow[]): FilledCells {
  const sheet = plan.sheets.find(({ tables }) => tables.some(({ name }) => name === tableName));
  const table = sheet?.tables.find(({ name }) => name === tableName);
  const range = parseRange(table?.range ?? "");
  if (sheet === undefined || table === undefined || range === undefined) throw new Error(`There is no ${tableName}.`);
  const cells = rows.flatMap((row, index) =>
    Object.entries(row).flatMap(([heading, content]) => {
      const column = table.columns.findIndex(({ name }) => name === heading);
      if (column < 0 || table.columns[column]?.formula !== null) throw new Error(`${heading} is not an input.`);
      return content === null ? [] : [[formatAddress(range.firstRow + 1 + index, column + 1), content] as const];
    }),
  );
  return { [sheet.name]: Object.fromEntries(cells) };
}

/** Puts single readings into the columns of their headings: R1, R2 and so on. */
export function numbered(prefix: string, values: readonly (number | null)[]): FilledRow {
  return Object.fromEntries(values.map((value, index) => [`${prefix}${index + 1}`, value]));
}

/** Puts job details into their cells, by the defined names of the cells. */
export function jobEntries(values: Readonly<Record<string, CellContent>>): FilledCells {
  const cells = Object.entries(values).map(([wanted, content]) => {
    const place = JOB_NAMES.find(({ name }) => name === wanted);
    if (place === undefined) throw new Error(`There is no name ${wanted}.`);
    return [place.refersTo.slice(JOB_SHEET.length + 1).replaceAll("$", ""), content] as const;
  });
  return { [JOB_SHEET]: Object.fromEntries(cells) };
}
