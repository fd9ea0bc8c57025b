import { describe, expect, it } from "vitest";
import { foundInFile, type GivenCells } from "./given-workbook.js";
import { adjustedRows, namedRows, outletRows, ROOMS, retestRows } from "./planted-faults.js";

const without = (cells: GivenCells, ...addresses: readonly string[]): GivenCells =>
  Object.fromEntries(Object.entries(cells).filter(([at]) => !addresses.includes(at)));

const row = (cells: GivenCells, number: number, columns: string): readonly string[] =>
  [...columns].map((column) => `${column}${number}`).filter((at) => at in cells);

const kindsIn = async (cells: GivenCells) =>
  (await foundInFile({ Balance: cells })).map(({ kind, cell }) => `${cell} ${kind}`);

const areas = (...values: readonly (number | string)[]): GivenCells =>
  Object.fromEntries(
    values.flatMap((area, index) => [
      [`A${index + 1}`, 400],
      [`B${index + 1}`, area],
      [`C${index + 1}`, `=VANE.AIRFLOW(A${index + 1},B${index + 1})`],
    ]),
  );

describe("what only looks like a fault stays quiet", () => {
  it.each<[string, GivenCells]>([
    ["blanks among readings that taken tells", without(outletRows(2), "H2", "I2")],
    ["a dead spot that taken tells", { ...outletRows(2), G2: 0 }],
    [
      "a COUNT in a cell of its own",
      { ...outletRows(1), M2: "=COUNT(F2:I2)", J2: "=VANE.AIRFLOW.FACE(B2,C2,F2:I2,D2,M2)" },
    ],
    [
      "a COUNT in two parts of the same cells",
      { ...outletRows(1), J2: "=VANE.AIRFLOW.FACE(B2,C2,F2:I2,D2,COUNT(F2:G2,H2:I2))" },
    ],
    ["a measured 0 that taken tells", { A1: 0, B1: 120, C1: "=VANE.DESIGN.PERCENT(A1,B1,COUNT(A1))" }],
    ["a factor of exactly 1", { ...outletRows(1), D2: 1 }],
    ["a factor left out", without(outletRows(1), "D2")],
    [
      "a factor of 1 after a free area",
      { A1: 2, C1: "=VANE.OPENING.FREE(A1,0.75)", E1: "=VANE.AIRFLOW.TARGET(300,C1,1)" },
    ],
    [
      "a factor used once, by the sheet's own arithmetic",
      { A1: 2, B1: 0.75, C1: "=VANE.OPENING.FREE(A1,B1)", D1: "=A1*B1", E1: "=VANE.AIRFLOW(400,C1)" },
    ],
    ["a factor divided out again", { ...outletRows(1), M2: "=J2/D2" }],
    ["a budget that takes factor and area as doubts", { A1: 20, B1: "=VANE.UNCERTAINTY.AIRFLOW(100,10,A1,2)" }],
    ["large louvers in ft²", areas(48, 36)],
    [
      "a large louver among small faces, whose airflow fits its design",
      { ...areas(48, 0.5, 0.6, 0.5), D1: 20000, E1: "=VANE.DESIGN.PERCENT(C1,D1)" },
    ],
    ["width times height divided by 144", { A1: 14, B1: 6, C1: "=A1*B1/144", D1: 400, E1: "=VANE.AIRFLOW(D1,C1)" }],
    ["width times height in feet", { A1: 3, B1: 2, C1: "=A1*B1", D1: 400, E1: "=VANE.AIRFLOW(D1,C1)" }],
    ["an area of our own function, however large", areas("=VANE.OPENING.RECT(144,144)")],
    ["slow air among faster", { ...outletRows(2), F2: 45, G2: 38 }],
    ["a nearly dead spot of 1 fpm among 400", { ...outletRows(1), G2: 0.6 }],
    ["a slow eddy that runs backwards", { ...outletRows(1), G2: -60 }],
    ["air that runs backwards at half of the points", { ...outletRows(1), F2: -400, G2: -390 }],
    ["air that runs backwards at every point", { ...outletRows(1), F2: -400, G2: -390, H2: -410, I2: -380 }],
    [
      "names in another case, which totals do not tell apart",
      namedRows(3, { M3: "SUPPLY", N3: "kitchen", O3: "ahu-1" }),
    ],
    ["a re-test that agrees, and one outlet of it that differs", retestRows({ H3: "differs" })],
    ["a re-test drawn and not read yet", retestRows({ D3: "", E3: "", F3: "", G3: "", H3: "" })],
    ["rooms that differ in a number", namedRows(3, { N3: "Kitchen 2" })],
    ["one tag in two jobs of a list", { ...outletRows(2), A3: "S-1", M1: "Job number", M2: "J-1", M3: "J-2" }],
    ["a row that nobody has begun", without(outletRows(4), ...row(outletRows(4), 4, "FGHIJKL"))],
    ["an outlet as found that was not adjusted", without(adjustedRows(3), "H3", "I3")],
    ["a large grille that fits its design", { ...outletRows(1), B2: 72, C2: 48, E2: 7100 }],
    ["a small slot that fits its design", { ...outletRows(1), B2: 12, C2: 0.5, E2: 12.4 }],
    ["an outlet far above a design that it can have", { ...outletRows(1), E2: 70 }],
    ["a dead outlet", { ...without(outletRows(1), "K2", "L2"), F2: 0, G2: 0, H2: 0, I2: 0 }],
    ["an airflow that is corrected for the density", { ...outletRows(1), J2: `${outletRows(1)["J2"]}*1.04` }],
    ["a fast duct in m/s", { A1: 14.2, A2: 15, B1: '=VANE.AIRFLOW.FACE(300,300,A1:A2,1,COUNT(A1:A2),"si")' }],
    ["pressures, which are small numbers", { A1: 0.06, A2: 0.05, B1: "=VANE.TRAVERSE.PRESSURE(A1:A2,0,COUNT(A1:A2))" }],
    ["a verdict guarded while the design is missing", { A1: "=VANE.AIRFLOW(400,0.5)", C1: '=IF(B1="","",A1/B1)' }],
    ["one velocity that the meter averaged", { A1: 400, B1: "=VANE.AIRFLOW(A1,0.5)" }],
    ["a heading that is printed again between the rows", headingBetween()],
    ["a total below the rows", { ...outletRows(4), A6: "Total", J6: 700 }],
    ["a block of numbers of its own below a block of formulas", blockBelow()],
    ["a plan that sets its own number of points", plannedDuct(2, 3, 6)],
    [
      "a single sweep, which covers a whole face",
      { A1: 400, B1: 30, C1: "=VANE.SWEEP.AVERAGE(A1:A2,B1:B2,COUNT(A1:A2))" },
    ],
  ])("%s", async (_what, cells) => {
    expect(await kindsIn(cells)).toEqual([]);
  });

  it("names that the tables of rooms and systems have, and loads that are all there or set by hand", async () => {
    const kinds = async (rooms: GivenCells) =>
      (await foundInFile({ Balance: namedRows(4, { N3: "hall" }), ...ROOMS, Rooms: rooms })).map(({ kind }) => kind);
    const rooms = ROOMS["Rooms"] ?? {};
    expect(await kinds(rooms)).toEqual([]);
    expect(await kinds({ ...without(rooms, "C3"), D3: 200 })).toEqual([]);
    expect(await kinds(without(rooms, "C2", "C3"))).toEqual([]);
  });

  it("but the same plan with a reading less is found", async () => {
    expect(await kindsIn(plannedDuct(2, 3, 5))).toEqual(["B5:D6 too-few-points"]);
  });
});

