import { describe, expect, it } from "vitest";
import { evaluateFormula, type FormulaResult } from "../../src/engine/index.js";
import { departure, publishedCases } from "../published-cases.js";

/** Runs the cell formula of every published case through the engine of the page and the command line. */

const asked = publishedCases().flatMap(({ cell, ...row }) => (cell ? [{ ...row, cell }] : []));

describe.each([...new Set(asked.map(({ file }) => file))])("%s as cell formulas", (file) => {
  it.each(asked.filter((row) => row.file === file))("$title: $cell.formula", ({ cell, source, toleranceReason }) => {
    const result = shown(evaluateFormula(cell.formula));
    expect(departure(result, cell.expected, cell.tolerance), `${source} (${toleranceReason})`).toBeUndefined();
  });
});

/** The value, the block, or the error with its message, as the person sees it. */
function shown(result: FormulaResult): unknown {
  if (result.kind === "value") return result.value;
  return result.kind === "block" ? result.rows : `${result.code} ${result.message}`;
}
