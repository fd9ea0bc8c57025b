import { DATA_VERSION } from "../../../engine/index.js";
import { DEMO_PLACES, type DemoJob, demoWorkbook, type LookRange } from "../../../workbook/index.js";
import { engineSheet } from "./engine-sheet.js";
import { COLORS, LOOKS } from "./looks.js";

/** Returns a list that numbers its entries from 1, as the engine's own lists do. */
function numbered<Key extends string>() {
  const numbers = new Map<Key, number>();
  const numberOf = (key: Key): number => {
    const known = numbers.get(key) ?? numbers.size + 1;
    numbers.set(key, known);
    return known;
  };
  return { numberOf, entries: () => [...numbers].map(([key, number]) => [number, key] as const) };
}

/** Percent of design by outlet as bars, and the two limits as lines across them. */
function designChart(job: DemoJob) {
  const { sheet, headingRow } = DEMO_PLACES.outlets;
  const range = (column: string) => `${sheet}!${column}${headingRow}:${column}${headingRow + job.outlets.length}`;
  return {
    id: "design-chart",
    col: 9,
    row: DEMO_PLACES.rooms.headingRow - 1,
    offset: { x: 0, y: 0 },
    width: 500,
    height: 380,
    tag: "chart",
    data: {
      chartId: "design-chart",
      type: "combo",
      title: { text: "Percent of design by outlet", color: COLORS.header, bold: true, fontSize: 16 },
      dataSource: {
        type: "range",
        dataSets: [
          { dataSetId: "percent", dataRange: range("Q") },
          { dataSetId: "low", dataRange: range("T") },
          { dataSetId: "high", dataRange: range("U") },
        ],
        dataSetsHaveTitle: true,
        labelRange: range("A"),
      },
      dataSetStyles: {
        percent: { type: "bar", backgroundColor: COLORS.bar },
        low: { type: "line", backgroundColor: COLORS.limitLow },
        high: { type: "line", backgroundColor: COLORS.limitHigh },
      },
      hideDataMarkers: true,
      legendPosition: "bottom",
      axesDesign: { y: { min: 0 } },
    },
  };
}

/** Returns the demonstration job in the engine's own form: what the page opens with. */
export function demoData(job: DemoJob): object {
  const { sheets, names } = demoWorkbook(job);
  const looks = numbered<LookRange["look"]>();
  const formats = numbered<string>();
  const numbering = { look: looks.numberOf, format: formats.numberOf, frame: 1 };
  const thin = { style: "thin", color: COLORS.rule };
  return {
    version: DATA_VERSION,
    sheets: sheets.map((sheet, place) =>
      engineSheet(
        sheet,
        `sheet-${place + 1}`,
        numbering,
        sheet.name === DEMO_PLACES.rooms.sheet ? [designChart(job)] : [],
      ),
    ),
    styles: Object.fromEntries(looks.entries().map(([number, look]) => [number, LOOKS[look]])),
    formats: Object.fromEntries(formats.entries()),
    borders: { 1: { top: thin, bottom: thin, left: thin, right: thin } },
    namedRanges: names,
  };
}
