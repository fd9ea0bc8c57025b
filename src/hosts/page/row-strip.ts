import type { Model } from "@odoo/o-spreadsheet";
import { averageVelocity, sweepAverage, type UnitSystemName } from "../../core/index.js";
import { watchChanges } from "../../engine/index.js";
import {
  airflowUnit,
  findLists,
  jobPlaces,
  type ListedOutlet,
  type ListRow,
  listAt,
  namesOf,
  type OutletList,
  readingsOf,
  readListedOutlet,
  rowsOf,
  type SourceName,
  shownCell,
  shownText,
  statedJob,
  velocityUnit,
} from "../../workbook/index.js";
import { parseRange } from "../../xlsx/address.js";
import { cellValue } from "./cells-of.js";
import { sheetOfModel } from "./model-source.js";

/** The readings that count are those as left, where there are any. */
const STATES = ["left", "now", "found"] as const;

/** The defined names of the workbook. */
function namesIn({ getters }: Model): readonly SourceName[] {
  const written = { useFixedReference: true };
  return namesOf(
    new Map(getters.getNamedRanges().map(({ name, range }) => [name, getters.getRangeString(range, "", written)])),
  );
}

/** The units in which the workbook's job is measured. */
function jobUnits(model: Model): UnitSystemName | null {
  const { getters } = model;
  const valueAt = ({ sheet, range }: { readonly sheet: string; readonly range: string }) => {
    const [sheetId, block] = [getters.getSheetIdByName(sheet), parseRange(range)];
    if (sheetId === undefined || block === undefined) return null;
    return cellValue(model, { sheetId, row: block.firstRow - 1, col: block.firstColumn - 1 });
  };
  return statedJob(jobPlaces(namesIn(model)), valueAt, false)?.statedUnits ?? null;
}

/** The average of the readings that count in a row; null where there is none yet, or one that is no number. */
function average(list: OutletList, row: number): number | null {
  for (const state of STATES) {
    const readings = readingsOf(list, state);
    if (readings === undefined) continue;
    const cells = readings.columns.map((column, index) => ({
      reading: shownCell(list.source, row, column),
      seconds: shownCell(list.source, row, readings.seconds[index] ?? column),
    }));
    const taken = cells.filter(({ reading }) => reading.kind !== "blank");
    if (taken.length === 0) continue;
    const numbers = taken.flatMap(({ reading, seconds }) =>
      reading.kind === "number" && seconds.kind === "number" ? [[reading.value, seconds.value] as const] : [],
    );
    if (numbers.length !== taken.length) return null;
    const velocities = numbers.map(([velocity]) => velocity);
    if (readings.holds !== "sweep") return averageVelocity(velocities);
    return numbers.every(([, seconds]) => seconds > 0)
      ? sweepAverage(
          velocities,
          numbers.map(([, seconds]) => seconds),
        )
      : null;
  }
  return null;
}

function figure(value: number): string {
  return value.toFixed(Math.abs(value) < 10 ? 2 : Math.abs(value) < 100 ? 1 : 0);
}

/** One piece of the strip: what it is called, and what it shows. */
export interface StripPiece {
  readonly name: string;
  readonly text: string;
}

/** Says what a row of a list comes to so far. */
function piecesOf(outlet: ListedOutlet): readonly StripPiece[] {
  const { list, row, measured, design, percent, verdict } = outlet;
  const units = outlet.unitsOf("airflow") ?? "ip";
  const [velocity, flow] = [velocityUnit(units), airflowUnit(units)];
  const mean = average(list, row.row);
  const share = percent.kind === "number" ? `${figure(percent.value)} %` : shownText(percent);
  return [
    { name: "Outlet", text: outlet.tag === "" ? `Row ${row.row}` : outlet.tag },
    ...(mean === null ? [] : [{ name: "Average", text: `${figure(mean)} ${velocity}` }]),
    { name: "Airflow", text: measured === null ? "no reading" : `${figure(measured)} ${flow}` },
    ...(design === null ? [] : [{ name: "Design", text: `${figure(design)} ${flow}` }]),
    ...(share === "" ? [] : [{ name: "Percent", text: share }]),
    ...(verdict === "" ? [] : [{ name: "Verdict", text: verdict }]),
  ];
}

/** What stands in the strip: pieces of the selected row, or a sentence; neither on a sheet without a list of outlets. */
interface Strip {
  readonly pieces: readonly StripPiece[];
  readonly hint: string;
}

const HINT = "Select the row of an outlet: its result is shown here while you type.";

/** Returns what stands in the strip for the selected cell. */
export function stripOf(model: Model, listsOf: (sheetId: string) => readonly OutletList[]): Strip {
  const { sheetId, row: index, col } = model.getters.getActivePosition();
  const row = index + 1;
  const lists = listsOf(sheetId);
  if (lists.length === 0) return { pieces: [], hint: "" };
  const list = listAt(lists, { row, column: col + 1 });
  const known = list === undefined ? undefined : listRowAt(list, row);
  if (list === undefined || known?.is !== "outlet") return { pieces: [], hint: HINT };
  return { pieces: piecesOf(readListedOutlet(list, known, jobUnits(model))), hint: "" };
}

function listRowAt(list: OutletList, row: number): ListRow | undefined {
  for (const one of rowsOf({ ...list, lastRow: Math.min(list.lastRow, row) })) if (one.row === row) return one;
  return undefined;
}

/** Shows in an element what the selected row comes to, as it is typed; returns how to stop. */
export function showRowIn(model: Model, element: HTMLElement): () => void {
  const owner = {};
  const known = new Map<string, readonly OutletList[]>();
  const listsOf = (sheetId: string): readonly OutletList[] => {
    const lists =
      known.get(sheetId) ?? findLists({ sheets: [sheetOfModel(model, sheetId)], names: namesIn(model) }).value;
    known.set(sheetId, lists);
    return lists;
  };
  let shown = "";
  const show = (): void => {
    const { pieces, hint } = stripOf(model, listsOf);
    const now = JSON.stringify([pieces, hint]);
    if (now === shown) return;
    shown = now;
    const made = pieces.map(({ name, text }) => {
      const piece = document.createElement("span");
      const label = document.createElement("span");
      label.className = "label";
      label.textContent = name;
      const value = document.createElement("b");
      value.textContent = text;
      if (name === "Verdict") value.dataset["verdict"] = text;
      piece.append(label, " ", value);
      return piece;
    });
    // A space, for whoever reads it as one text.
    element.replaceChildren(...made.flatMap((piece) => [piece, " "]), hint);
    element.classList.toggle("hint", hint !== "");
    element.hidden = pieces.length === 0 && hint === "";
  };
  const stop = watchChanges(model, (sheetIds) => {
    for (const id of sheetIds) known.delete(id);
  });
  model.on("update", owner, show);
  show();
  return () => {
    stop();
    model.off("update", owner);
    element.replaceChildren();
  };
}
