import type { DemoJob } from "./demo-job.js";
import { type DemoSheet, rowCells, verdictFormula } from "./demo-sheet.js";
import { FIRST_OUTLET_ROW, OUTLETS } from "./outlets-sheet.js";

export const ROOMS = "Rooms";

export const ROOMS_HEADING_ROW = 4;
export const FIRST_ROOM_ROW = ROOMS_HEADING_ROW + 1;

const COLUMNS = "ABCDEFGH";

const HEADINGS = [
  "Room",
  "Supply design, cfm",
  "Supply measured, cfm",
  "Outlets measured",
  "% of design",
  "Verdict",
  "Return design, cfm",
  "Return measured, cfm",
];

/** Columns of the outlets' sheet as whole ranges, so that inserted rows are taken in. */
function outletColumns(job: DemoJob) {
  const last = FIRST_OUTLET_ROW + job.outlets.length - 1;
  const column = (letter: string) => `${OUTLETS}!$${letter}$${FIRST_OUTLET_ROW}:$${letter}$${last}`;
  return { room: column("B"), air: column("C"), design: column("G"), airflow: column("P") };
}

function roomRow(job: DemoJob, room: string, row: number): Record<string, string> {
  const outlets = outletColumns(job);
  const of = (air: string) => `${outlets.room},$A${row},${outlets.air},"${air}"`;
  const measured = (air: string) => `COUNTIFS(${of(air)},${outlets.airflow},">-1E9")`;
  const total = (air: string) => `=IF(${measured(air)}=0,"",SUMIFS(${outlets.airflow},${of(air)}))`;
  const count = `COUNTIFS(${of("supply")})`;
  const whole = `${measured("supply")}=${count}`;
  return rowCells(row, COLUMNS, [
    room,
    `=IF(${count}=0,"",SUMIFS(${outlets.design},${of("supply")}))`,
    total("supply"),
    `=IF(${count}=0,"",${measured("supply")}&" of "&${count})`,
    `=IF(OR(B${row}="",C${row}=""),"",IF(${whole},C${row}/B${row},""))`,
    `=IF(B${row}="","no supply",IF(C${row}="","not measured",IF(${whole},${verdictFormula(`C${row}`, `B${row}`)},"part measured")))`,
    `=IF(COUNTIFS(${of("return")})=0,"",SUMIFS(${outlets.design},${of("return")}))`,
    total("return"),
  ]);
}

function totals(job: DemoJob, row: number): Record<string, string> {
  const last = row - 1;
  const sum = (column: string) => `=SUM(${column}${FIRST_ROOM_ROW}:${column}${last})`;
  const { airflow, air } = outletColumns(job);
  return {
    ...rowCells(row, COLUMNS, [
      "All rooms",
      sum("B"),
      sum("C"),
      `=COUNTIFS(${air},"supply",${airflow},">-1E9")&" of "&COUNTIFS(${air},"supply")`,
      `=IF(OR(B${row}=0,COUNTIFS(${air},"supply",${airflow},">-1E9")<COUNTIFS(${air},"supply")),"",C${row}/B${row})`,
      `=IF(COUNTIFS(${air},"supply",${airflow},">-1E9")=COUNTIFS(${air},"supply"),${verdictFormula(`C${row}`, `B${row}`)},"part measured")`,
      sum("G"),
      sum("H"),
    ]),
    [`A${row + 2}`]: "Supply less return, cfm",
    [`C${row + 2}`]: `=C${row}-H${row}`,
    [`A${row + 3}`]: "The same by design, cfm",
    [`C${row + 3}`]: `=B${row}-G${row}`,
  };
}

/** Returns the sheet of rooms: what each gets against its design, and the whole house's supply against its return. */
export function roomsSheet(job: DemoJob): DemoSheet {
  const totalRow = FIRST_ROOM_ROW + job.rooms.length;
  const rows = (from: string, to = from) => `${from}${FIRST_ROOM_ROW}:${to}${totalRow - 1}`;
  return {
    name: ROOMS,
    cells: {
      A1: "Rooms against design",
      A2: "A room is judged when all of its supply outlets are measured; a missing reading is never counted as zero.",
      ...rowCells(ROOMS_HEADING_ROW, COLUMNS, HEADINGS),
      ...Object.assign({}, ...job.rooms.map((room, index) => roomRow(job, room, FIRST_ROOM_ROW + index))),
      ...totals(job, totalRow),
    },
    looks: [
      { range: "A1", look: "title" },
      { range: "A2", look: "lead" },
      { range: `A${ROOMS_HEADING_ROW}:H${ROOMS_HEADING_ROW}`, look: "header" },
      { range: rows("A"), look: "inputText" },
      { range: rows("B", "C"), look: "result", format: "#,##0" },
      { range: rows("D"), look: "resultText" },
      { range: rows("E"), look: "result", format: "0%" },
      { range: rows("F"), look: "resultText" },
      { range: rows("G", "H"), look: "result", format: "#,##0" },
      { range: `A${totalRow}`, look: "totalText" },
      { range: `B${totalRow}:C${totalRow}`, look: "total", format: "#,##0" },
      { range: `D${totalRow}`, look: "totalText" },
      { range: `E${totalRow}`, look: "total", format: "0%" },
      { range: `F${totalRow}`, look: "totalText" },
      { range: `G${totalRow}:H${totalRow}`, look: "total", format: "#,##0" },
      { range: `A${totalRow + 2}:A${totalRow + 3}`, look: "label" },
      { range: `C${totalRow + 2}:C${totalRow + 3}`, look: "result", format: "#,##0" },
    ],
    accepts: [],
    verdicts: [`F${FIRST_ROOM_ROW}:F${totalRow}`],
    merges: [],
    widths: [120, 76, 84, 82, 70, 104, 76, 84, 12],
    frozenRows: ROOMS_HEADING_ROW,
    frozenColumns: 0,
  };
}
