import { expect, it } from "vitest";
import { evaluateFormula } from "../../../src/engine/evaluate-formula.js";

/* What functions give at the ends of what they take. Values by hand, from their definitions, unless said otherwise. */

const CELLS = { A1: 3, A2: "door shut", A3: true, A5: "=NA()", A6: "=1/0", B1: 10, B2: 20, B3: 30, B4: 40 };

/** A value, a block by rows, or the code of an error, in a block too. */
function given(formula: string): unknown {
  const result = evaluateFormula(`=${formula}`, CELLS);
  const plain = (cell: unknown) =>
    typeof cell === "object" && cell !== null && "error" in cell
      ? cell.error
      : typeof cell === "number"
        ? near(cell)
        : cell;
  if (result.kind === "error") return result.code;
  return result.kind === "value" ? plain(result.value) : result.rows.map((row) => row.map(plain));
}

const near = (value: number) => (Math.abs(value) < 1e-14 ? 0 : Number(value.toPrecision(9)));

/** A test for each formula: its value, a block by rows, or the code of its error. */
export function table(cases: readonly (readonly [formula: string, value: unknown])[]) {
  it.each(cases)("%s", (formula, value) => {
    const rounded = (one: unknown): unknown =>
      Array.isArray(one) ? one.map(rounded) : typeof one === "number" ? near(one) : one;
    expect(given(formula)).toEqual(rounded(value));
  });
}
