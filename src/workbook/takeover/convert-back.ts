import { isWrittenSize } from "../../cells/index.js";
import { columnNumber, formatAddress } from "../../xlsx/index.js";
import { type FormulaHome, handoffFormula, NO_PLACES } from "../handoff/index.js";
import { type SheetSource, shownCell } from "../source/index.js";
import type { Conversions } from "./convert-airflows.js";

const CALLS_VANE = /VANE[._]/i;

const AS_COPY = "Make a hand-off copy instead.";

/** Formulas of one sheet, by themselves, that know which of its cells hold a size as text. */
function homeIn(source: SheetSource): Omit<FormulaHome, "place"> {
  const places: FormulaHome["places"] = {
    ...NO_PLACES,
    holdsWrittenSize({ sheet, range }) {
      if (sheet.toLowerCase() !== source.name.toLowerCase()) return false;
      for (let row = range.firstRow; row <= Math.min(range.lastRow, source.lastRow); row += 1) {
        const value = source.valueAt(row, range.firstColumn);
        if (typeof value === "string" && isWrittenSize(value)) return true;
      }
      return false;
    },
  };
  return { places, form: "dynamic", fills: undefined, keepsTables: false };
}

/**
 * Says which formulas of one column call a function of ours, and the plain formula of each, as a hand-off copy has it.
 * Changes nothing.
 *
 * @param nameOf - What a row is called, for the person
 */
export function plainAgain(source: SheetSource, letters: string, nameOf: (row: number) => string): Conversions {
  const column = columnNumber(letters);
  const home = homeIn(source);
  const value: Conversions["value"][number][] = [];
  const left: Conversions["left"][number][] = [];
  for (const row of source.rowsFrom(1)) {
    const text = source.formulaAt(row, column);
    if (text === undefined || !CALLS_VANE.test(text)) continue;
    const place = { sheet: source.name, address: formatAddress(row, column), outlet: nameOf(row) };
    const plain = handoffFormula(text, { ...home, place: { sheet: source.name, row, column } });
    const shown = shownCell(source, row, column);
    const oldValue = shown.kind === "number" ? shown.value : null;
    if (plain.kind === "plain" && !plain.isArray) {
      const newFormula = `=${plain.formula}`;
      value.push({
        ...place,
        row,
        column,
        oldFormula: `=${text}`,
        newFormula,
        oldValue,
        newValue: oldValue,
        cause: null,
      });
    } else if (plain.kind === "value") left.push({ ...place, reason: `${plain.reasons.join(" ")} ${AS_COPY}` });
    else left.push({ ...place, reason: `Its plain formula fills several cells. ${AS_COPY}` });
  }
  return { value, left };
}
