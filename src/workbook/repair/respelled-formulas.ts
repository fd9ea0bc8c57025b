import { FUNCTION_SPELLINGS } from "../../cells/index.js";
import {
  type FormulaEdit,
  formatAddress,
  formulaCellsOf,
  readSheet,
  storedFormula,
  type Workbook,
} from "../../xlsx/index.js";
import { isOneValueFormula } from "../handoff/index.js";
import { isMisspelled } from "./misspelled.js";
import { withOwnCalls } from "./own-calls.js";

/**
 * Spells every call of our functions as Excel stores it: `VANE.AIRFLOW(` that another program wrote as typed stays
 * `#NAME?` in Excel, and so does a call that Excel took for one of another workbook. Results stay as they are.
 *
 * A formula of one value becomes a dynamic one, as Excel keeps the calls of an add-in; any other keeps its form, since it
 * would begin to fill its neighbors.
 */
export function respelledFormulas(workbook: Workbook): readonly FormulaEdit[] {
  return workbook.sheets
    .filter(({ kind }) => kind === "worksheet")
    .flatMap(({ name }) =>
      [...formulaCellsOf(readSheet(workbook, name))].flatMap(
        ({ row, column, value, formula }): readonly FormulaEdit[] => {
          if (formula.kind === "dataTable" || !isMisspelled(formula.text)) return [];
          const place = { sheet: name, row, column };
          const isOne = formula.kind !== "array" && isOneValueFormula(workbook, formula.text, place);
          return [
            {
              kind: "formula",
              sheet: name,
              address: formatAddress(row, column),
              formula: storedFormula(withOwnCalls(formula.text), FUNCTION_SPELLINGS),
              result: value,
              form: isOne ? "dynamic" : "keep",
            },
          ];
        },
      ),
    );
}
