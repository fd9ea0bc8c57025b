import { describe, expect, it } from "vitest";
import { evaluateFormula } from "../../src/engine/evaluate-formula.js";

/* A column of more than 64 cells is looked through once and remembered: it has to answer as a short one does. */

type Cells = Record<string, string | number | boolean>;

/** What a list of outlets may hold, with what belongs to each row in column B. */
const KNOWN: readonly (string | number | boolean)[] = [
  "S-1",
  "=0.1+0.2",
  "s-2",
  0.3,
  "12",
  12,
  "S-1",
  true,
  "TRUE",
  "1/2",
  "a~b",
  -5,
  "#N/A",
  "S-10",
  1e15,
  "=1E15+0.125",
  "straße",
];

/** The known values, at the top of a column that holds `length` of them. */
function column(length: number): Cells {
  const cells: Cells = {};
  for (let row = 1; row <= length; row += 1) {
    cells[`A${row}`] = KNOWN[row - 1] ?? `filler ${row}`;
    cells[`B${row}`] = row;
  }
  return cells;
}

const value = (formula: string, cells: Cells) => {
  const result = evaluateFormula(formula, cells);
  return result.kind === "value" ? result.value : result.kind === "error" ? result.code : result.rows;
};

const WANTED = [
  '"s-1"',
  '"S-2"',
  '"S-3"',
  "0.3",
  "0.1+0.2",
  '"0.3"',
  '"=0.3"',
  "12",
  '"12"',
  '"=12"',
  "TRUE",
  '"TRUE"',
  '"1/2"',
  '"S-1*"',
  '"S-?"',
  '"a~~b"',
  "-5",
  '"<>S-1"',
  '">0"',
  '"=#N/A"',
  '"="',
  '""',
  "1E15",
  '"STRASSE"',
  "C1",
];

describe("a column longer than what is looked through cell by cell", () => {
  const [short, long, limit] = [column(20), column(120), column(65)];

  it.each(WANTED)("finds %s where a short one does", (wanted) => {
    for (const call of ["MATCH", "XMATCH", "COUNTIF", "SUMIF", "VLOOKUP", "XLOOKUP", "COUNTIFS"] as const) {
      const of = (last: number) => {
        const range = `$A$1:$A$${last}`;
        if (call === "MATCH") return `=MATCH(${wanted},${range},0)`;
        if (call === "XMATCH") return `=XMATCH(${wanted},${range})`;
        if (call === "VLOOKUP") return `=VLOOKUP(${wanted},$A$1:$B$${last},2,FALSE)`;
        if (call === "XLOOKUP") return `=XLOOKUP(${wanted},${range},$B$1:$B$${last})`;
        // Fillers meet some criteria: only the known rows are counted, by a second condition or by their place.
        if (call === "COUNTIF")
          return `=COUNTIF(${range},${wanted})-COUNTIFS(${range},${wanted},$B$1:$B$${last},">17")`;
        if (call === "SUMIF")
          return `=SUMIF(${range},${wanted},$B$1:$B$${last})-SUMIFS($B$1:$B$${last},$B$1:$B$${last},">17",${range},${wanted})`;
        return `=COUNTIFS(${range},${wanted},$B$1:$B$${last},"<=17")`;
      };
      const expected = value(of(20), short);
      expect(value(of(120), long), `${call} of 120`).toEqual(expected);
      expect(value(of(65), limit), `${call} of 65`).toEqual(expected);
    }
  });

  it("counts by hand what it finds", () => {
    const all = (wanted: string) => value(`=COUNTIF(A1:A120,${wanted})`, long);
    expect(["0.3", '"s-1"', "12", '"nobody"', "-5"].map(all)).toEqual([2, 2, 2, 0, 1]);
    expect(value('=SUMIF(A1:A120,"S-1",B1:B120)', long)).toBe(1 + 7);
    expect(value("=SUMIF(A1:A120,0.3,B1:B120)", long)).toBe(2 + 4);
    expect(value("=MATCH(0.3,A1:A120,0)", long)).toBe(2);
    expect(value("=MATCH(12,A1:A120,0)", long)).toBe(6);
    expect(value('=MATCH("12",A1:A120,0)', long)).toBe(5);
    expect(value('=MATCH("filler 120",A1:A120,0)', long)).toBe(120);
    expect(value('=XMATCH("S-1",A1:A120,0,-1)&XLOOKUP(0.3,A1:A120,B1:B120,,0,-1)', long)).toBe("74");
  });

  it("counts rows from its own first cell, and keeps two columns apart", () => {
    expect(value('=MATCH("filler 100",A21:A120,0)&" "&MATCH("filler 100",A1:A120,0)', long)).toBe("80 100");
    expect(value("=MATCH(100,A1:A120,0)", long)).toBe("#N/A");
    expect(value("=MATCH(100,B1:B120,0)&COUNTIF(B1:B120,100)&COUNTIF(A1:A120,100)", long)).toBe("10010");
    expect(value("=MATCH(100,A1:A120,0)+MATCH(100,B1:B120,0)", long)).toBe("#N/A");
  });

  it("adds up only the rows that meet every condition", () => {
    expect(value('=SUMIFS(B1:B120,A1:A120,"S-1",B1:B120,">1")', long)).toBe(7);
    expect(value('=MAXIFS(B1:B120,A1:A120,"S-1")&MINIFS(B1:B120,A1:A120,"S-1")', long)).toBe("71");
    expect(value('=AVERAGEIF(A1:A120,"S-1",B1:B120)', long)).toBe(4);
  });
});
