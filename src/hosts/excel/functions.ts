/*
 * The script that Excel runs for every VANE formula. It loads before the pane and stays small.
 */
import { cellCalls } from "../../cells/calls.generated.js";
import { associateFunctions } from "./associate-functions.js";

// Without office.js there is nobody to register with; the page says why.
if (typeof CustomFunctions !== "undefined") associateFunctions(cellCalls);
