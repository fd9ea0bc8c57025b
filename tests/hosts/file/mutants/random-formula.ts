import { registries } from "@odoo/o-spreadsheet";
import { cellFunctions, storedName, typedName } from "../../../../src/cells/index.js";
import type { Dice } from "./dice.js";

const OURS = cellFunctions.flatMap((declaration) => [storedName(declaration), typedName(declaration)]);

const FOREIGN = "_xlfn.LET _xlfn._xlws.FILTER _xlfn.LAMBDA LET LAMBDA NOPE _xldudf_VANE_NOPE VANE.NOPE VANE REPT".split(
  " ",
);

/** Every function that the engine knows, and some that it does not. */
const NATIVE = [...Object.keys(registries.functionRegistry.content), ...FOREIGN];

const REFERENCES =
  `A1 $B$2 B$3 $C4 Z99 XFD1048576 XFE1 A0 A1048577 ZZZ9999999 A1:B2 B2:A1 E2:G2 A:A $A:$C 1:1 1:3 A1:A1:B2
  A1:XFD1048576 Inputs!A1:XFD1048576 Job!A1:Z1048576 Job!A1:A3000 Job!A1:ZZ1 Job!A:XFD Outlets!H:H B:XFD 1:1048576 Inputs!$B$1 Outlets!H2:H13 Outlets!A:Z 'Outlets'!A1 'No such'!A1 Job!B4 'It''s'!A1 [1]Sheet!A1
  '[other.xlsx]Sheet'!A1 #REF! Outlets!#REF! #REF!A1 Outlets[Width] Outlets[[#This],[Row]] Outlets[[#This Row],[Factor]]
  Outlets[#All] Outlets[[#Headers],[R1]:[R6]] [@Width] [@[Design airflow]] Rooms[@Room] Nothing[X] Outlets[ Sheet1:Sheet3!A1 A1#
  FreeRatio AllAirflow Job_Units Job_Elevation __proto__ constructor toString hasOwnProperty R1C1 RC[-1] @A1`.split(
    /\s(?=\S)\s*/,
  );

const CONSTANTS =
  `0 1 -1 0.75 14 6 1e10 -1e10 3000000 1e308 1e309 -1e308 1E-320 99999999999999999999 .5 5. 1e 1e+ 0x10 007 "" "text" "ip" "si"
  "a""b" "equal area" "unclosed TRUE FALSE #N/A #VALUE! #DIV/0! #NOPE! {1,2;3,4} {1,2;3} {} {"a",#N/A} {-1,TRUE}`.split(
    /\s+/,
  );

const SIGNS = "+ - * / ^ & = <> < > <= >= % , ; : ! ( ) { } [ ] ' \" @ # $ \\ | ~ ? . _ ä ° 𝒳 \u00a0 \n \t".split(" ");

/** A formula with a sense, more or less. */
function expression(dice: Dice, depth: number): string {
  const kind = dice.below(depth > 4 ? 3 : 9);
  if (kind <= 1) return dice.oneOf(REFERENCES);
  if (kind === 2) return dice.oneOf(CONSTANTS);
  if (kind === 3)
    return `${expression(dice, depth + 1)}${dice.oneOf(SIGNS.slice(0, 12))}${expression(dice, depth + 1)}`;
  if (kind === 4) return `(${expression(dice, depth + 1)})`;
  if (kind === 5) return `${dice.oneOf(["-", "+", "--", "@"])}${expression(dice, depth + 1)}`;
  const name = kind === 6 ? dice.oneOf(NATIVE) : dice.oneOf(OURS);
  const given = Array.from({ length: dice.below(6) }, () => (dice.below(8) === 0 ? "" : expression(dice, depth + 1)));
  return `${name}(${given.join(",")})`;
}

/** Pieces of formulas in any order. */
function tokens(dice: Dice): string {
  const kinds = [OURS, NATIVE, REFERENCES, CONSTANTS, SIGNS, SIGNS];
  return Array.from({ length: 1 + dice.below(20) }, () => dice.oneOf(dice.oneOf(kinds))).join("");
}

/** The same within itself many times over. */
function nested(dice: Dice): string {
  const [open, close] = dice.oneOf([
    ["(", ")"],
    ["-", ""],
    ["1+(", ")"],
    ["SUM(", ")"],
    ["IF(1,", ",0)"],
    ["_xldudf_VANE_AIRFLOW(", ",1)"],
    ["VANE.OPENING.RECT(1,", ")"],
    ["{", "}"],
    ["[", "]"],
    ["A1&", ""],
    ["1^", ""],
    ["'", "'"],
    ['"', '"'],
    ["Outlets[", "]"],
  ] as const);
  const times = dice.oneOf([10, 63, 64, 65, 200, 1000, 1500, 4000, 8192]);
  const [before, after] = dice.below(4) === 0 ? [times, 0] : [times, times];
  return `${open.repeat(before)}A1${close.repeat(after)}`;
}

/** A formula without its equals sign: sound, half sound or none. */
export function randomFormula(dice: Dice): string {
  const kind = dice.below(10);
  if (kind < 6) return expression(dice, 0);
  return kind < 9 ? tokens(dice) : nested(dice);
}

/** A formula of a file with a piece of it changed. */
export function spoiltFormula(formula: string, dice: Dice): string {
  const start = dice.below(formula.length + 1);
  const end = start + dice.below(Math.min(8, formula.length + 1 - start));
  const piece = dice.oneOf([REFERENCES, CONSTANTS, SIGNS, NATIVE, OURS, [""]]);
  return `${formula.slice(0, start)}${dice.oneOf(piece)}${formula.slice(end)}`;
}
