import { rowXml, sheetFile } from "./sheet-file.js";

/** Plain formulas of a row: area, airflow, percent of design, and a word on it. */
export const FLOW_FORMULAS = [
  "=B#*C#/144",
  "=G#*E#*D#",
  "=ROUND(H#/F#*100,1)",
  '=IF(F#>0,IF(ABS(H#-F#)/F#<=0.1,"within","outside"),"")',
];

/** A workbook of so many outlets, invented, whose airflows are four plain formulas a row, none calculated yet. */
export function flowWorkbook(outlets: number): Uint8Array {
  const rows = Array.from({ length: outlets }, (_, index) => {
    const inputs = [`S-${index + 1}`, 14 + (index % 6), 6 + (index % 4), 0.75, 350 + ((index * 37) % 140)];
    return rowXml(index + 1, [...inputs, 150 + (index % 60), ...FLOW_FORMULAS]);
  });
  return sheetFile("Flow", rows);
}
