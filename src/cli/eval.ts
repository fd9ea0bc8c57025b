import { evaluateFormula, type FormulaResult, type ResultCell } from "../engine/calculation.js";
import { type Command, EXIT, type ExitStatus, onePositional } from "./command.js";
import { onOneLine } from "./shown-controls.js";

/** Digits that a workbook shows at most; what lies beyond is binary noise. */
const SIGNIFICANT_DIGITS = 15;

/** Nothing that is no number is ever printed as one. */
function checkedCell(cell: ResultCell): ResultCell {
  if (typeof cell !== "number" || Number.isFinite(cell)) return cell;
  return { error: "#NUM!", message: "The result is too large, or not a number." };
}

function checked(result: FormulaResult): FormulaResult {
  if (result.kind === "block") return { ...result, rows: result.rows.map((cells) => cells.map(checkedCell)) };
  if (result.kind === "error") return result;
  const value = checkedCell(result.value);
  return typeof value === "object"
    ? { kind: "error", code: value.error, message: value.message }
    : { ...result, value };
}

function shown(cell: ResultCell): string {
  if (typeof cell === "number") return String(Number(cell.toPrecision(SIGNIFICANT_DIGITS)));
  if (typeof cell === "boolean") return cell ? "TRUE" : "FALSE";
  return typeof cell === "string" ? onOneLine(cell) : cell.error;
}

function errorMessages(rows: readonly (readonly ResultCell[])[]): readonly string[] {
  return rows.flatMap((cells, row) =>
    cells.flatMap((cell, column) =>
      typeof cell === "object" ? [`row ${row + 1}, column ${column + 1}: ${cell.error} ${cell.message}`] : [],
    ),
  );
}

function print(result: FormulaResult): ExitStatus {
  if (result.kind === "error") {
    console.log(result.code);
    if (result.message !== "") console.error(result.message);
    return EXIT.found;
  }
  if (result.kind === "value") {
    console.log(shown(result.value));
    return EXIT.done;
  }
  for (const cells of result.rows) console.log(cells.map(shown).join("\t"));
  const messages = errorMessages(result.rows);
  for (const message of messages) console.error(message);
  return messages.length > 0 ? EXIT.found : EXIT.done;
}

function hasError(result: FormulaResult): boolean {
  return result.kind === "error" || (result.kind === "block" && errorMessages(result.rows).length > 0);
}

export const evalCommand: Command = {
  usage: '"FORMULA" [--json]',
  help: [
    "Calculates one spreadsheet formula and prints its value; a block prints a line a row, tabs between cells.",
    "An error prints its code, its message on the error stream, and ends with status 1.",
    "",
    'vanesheet eval "=VANE.AIRFLOW.FACE(14,6,{400,420;380,400},0.75)"',
  ],
  options: { json: { type: "boolean" } },
  async run(args) {
    const formula = onePositional(args, "FORMULA");
    const result = checked(evaluateFormula(formula));
    if (args.options["json"] !== true) return print(result);
    console.log(JSON.stringify(result));
    return hasError(result) ? EXIT.found : EXIT.done;
  },
};