function headingBetween(): GivenCells {
  const cells = { ...outletRows(6) };
  const kept = without(cells, ...row(cells, 4, "ABCDEFGHIJKL"));
  return { ...kept, A4: "Second floor", J4: "Airflow", L4: "Verdict" };
}

function blockBelow(): GivenCells {
  const numbers = [...Array(5).keys()].map((index) => [`J${index + 6}`, 100 + index]);
  return { ...outletRows(4), ...Object.fromEntries(numbers) };
}

/** A 12 in by 12 in duct with lines and points of its own choice, and so many readings. */
function plannedDuct(lines: number, points: number, taken: number): GivenCells {
  const readings = [...Array(taken).keys()].map((index) => [
    `${"BCD".charAt(index % points)}${5 + Math.floor(index / points)}`,
    700,
  ]);
  return {
    B1: 12,
    B2: 10,
    B3: points,
    C3: lines,
    F1: '=INDEX(VANE.TRAVERSE.DEPTHS(B1,B2,B3,"equal area"),1)',
    F2: '=INDEX(VANE.TRAVERSE.DEPTHS(B2,B1,C3,"equal area"),1)',
    ...Object.fromEntries(readings),
    B12: "=VANE.AIRFLOW.DUCT(B1,B2,B5:D6,COUNT(B5:D6))",
  };
}

describe("a half-filled sheet", () => {
  const cells = outletRows(3);

  it("is quiet on rows that nobody has begun", async () => {
    expect(await kindsIn(without(cells, ...row(cells, 4, "BCDEFGHI")))).toEqual([]);
  });

  it.each([
    ["sizes and design, but no reading yet", "FGHI"],
    ["readings, but no size", "BC"],
    ["readings and size, but no design", "E"],
    ["readings alone", "BCDE"],
    ["a single reading, no size and no design", "BCEGHI"],
    ["a width alone", "CDEFGHI"],
  ])("gives at most one warning, and no error, on a row with %s", async (_what, missing) => {
    const findings = await foundInFile({ Balance: without(cells, ...row(cells, 4, missing)) });
    expect(findings.length).toBeLessThanOrEqual(1);
    for (const { severity, cell } of findings) {
      expect(severity).toBe("warning");
      expect(cell).toMatch(/4/);
    }
  });
});
