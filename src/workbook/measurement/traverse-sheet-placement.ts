import type { BlockEdit, CellValue, WorkbookHost } from "../host.js";
import {
  CELLS,
  LINE_NUMBERS,
  LINES,
  OVAL_LABEL,
  POINT_NUMBERS,
  POINTS,
  ROWS,
  readingColumn,
} from "../template/duct-traverse/places.js";
import type { Placement, Refusal } from "./placement.js";
import type { TraverseSheetPlace } from "./sheet-place.js";
import type { TakenDuct, TakenMeasurement, TakenSize } from "./taken.js";

type Content = number | string | null;

/** The two sizes as the sheet has them. */
function sizesOf(size: TakenSize): readonly [width: number, height: number | null] {
  switch (size.shape) {
    case "round":
      return [size.diameter, null];
    case "rectangular":
      return [size.width, size.height];
    case "flat oval":
      return [size.major, size.minor];
  }
}

/** What the sheet asks about the plane, with the label under which a replaced entry is named. */
function fields(
  taken: TakenDuct,
  knowsOvals: boolean,
): readonly (readonly [label: string, at: string, content: Content])[] {
  const [width, height] = sizesOf(taken.size);
  const oval: Content = taken.size.shape === "flat oval" ? "yes" : null;
  return [
    ...(knowsOvals ? [[OVAL_LABEL, CELLS.oval, oval] as const] : []),
    ["Readings are", CELLS.kind, "velocity"],
    ["Rule for the points", CELLS.rule, taken.rule],
    ["Width or diameter", CELLS.width, width],
    ["Height", CELLS.height, height],
    ["Wall", CELLS.wall, taken.wall === 0 ? null : taken.wall],
    ["Lines", CELLS.lines, taken.lines],
    ["Points on a line", CELLS.points, taken.pointsPerLine],
  ];
}

const isBlank = (value: CellValue | undefined) => value === null || value === undefined || value === "";

/** The column of input cells of a line, empty beyond the plan so that no reading of an older one counts. */
function lineCells({ readings, lines, pointsPerLine }: TakenDuct, line: number): readonly (readonly Content[])[] {
  return POINT_NUMBERS.map((point) => {
    const isPlanned = line <= lines && point <= pointsPerLine;
    return [isPlanned ? (readings[(line - 1) * pointsPerLine + point - 1] ?? null) : null];
  });
}

/** Plans a duct traverse into its sheet: what the plane is, and every reading beside its place. */
export async function traverseSheetPlacement(
  host: WorkbookHost,
  { sheet }: TraverseSheetPlace,
  taken: TakenMeasurement,
): Promise<Placement | Refusal> {
  if (taken.kind !== "duct") {
    return { refusal: "This sheet takes a duct traverse, and a grille was measured. Choose another sheet." };
  }
  if (taken.lines > LINES || taken.pointsPerLine > POINTS) {
    return {
      refusal: `This sheet takes ${LINES} lines of ${POINTS} points, and the plan has ${taken.lines} of ${taken.pointsPerLine}. Choose an empty cell on another sheet.`,
    };
  }
  const [label] = await host.read([{ sheet, range: CELLS.ovalLabel.replaceAll("$", "") }]);
  const knowsOvals = label?.values[0]?.[0] === OVAL_LABEL;
  if (taken.size.shape === "flat oval" && !knowsOvals) {
    return {
      refusal:
        "This sheet takes no flat oval duct. Add a new traverse sheet, or choose an empty cell on another sheet.",
    };
  }
  const inputs = fields(taken, knowsOvals).map(([label, at, content]) => ({
    label,
    content,
    range: at.replaceAll("$", ""),
  }));
  const columns = LINE_NUMBERS.map((line) => ({
    range: `${readingColumn(line)}${ROWS.gridFirst}:${readingColumn(line)}${ROWS.gridLast}`,
    cells: lineCells(taken, line),
  }));
  const blocks = await host.read([...inputs, ...columns].map(({ range }) => ({ sheet, range })));
  const present = (index: number) => blocks[index]?.values ?? [];
  const changedInputs = inputs.flatMap(({ label, content }, index) => {
    const value = present(index)[0]?.[0];
    return isBlank(value) || value === content ? [] : [`${label}: ${String(value)}`];
  });
  const lost = columns.flatMap(({ cells }, index) =>
    present(inputs.length + index).filter(([value], row) => !isBlank(value) && value !== cells[row]?.[0]),
  ).length;
  const changedReadings = lost === 0 ? [] : [`${lost} ${lost === 1 ? "reading" : "readings"}`];
  const edits: BlockEdit[] = [
    ...inputs.map(({ range, content }) => ({ address: { sheet, range }, cells: [[content]] })),
    ...columns.map(({ range, cells }) => ({ address: { sheet, range }, cells })),
  ];
  return {
    where: `the traverse on sheet “${sheet}”`,
    edits,
    replaces: [...changedInputs, ...changedReadings],
    resultAt: { sheet, range: CELLS.airflow.replaceAll("$", "") },
    resultScale: 1,
  };
}
