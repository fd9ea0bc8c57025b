import { join } from "node:path";
import { openWorkbookFile } from "../../hosts/file/index.js";
import { DEMONSTRATION_FILE } from "../../workbook/index.js";
import { type CellValue, cellsOf, readSheet } from "../../xlsx/index.js";

const ROOMS = "Rooms";
const WIDTHS = { room: 16, cfm: 12, percent: 12 } as const;

function line(room: string, cfm: string, percent: string, verdict: string): string {
  return `  ${room.padEnd(WIDTHS.room)}${cfm.padStart(WIDTHS.cfm)}${percent.padStart(WIDTHS.percent)}   ${verdict}`;
}

function whole(value: CellValue, unit: string): string {
  return typeof value === "number" ? `${Math.round(value)} ${unit}` : "–";
}

/** Returns the demonstration's rooms as text, as its workbook has them. */
export async function demoSummary(templates: string): Promise<string> {
  const { workbook } = await openWorkbookFile(join(templates, `${DEMONSTRATION_FILE}.xlsx`));
  const sheet = readSheet(workbook, ROOMS);
  const [table] = sheet.tables;
  if (table === undefined) throw new Error("The demonstration has no table of rooms.");
  const { firstRow, firstColumn } = table.range;
  const values = new Map([...cellsOf(sheet)].map(({ row, column, value }) => [`${row} ${column}`, value]));
  const headings = table.columns.map(({ name }) => name);
  const at = (row: number, heading: string): CellValue =>
    values.get(`${row} ${firstColumn + headings.indexOf(heading)}`) ?? null;
  const rows = Array.from({ length: table.range.lastRow - firstRow }, (_, index) => firstRow + 1 + index);
  const rooms = rows.flatMap((row) => {
    const room = at(row, "Room");
    if (typeof room !== "string" || room === "") return [];
    const verdict = at(row, "Verdict");
    return [
      line(
        room,
        whole(at(row, "Supply measured"), "cfm"),
        whole(at(row, "Percent of design"), "%"),
        typeof verdict === "string" ? verdict : "",
      ),
    ];
  });
  const all = rows.reduce((sum, row) => sum + Number(at(row, "Supply measured")), 0);
  return [
    "The demonstration house, invented.",
    line("room", "supply", "of design", "verdict"),
    ...rooms,
    line("", "────────", "", ""),
    line("All rooms", whole(all, "cfm"), "", ""),
  ].join("\n");
}
