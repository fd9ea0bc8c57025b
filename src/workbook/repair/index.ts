export { fillFormulas } from "./fill-formulas.js";
export { type FormulaRun, formulaRuns } from "./formula-runs.js";
export type { RepairOutcome, UnrepairedSheet } from "./repair-outcome.js";
export {
  type RepairPlan,
  repairPlan,
  type SheetRepair,
  type ShownSheet,
  type StuckFormula,
  type UnknownFormula,
} from "./repair-plan.js";
export { respelledFormulas } from "./respelled-formulas.js";
export { type FormulaTrouble, formulaTrouble } from "./stuck-formula.js";
