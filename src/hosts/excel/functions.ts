/*
 * The script that Excel runs for every VANE formula. It loads before the pane and stays small.
 */
import { cellFunctions } from "../../cells/index.js";
import { associateFunctions } from "./associate-functions.js";

// Without office.js there is nobody to register with; the page says why.
if (typeof CustomFunctions !== "undefined") associateFunctions(cellFunctions);
