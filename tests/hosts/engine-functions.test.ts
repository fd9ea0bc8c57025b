import { evaluateFormula } from "../../src/engine/index.js";
import { describeFunctions } from "./function-contract.js";

describeFunctions("the spreadsheet engine", (formula, cells) => {
  const result = evaluateFormula(formula, cells);
  if (result.kind === "value") return result.value;
  return result.kind === "block" ? result.rows : { error: result.code, message: result.message };
});
