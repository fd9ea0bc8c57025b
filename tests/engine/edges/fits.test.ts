import { describe } from "vitest";
import { table } from "./table.js";

describe("a line through points", () => {
  // x 1 to 4, y 1 3 2 5: Sxx 5, Sxy 5.5, Syy 8.75; explained 6.05, left 2.7 of two degrees of freedom.
  table([
    [
      "LINEST({1;3;2;5},{1;2;3;4},TRUE,TRUE)",
      [
        [1.1, 0],
        [Math.sqrt(1.35 / 5), Math.sqrt(1.35 * 1.5)],
        [6.05 / 8.75, Math.sqrt(1.35)],
        [6.05 / 1.35, 2],
        [6.05, 2.7],
      ],
    ],
    [
      "LINEST({1,3,2,5},,FALSE,TRUE)",
      [
        [33 / 30, 0],
        [Math.sqrt(0.9 / 30), "#N/A"],
        [36.3 / 39, Math.sqrt(0.9)],
        [36.3 / 0.9, 3],
        [36.3, 2.7],
      ],
    ],
    // y = 2 + 3a − b with ±0.5 left over: a and b are independent, each with a sum of squares of 1.
    [
      "LINEST({2.5;4.5;0.5;4.5},{0,0;1,0;0,1;1,1},TRUE,TRUE)",
      [
        [-1, 3, 2],
        [1, 1, Math.sqrt(0.75)],
        [10 / 11, 1, "#N/A"],
        [5, 1, "#N/A"],
        [10, 1, "#N/A"],
      ],
    ],
    ["LINEST({2.5,4.5,0.5,4.5},{0,1,0,1;0,0,1,1})", [[-1, 3, 2]]],
    // b leans on a: 2 + 3a − b exactly.
    ["ROUND(LINEST({2;4;7;6;13},{0,0;1,1;2,1;2,2;4,1}),9)", [[-1, 3, 2]]],
    ["LINEST({1;2;3},{1,2;2,4;3,6})", [[0, 1, 0]]],
    ["ROUND(LOGEST({6,18,54},{1,2,3}),9)", [[3, 2]]],
    ["LOGEST({6,0,54},{1,2,3})", "#NUM!"],
    ["TREND({1;3;2;5},{1;2;3;4},{5;10})", [[5.5], [11]]],
    ["TREND({1;3;2;5})", [[1.1], [2.2], [3.3], [4.4]]],
    ["TREND({1,3,2,5})", [[1.1, 2.2, 3.3, 4.4]]],
    ["ROUND(TREND({2;4;7;6;13},{0,0;1,1;2,1;2,2;4,1},{10,3}),9)", 29],
    ["ROUND(TREND({2,4,7,6,13},{0,1,2,2,4;0,1,1,2,1},{10;3}),9)", 29],
    ["ROUND(GROWTH({6,18,54},{1,2,3},{4}),6)", 162],
    ["LINEST({1;2;3},{1,2;3,4})", "#REF!"],
    ['LINEST({1;"x";3})', "#VALUE!"],
    ["STEYX({1,3,2,5},{1,2,3,4})", Math.sqrt(1.35)],
    ["STEYX({1,3},{1,2})", "#DIV/0!"],
    ["STEYX({1,3,4},{2,2,2})", "#DIV/0!"],
    ["COVARIANCE.S({1,3},{1,2})", 1],
    ["COVARIANCE.S({1},{1})", "#DIV/0!"],
    ["COVARIANCE.P({1},{1})", 0],
    ["CORREL({1,1},{1,2})", "#DIV/0!"],
    ["CORREL({1,2},{1,1})", "#DIV/0!"],
  ]);
});
