import type { DemoJob, DemoOutlet } from "./demo-job.js";
import { content, type DemoSheet, rowCells, verdictFormula } from "./demo-sheet.js";

export const OUTLETS = "Outlets";

/** The table's place: its headings, and its outlets from the row below on. */
export const OUTLETS_HEADING_ROW = 6;
export const FIRST_OUTLET_ROW = OUTLETS_HEADING_ROW + 1;

const COLUMNS = "ABCDEFGHIJKLMNOPQRSTU";

const HEADINGS = [
  "Outlet",
  "Room",
  "Air",
  "Width or ⌀, in",
  "Height, in",
  "Free-area factor",
  "Design, cfm",
  "Target, fpm",
  ...[1, 2, 3, 4, 5, 6].map((point) => `Point ${point}, fpm`),
  "Average, fpm",
  "Airflow, cfm",
  "% of design",
  "Verdict",
  "What to know",
  "Low limit",
  "High limit",
];

function outletRow(outlet: DemoOutlet, row: number): Record<string, string> {
  const readings = `I${row}:N${row}`;
  const taken = `COUNT(${readings})`;
  const area = `IF(E${row}="",PI()*D${row}^2/576,D${row}*E${row}/144)`;
  return rowCells(row, COLUMNS, [
    outlet.outlet,
    outlet.room,
    outlet.air,
    content(outlet.widthIn),
    content(outlet.heightIn),
    content(outlet.freeAreaRatio),
    content(outlet.designCfm),
    `=IF(OR(D${row}="",G${row}=""),"",VANE.AIRFLOW.TARGET(G${row},${area},F${row}))`,
    ...outlet.readingsFpm.map(content),
    `=VANE.TRAVERSE.AVERAGE(${readings},${taken})`,
    `=VANE.AIRFLOW.FACE(D${row},E${row},${readings},F${row},${taken})`,
    `=IF(OR(P${row}="",G${row}=""),"",P${row}/G${row})`,
    `=IF(${taken}=0,"not measured",IF(G${row}="","no design",${verdictFormula(`P${row}`, `G${row}`)}))`,
    `=TEXTJOIN("; ",TRUE,IF(AND(${taken}>0,${taken}<6),${taken}&" of 6 readings",""),IF(COUNTIF(${readings},0)>0,"dead spot",""),IF(F${row}="","factor assumed 0.75",""))`,
    "=1-Limit_minus/100",
    "=1+Limit_plus/100",
  ]);
}

/** Returns the sheet that a technician fills: an outlet a row, its readings, and what follows from them. */
export function outletsSheet(job: DemoJob): DemoSheet {
  const last = OUTLETS_HEADING_ROW + job.outlets.length;
  const rows = (from: string, to = from) => `${from}${FIRST_OUTLET_ROW}:${to}${last}`;
  return {
    name: OUTLETS,
    cells: {
      A1: OUTLETS,
      C1: `${job.name}. ${job.about}`,
      C2: "Type over any sand-coloured cell; everything else follows.",
      C3: "Allowed below design, %",
      G3: content(job.minusPercent),
      C4: "Allowed above design, %",
      G4: content(job.plusPercent),
      I3: "Readings may be 10 to 15 % off: compare before with after, and room with design.",
      ...rowCells(OUTLETS_HEADING_ROW, COLUMNS, HEADINGS),
      ...Object.assign({}, ...job.outlets.map((outlet, index) => outletRow(outlet, FIRST_OUTLET_ROW + index))),
    },
    looks: [
      { range: "A1", look: "title" },
      { range: "C1:C2", look: "lead" },
      { range: "C3:C4", look: "label" },
      { range: "G3:G4", look: "input", format: "0" },
      { range: "I3", look: "lead" },
      { range: `A${OUTLETS_HEADING_ROW}:U${OUTLETS_HEADING_ROW}`, look: "header" },
      { range: rows("A", "C"), look: "inputText" },
      { range: rows("D", "E"), look: "input" },
      { range: rows("F"), look: "input", format: "0.00" },
      { range: rows("G"), look: "input", format: "#,##0" },
      { range: rows("H"), look: "result", format: "0" },
      { range: rows("I", "N"), look: "input", format: "0" },
      { range: rows("O"), look: "result", format: "0" },
      { range: rows("P"), look: "result", format: "#,##0" },
      { range: rows("Q"), look: "result", format: "0%" },
      { range: rows("R", "S"), look: "resultText" },
      { range: rows("T", "U"), look: "result", format: "0%" },
    ],
    accepts: [
      { range: rows("C"), list: ["supply", "return"] },
      { range: rows("B"), list: job.rooms },
      { range: rows("D", "E"), from: 1, to: 96 },
      { range: rows("F"), from: 0.05, to: 1 },
      { range: rows("G"), from: 0, to: 100_000 },
      { range: rows("I", "N"), from: -10_000, to: 10_000 },
      { range: "G3:G4", from: 0, to: 100 },
    ],
    verdicts: [rows("R")],
    merges: [],
    widths: [50, 96, 50, 60, 52, 68, 56, 52, 54, 54, 54, 54, 54, 54, 64, 56, 54, 96, 236, 62, 62],
    frozenRows: OUTLETS_HEADING_ROW,
    frozenColumns: 2,
  };
}
