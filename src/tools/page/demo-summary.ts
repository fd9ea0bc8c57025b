import { readFileSync } from "node:fs";
import { createModel } from "../../engine/index.js";
import { DEMO_PLACES, type DemoJob, demoWorkbook } from "../../workbook/index.js";

type Shown = string | number | boolean | null;

const WIDTHS = { room: 16, cfm: 12, percent: 12 } as const;

function line(room: string, cfm: string, percent: string, verdict: string): string {
  return `  ${room.padEnd(WIDTHS.room)}${cfm.padStart(WIDTHS.cfm)}${percent.padStart(WIDTHS.percent)}   ${verdict}`;
}

function whole(value: Shown, unit: string): string {
  return typeof value === "number" ? `${Math.round(value)} ${unit}` : "–";
}

function roomLine([room, , measured, , share, verdict]: readonly Shown[]): string {
  const percent = typeof share === "number" ? share * 100 : share;
  return line(String(room), whole(measured ?? null, "cfm"), whole(percent ?? null, "%"), String(verdict));
}

/** Returns the demonstration's rooms as text, calculated by the same sheets that the page shows. */
export function demoSummary(path: string): string {
  const job = JSON.parse(readFileSync(path, "utf8")) as DemoJob;
  const { sheets, names } = demoWorkbook(job);
  const model = createModel({
    sheets: sheets.map(({ name, cells }) => ({ id: name, name, colNumber: 26, rowNumber: 100, cells })),
    namedRanges: names,
  });
  const { sheet, firstRow } = DEMO_PLACES.rooms;
  const cellsOf = (row: number): readonly Shown[] =>
    [0, 1, 2, 3, 4, 5].map((col) => model.getters.getEvaluatedCell({ sheetId: sheet, col, row: row - 1 }).value);
  const rooms = [...job.rooms, "All rooms"].map((_, index) => roomLine(cellsOf(firstRow + index)));
  return [
    `${job.name}. ${job.about}`,
    line("room", "supply", "of design", "verdict"),
    ...rooms.slice(0, -1),
    line("", "────────", "", ""),
    ...rooms.slice(-1),
  ].join("\n");
}
