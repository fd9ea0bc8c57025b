import { FUNCTION_SPELLINGS } from "../../cells/index.js";
import { scanFormula } from "../../xlsx/formula/scan-formula.js";
import { callsFunction, readableFormula } from "../../xlsx/formula/spelling.js";
import { withOwnCalls } from "./own-calls.js";

/** The spelling in which a file stores a call; shown in a workbook only where the add-in was not there to read it. */
const STORED_CALL = /^_xldudf_VANE_/i;

const ANY_CALL = /^(?:_xldudf_VANE_|VANE\.)/i;

/**
 * What is wrong with a formula that calls our functions: "stuck" is cured by entering it again as typed; "unknown"
 * asks for a function that this version does not have.
 */
export type FormulaTrouble =
  | { readonly kind: "stuck"; readonly typed: string }
  | { readonly kind: "unknown"; readonly functionName: string };

/**
 * Says whether a formula of a sheet needs repair, and how it is typed; null where it is in order or none of ours.
 *
 * A workbook that was saved or typed before the add-in was loaded keeps `#NAME?` until the formula is entered again.
 *
 * @param formula - As the sheet shows it, with its equals sign, in either spelling
 * @param shownError - The error code that the cell shows, null where it shows none
 */
export function formulaTrouble(formula: string, shownError: string | null): FormulaTrouble | null {
  const names = scanFormula(formula).filter(({ kind, text }) => kind === "name" && ANY_CALL.test(text));
  if (names.length === 0) return null;
  const isStored = names.some(({ text }) => STORED_CALL.test(text));
  if (!isStored && shownError !== "#NAME?") return null;
  const unknown = names.find(({ text }) => !callsFunction(`${text}(`, FUNCTION_SPELLINGS));
  if (unknown !== undefined) return { kind: "unknown", functionName: unknown.text };
  return { kind: "stuck", typed: readableFormula(withOwnCalls(formula), FUNCTION_SPELLINGS) };
}
