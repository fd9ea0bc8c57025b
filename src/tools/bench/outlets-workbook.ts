import { rowXml, sheetFile } from "./sheet-file.js";

/** Formulas of an outlet's row, from column K: five calls that read inputs alone, and a plain formula over one of them. */
export const ROW_FORMULAS = [
  "=VANE.OPENING.RECT(B#,C#)",
  "=VANE.TRAVERSE.AVERAGE(E#:I#,COUNT(E#:I#))",
  "=VANE.AIRFLOW.FACE(B#,C#,E#:I#,D#,COUNT(E#:I#))",
  "=VANE.AIRFLOW.TARGET(J#,B#*C#/144,D#)",
  "=VANE.TRAVERSE.SPREAD(E#:I#,COUNT(E#:I#))",
  '=IF(J#>0,100*M#/J#,"")',
];

const SIZES = [
  [14, 6],
  [12, 8],
  [10, 10],
  [20, 8],
] as const;

function outlet(index: number): readonly (number | string)[] {
  const [width, height] = SIZES[index % SIZES.length] ?? SIZES[0];
  const readings = [0, 1, 2, 3, 4].map((reading) => 350 + ((index * 37 + reading * 11) % 140));
  return [`S-${index + 1}`, width, height, 0.75, ...readings, 150 + (index % 60), ...ROW_FORMULAS];
}

/** A workbook of so many outlets, invented, six formulas a row, none calculated yet. */
export function outletsWorkbook(outlets: number): Uint8Array {
  const rows = Array.from({ length: outlets }, (_, index) => rowXml(index + 1, outlet(index)));
  return sheetFile("Outlets", rows);
}
