import type { FindingKind } from "../../../src/workbook/index.js";
import type { GivenCells, GivenSheets } from "./given-workbook.js";

/** A contractor's own sheet with one fault in it, and what must be found where. */
export interface PlantedFault {
  readonly title: string;
  readonly kind: FindingKind;
  readonly cells: GivenCells;
  /** Further sheets, in order. */
  readonly others?: GivenSheets;
  readonly cell: string;
  /** Words that the problem and the action must hold. */
  readonly says: readonly [problem: RegExp, action: RegExp];
}

/** Outlets of a contractor's sheet: width, height, factor, design, four readings, airflow, percent, verdict. */
export function outletRows(count: number, taken = true): GivenCells {
  const cells: Record<string, number | string> = {};
  ["Outlet", "Width", "Height", "Factor", "Design", "R1", "R2", "R3", "R4", "Airflow", "Percent", "Verdict"].forEach(
    (header, index) => {
      cells[`${"ABCDEFGHIJKL".charAt(index)}1`] = header;
    },
  );
  for (let row = 2; row < 2 + count; row += 1) {
    Object.assign(cells, {
      [`A${row}`]: `S-${row - 1}`,
      [`B${row}`]: 14,
      [`C${row}`]: 6,
      [`D${row}`]: 0.75,
      [`E${row}`]: 175,
      [`F${row}`]: 400,
      [`G${row}`]: 420,
      [`H${row}`]: 380,
      [`I${row}`]: 390,
      [`J${row}`]: `=VANE.AIRFLOW.FACE(B${row},C${row},F${row}:I${row},D${row}${taken ? `,COUNT(F${row}:I${row})` : ""})`,
      [`K${row}`]: `=VANE.DESIGN.PERCENT(J${row},E${row})`,
      [`L${row}`]: `=VANE.DESIGN.VERDICT(J${row},E${row},10,10)`,
    });
  }
  return cells;
}

/** The same outlets with what each is called: the same in every row, unless a test changes one. */
export function namedRows(count: number, changes: GivenCells = {}): GivenCells {
  const cells: Record<string, number | string | boolean> = {
    ...outletRows(count),
    M1: "Kind",
    N1: "Room",
    O1: "System",
  };
  for (let row = 2; row < 2 + count; row += 1) {
    Object.assign(cells, { [`M${row}`]: "supply", [`N${row}`]: "Kitchen", [`O${row}`]: "AHU-1" });
  }
  return { ...cells, ...changes };
}

/** The rooms and systems that `namedRows` names. */
export const ROOMS: GivenSheets = {
  Rooms: {
    A1: "Room",
    B1: "System",
    C1: "Cooling load",
    D1: "Design set",
    A2: "Kitchen",
    B2: "AHU-1",
    C2: 4000,
    A3: "Hall",
    B3: "AHU-1",
    C3: 2000,
  },
  Systems: { A1: "System", B1: "Supply design", A2: "AHU-1", B2: 700 },
};

/** Outlets as found and as left, two readings each. */
export function adjustedRows(count: number): GivenCells {
  const cells: Record<string, number | string> = {};
  ["Outlet", "Width", "Height", "Factor", "Design", "B1", "B2", "A1", "A2", "Airflow before", "Airflow after"].forEach(
    (header, index) => {
      cells[`${"ABCDEFGHIJK".charAt(index)}1`] = header;
    },
  );
  for (let row = 2; row < 2 + count; row += 1) {
    Object.assign(cells, {
      [`A${row}`]: `S-${row - 1}`,
      [`B${row}`]: 14,
      [`C${row}`]: 6,
      [`D${row}`]: 0.75,
      [`E${row}`]: 175,
      [`F${row}`]: 300,
      [`G${row}`]: 320,
      [`H${row}`]: 400,
      [`I${row}`]: 390,
      [`J${row}`]: `=VANE.AIRFLOW.FACE(B${row},C${row},F${row}:G${row},D${row},COUNT(F${row}:G${row}))`,
      [`K${row}`]: `=VANE.AIRFLOW.FACE(B${row},C${row},H${row}:I${row},D${row},COUNT(H${row}:I${row}))`,
    });
  }
  return cells;
}

/** The record of a re-test in which two drawn outlets were read. */
export function retestRows(changes: GivenCells): GivenCells {
  const headings = ["No.", "Drawn", "Reported", "Outlet read", "Reported then", "W1", "Airflow read", "Agreement"];
  const rows = ["S-3", "S-5"].map((tag, index) => {
    const cells = [index + 1, tag, 175, tag, 175, 400, 170, "agrees"];
    return cells.map((value, column) => [`${"ABCDEFGH".charAt(column)}${index + 2}`, value] as const);
  });
  const head = headings.map((heading, column) => [`${"ABCDEFGH".charAt(column)}1`, heading] as const);
  return { ...Object.fromEntries([...head, ...rows.flat()]), ...changes };
}

function without(cells: GivenCells, ...addresses: readonly string[]): GivenCells {
  return Object.fromEntries(Object.entries(cells).filter(([at]) => !addresses.includes(at)));
}

/** A 12 in by 12 in duct planned by equal areas, 4 by 4 points, of which the last row is not read. */
function ductWithPlan(points: number): GivenCells {
  const readings = Array.from({ length: points }, (_, index) => [
    `${"BCDE".charAt(index % 4)}${5 + Math.floor(index / 4)}`,
    700,
  ]);
  return {
    A1: "Width",
    B1: 12,
    A2: "Height",
    B2: 12,
    A3: "Rule",
    B3: "equal area",
    A4: "Points planned",
    B4: "=VANE.TRAVERSE.POINTS(B1,B2,B3)",
    ...Object.fromEntries(readings),
    A12: "Airflow",
    B12: "=VANE.AIRFLOW.DUCT(B1,B2,B5:E8,COUNT(B5:E8))",
  };
}

export const PLANTED: readonly PlantedFault[] = [
  {
    title: "a list of outlets whose design has another heading",
    kind: "list-not-read",
    cells: { ...outletRows(3), E1: "Plan" },
    cell: "A1",
    says: [/“Design airflow”/, /heading back/],
  },
  {
    title: "a heading one letter off",
    kind: "heading-not-known",
    cells: { ...outletRows(3), L1: "Verdict", M1: "Nte", M2: "damper open" },
    cell: "M1",
    says: [/“Nte”/, /“Note”/],
  },
  {
    title: "an outlet whose tag makes it a total",
    kind: "total-among-outlets",
    cells: { ...outletRows(3), A4: "Total" },
    cell: "A4",
    says: [/holds readings/, /another tag/],
  },
  {
    title: "words among the readings",
    kind: "text-reading",
    cells: { ...outletRows(3), G3: "door shut" },
    cell: "G3",
    says: [/door shut/, /Enter only a number/],
  },
  {
    title: "a number stored as text",
    kind: "text-reading",
    cells: { ...outletRows(3), H4: "410" },
    cell: "H4",
    says: [/stored as text/, /type the number again/],
  },
  {
    title: "words among what AVERAGE takes, which AVERAGE leaves out without a word",
    kind: "text-reading",
    cells: { A1: "Reading", A2: 400, A3: "n/a", A4: 420, B2: "=VANE.AIRFLOW(AVERAGE(A2:A4),0.5)" },
    cell: "A3",
    says: [/n\/a/, /note/],
  },
  {
    title: "a blank among readings whose formula cannot tell it",
    kind: "blank-reading",
    cells: without(outletRows(3, false), "H3"),
    cell: "H3",
    says: [/empty/, /COUNT\(F3:I3\)/],
  },
  {
    title: "a 0 among readings without taken",
    kind: "zero-without-taken",
    cells: { ...outletRows(3, false), I2: 0 },
    cell: "I2",
    says: [/cannot tell/, /COUNT\(F2:I2\)/],
  },
  {
    title: "a single measured 0 without taken",
    kind: "zero-without-taken",
    cells: { A1: 0, B1: 120, C1: "=VANE.DESIGN.PERCENT(A1,B1)" },
    cell: "A1",
    says: [/A1 is 0/, /COUNT\(A1\)/],
  },
  {
    title: "a taken that counts the row above",
    kind: "taken-counts-other-cells",
    cells: { ...outletRows(3), J3: "=VANE.AIRFLOW.FACE(B3,C3,F3:I3,D3,COUNT(F2:I2))" },
    cell: "J3",
    says: [/counts F2:I2, but the readings are F3:I3/, /COUNT\(F3:I3\)/],
  },
  {
    title: "a taken that counts text as well",
    kind: "taken-counts-other-cells",
    cells: { ...outletRows(1), J2: "=VANE.AIRFLOW.FACE(B2,C2,F2:I2,D2,COUNTA(F2:I2))" },
    cell: "J2",
    says: [/COUNTA/, /COUNT\(F2:I2\)/],
  },
  {
    title: "a taken that was typed and is not the number of readings",
    kind: "taken-counts-other-cells",
    cells: { ...outletRows(1), J2: "=VANE.AIRFLOW.FACE(B2,C2,F2:I2,D2,3)" },
    cell: "J2",
    says: [/taken is 3/, /COUNT\(F2:I2\)/],
  },
  {
    title: "a factor above 1",
    kind: "factor-out-of-range",
    cells: { ...outletRows(3), D4: 1.2 },
    cell: "D4",
    says: [/above 1/, /divide it by the whole area/],
  },
  {
    title: "a factor in percent",
    kind: "factor-out-of-range",
    cells: { ...outletRows(3), D4: 75 },
    cell: "D4",
    says: [/above 1/, /0\.75/],
  },
  {
    title: "a factor of 0, for which 0.75 is assumed without a word",
    kind: "factor-out-of-range",
    cells: { ...outletRows(3), D2: 0 },
    cell: "D2",
    says: [/0\.75 is assumed/, /empty the cell/],
  },
  {
    title: "a factor below 0",
    kind: "factor-out-of-range",
    cells: { ...outletRows(3), D2: -0.7 },
    cell: "D2",
    says: [/below 0/, /at most 1/],
  },
  {
    title: "a free area to which a target velocity applies the factor again",
    kind: "factor-used-twice",
    cells: { A1: 2, B1: 0.75, C1: "=VANE.OPENING.FREE(A1,B1)", D1: 300, E1: "=VANE.AIRFLOW.TARGET(D1,C1,B1)" },
    cell: "E1",
    says: [/already reduced/, /whole area/],
  },
  {
    title: "a free area handed to OPENING.FREE, within one formula",
    kind: "factor-used-twice",
    cells: { A1: 2, B1: 0.75, C1: "=VANE.AIRFLOW(400,VANE.OPENING.FREE(VANE.OPENING.FREE(A1,B1),B1))" },
    cell: "C1",
    says: [/already reduced/, /whole area/],
  },
  {
    title: "an airflow of a face multiplied by its factor once more",
    kind: "factor-used-twice",
    cells: { ...outletRows(2), M2: "=J2*D2" },
    cell: "M2",
    says: [/multiplies by the factor D2/, /Take the factor D2 out/],
  },
  {
    title: "a free area multiplied by its factor on the way into an airflow",
    kind: "factor-used-twice",
    cells: { A1: 2, B1: 0.75, C1: "=VANE.OPENING.FREE(A1,B1)", D1: "=VANE.AIRFLOW(400,C1*B1)" },
    cell: "D1",
    says: [/factor B1/, /Take the factor B1 out/],
  },
  {
    title: "an area in in² beside the sizes that give it",
    kind: "area-in-other-unit",
    cells: {
      A1: 14,
      B1: 6,
      C1: 84,
      D1: "=VANE.OPENING.FREE(C1,0.75)",
      E1: "=VANE.AIRFLOW.FACE(A1,B1,F1:G1)",
      F1: 400,
      G1: 410,
    },
    cell: "C1",
    says: [/14 × 6/, /0\.5833 ft²/],
  },
  {
    title: "width times height that nobody divided by 144",
    kind: "area-in-other-unit",
    cells: { A1: 14, B1: 6, C1: "=A1*B1", D1: 400, E1: "=VANE.AIRFLOW(D1,C1)" },
    cell: "C1",
    says: [/A1 × B1/, /Divide by 144/],
  },
  {
    title: "an area that makes the airflow a hundred times its design",
    kind: "area-in-other-unit",
    cells: { A1: 400, B1: 60, C1: "=VANE.AIRFLOW(A1,B1)", D1: 170, E1: "=VANE.DESIGN.PERCENT(C1,D1)" },
    cell: "B1",
    says: [/many times its design/, /Divide by 144/],
  },
  {
    title: "one area in in² in a column of ft²",
    kind: "area-in-other-unit",
    cells: {
      ...Object.fromEntries(
        [0.4, 0.5, 60, 0.58].flatMap((area, index) => [
          [`A${index + 1}`, 400],
          [`B${index + 1}`, area],
          [`C${index + 1}`, `=VANE.AIRFLOW(A${index + 1},B${index + 1})`],
        ]),
      ),
    },
    cell: "B3",
    says: [/others of its column/, /Divide by 144/],
  },
  {
    title: "an area beyond any opening",
    kind: "area-in-other-unit",
    cells: { A1: 400, B1: 336, C1: "=VANE.AIRFLOW(A1,B1)" },
    cell: "B1",
    says: [/larger than any usual opening/, /2\.333 ft²/],
  },
  {
    title: "one reading in m/s among fpm",
    kind: "velocity-in-other-unit",
    cells: { ...outletRows(3), G3: 2.1 },
    cell: "G3",
    says: [/G3 is 2\.1/, /413\.4 fpm/],
  },
  {
    title: "all readings of one outlet in m/s",
    kind: "velocity-in-other-unit",
    cells: { ...outletRows(3), F3: 2.1, G3: 2, H3: 1.9, I3: 2.2 },
    cell: "F3:I3",
    says: [/looks like m\/s/, /fpm/],
  },
  {
    title: "a column of velocities in m/s with nothing to compare with",
    kind: "velocity-in-other-unit",
    cells: { A1: 2.1, A2: 1.8, B1: "=VANE.AIRFLOW(A1,0.5)", B2: "=VANE.AIRFLOW(A2,0.5)" },
    cell: "A1:A2",
    says: [/no plausible velocity in fpm/, /fpm/],
  },
  {
    title: "fpm in a sheet in SI units",
    kind: "velocity-in-other-unit",
    cells: { A1: 2.1, A2: 410, A3: 1.9, B1: '=VANE.AIRFLOW.FACE(300,300,A1:A3,0.75,COUNT(A1:A3),"si")' },
    cell: "A2",
    says: [/looks like fpm/, /2\.083 m\/s/],
  },
  {
    title: "a percent without design",
    kind: "percent-without-design",
    cells: without(outletRows(3), "E3"),
    cell: "E3",
    says: [/missing/, /Type the design airflow/],
  },
  {
    title: "a design of 0",
    kind: "percent-without-design",
    cells: { ...outletRows(3), E3: 0 },
    cell: "E3",
    says: [/is 0/, /Type the design airflow/],
  },
  {
    title: "an airflow divided by an empty design",
    kind: "percent-without-design",
    cells: { A1: 400, B1: "=VANE.AIRFLOW(A1,0.5)", D1: "=B1/C1*100" },
    cell: "C1",
    says: [/missing/, /Type the design airflow/],
  },
  {
    title: "a verdict typed over its formula",
    kind: "verdict-overridden",
    cells: { ...outletRows(4), L3: "within" },
    cell: "L3",
    says: [/“within” was typed over/, /Copy the formula from L2/],
  },
  {
    title: "a verdict typed over the last row's formula",
    kind: "verdict-overridden",
    cells: { ...outletRows(4), L5: "OK" },
    cell: "L5",
    says: [/“OK”/, /Copy the formula from L4/],
  },
  {
    title: "an airflow typed over its formula",
    kind: "formula-replaced",
    cells: { ...outletRows(4), J4: 172 },
    cell: "J4",
    says: [/172 was typed over/, /Copy the formula from J3/],
  },
  {
    title: "a number typed over the first row's formula",
    kind: "formula-replaced",
    cells: { ...outletRows(4), J2: 172 },
    cell: "J2",
    says: [/172 was typed over/, /Copy the formula from J3/],
  },
  {
    title: "fewer readings than the plan of the duct",
    kind: "too-few-points",
    cells: ductWithPlan(12),
    cell: "B5:E8",
    says: [/12 readings.*16 points/, /missing/],
  },
  {
    title: "a duct without a plan, read at nine points",
    kind: "too-few-points",
    cells: {
      ...Object.fromEntries(["A", "B", "C"].flatMap((column) => [1, 2, 3].map((row) => [`${column}${row}`, 500]))),
      E1: "=VANE.AIRFLOW.DUCT(18,18,A1:C3)",
    },
    cell: "A1:C3",
    says: [/9 readings/, /rule/],
  },
  {
    title: "an airflow from a single reading",
    kind: "too-few-points",
    cells: without(outletRows(2), "G2", "H2", "I2"),
    cell: "F2:I2",
    says: [/single reading/, /sweep/],
  },
  {
    title: "an AVERAGE of one reading on its way into an airflow",
    kind: "too-few-points",
    cells: { A1: 400, C1: "=AVERAGE(A1:B1)", D1: "=VANE.AIRFLOW(C1,0.5)" },
    cell: "A1:B1",
    says: [/single reading/, /sweep/],
  },
  {
    title: "an error whose cause only its message tells",
    kind: "error-value",
    cells: { A1: 0.5, B1: 0.9, C1: "=VANE.OPENING.FREE(A1,0.75,B1)" },
    cell: "C1",
    says: [/#VALUE!/, /\w+/],
  },
  {
    title: "an error that comes out of another cell",
    kind: "error-value",
    cells: { A1: "=1/0", B1: "=VANE.AIRFLOW(A1,0.5)" },
    cell: "B1",
    says: [/A1 shows #DIV\/0!/, /A1/],
  },
  {
    title: "a width that a spreadsheet program has made a date of",
    kind: "size-not-read",
    cells: { ...outletRows(3), B3: 46181 },
    cell: "B3",
    says: [/46181: a date, as typing 6\/8 becomes/, /0\.75 for 3\/4, or both sides as 6x8/],
  },
  {
    title: "a width and a height in one cell beside a height",
    kind: "size-not-read",
    cells: { ...outletRows(3), B3: "14x6" },
    cell: "B3",
    says: [/“14x6”/, /two cells/],
  },
  {
    title: "a size typed in mm where inches belong",
    kind: "size-in-other-unit",
    cells: { ...outletRows(3), B3: 356, C3: 152 },
    cell: "B3:C3",
    says: [
      /356 × 152 in makes the area 375.8 ft².* mm would make it 173.6 cfm for a design of 175 cfm/,
      /measured in mm, enter 14.02 × 5.984 in/,
    ],
  },
  {
    title: "a size typed in feet where inches belong",
    kind: "size-in-other-unit",
    cells: { ...outletRows(3), B3: 1.17, C3: 0.5 },
    cell: "B3:C3",
    says: [/airflow 1.2.* cfm/, /measured in ft, enter 14.04 × 6 in/],
  },
  {
    title: "a minus before one reading",
    kind: "reading-of-other-sign",
    cells: { ...outletRows(3), G3: -420 },
    cell: "G3",
    says: [/-420 is negative/, /Read that point again/],
  },
  {
    title: "an airflow from the readings of the row above",
    kind: "result-not-from-inputs",
    cells: {
      ...outletRows(4),
      F3: 500,
      J3: "=VANE.AIRFLOW.FACE(B3,C3,F2:I2,D3,COUNT(F2:I2))",
    },
    cell: "J3",
    says: [/airflow is 173.9, but .* own row give 184.8/, /Copy the formula/],
  },
  {
    title: "a reading of ten times the others' row, far above the design",
    kind: "airflow-far-from-design",
    cells: { ...outletRows(3), E3: 17 },
    cell: "J3",
    says: [/1023 % of its design: 173.9 for 17/, /mistyped/],
  },
  {
    title: "a room that the table of rooms does not have",
    kind: "unknown-room",
    cells: namedRows(4, { N3: "Kitchn" }),
    others: ROOMS,
    cell: "N3",
    says: [/no room “Kitchn”/, /If “Kitchen” is meant/],
  },
  {
    title: "a room with a space behind it",
    kind: "unknown-room",
    cells: namedRows(4, { N3: "Kitchen " }),
    others: ROOMS,
    cell: "N3",
    says: [/no room “Kitchen ”/, /Enter “Kitchen” without other spaces/],
  },
  {
    title: "a room spelled in two ways where no table names the rooms",
    kind: "unknown-room",
    cells: namedRows(4, { N4: "kit-chen" }),
    cell: "N4",
    says: [/“kit-chen” here and “Kitchen” elsewhere/, /spell it the same/],
  },
  {
    title: "a system that the table of systems does not have",
    kind: "unknown-system",
    cells: namedRows(4, { O3: "AHU1" }),
    others: ROOMS,
    cell: "O3",
    says: [/no system “AHU1”/, /“AHU-1” is meant/],
  },
  {
    title: "a system of a room that is cut off",
    kind: "unknown-system",
    cells: { ...ROOMS["Rooms"], B3: "AH", C2: 4000 },
    others: { Systems: ROOMS["Systems"] ?? {} },
    cell: "B3",
    says: [/no system “AH”/, /add it there/],
  },
  {
    title: "a kind that there is not",
    kind: "unknown-kind",
    cells: namedRows(4, { M3: "suply" }),
    cell: "M3",
    says: [/“suply” is not a kind/, /supply is meant/],
  },
  {
    title: "an outlet without a kind",
    kind: "unknown-kind",
    cells: without(namedRows(4), "M3"),
    cell: "M3",
    says: [/does not say what kind/, /supply, return, exhaust, outside air/],
  },
  {
    title: "a tag twice",
    kind: "repeated-tag",
    cells: { ...outletRows(4), A5: "s-2" },
    cell: "A5",
    says: [/already in row 3/, /tag of its own/],
  },
  {
    title: "a room without its load on a system shared by load",
    kind: "load-missing",
    cells: without({ ...ROOMS["Rooms"], A4: "Bath", B4: "AHU-1", C4: 1000 }, "C3"),
    cell: "C3",
    says: [/Hall has no cooling load/, /design airflow/],
  },
  {
    title: "outlets of a room that ask for more than the room",
    kind: "designs-apart",
    cells: {
      A1: "Room",
      B1: "System",
      C1: "Cooling load",
      D1: "Design airflow",
      A2: "Kitchen",
      B2: "AHU-1",
      C2: 4000,
      D2: 1000,
    },
    others: { Outlets: namedRows(4, {}) },
    cell: "A2",
    says: [/outlets of room Kitchen add up to 700 .* the room is 1000.* They are 30 % under/, /so that they agree/],
  },
  {
    title: "a meter whose calibration had expired, with no day measured to judge it on",
    kind: "calibration-expired",
    cells: { A1: "Instrument", B1: "Serial number", C1: "Calibration due", A2: "VA-1", B2: "0417", C2: 45_000 },
    cell: "C2",
    says: [/VA-1 was due on 2023-03-15 .* today, \d{4}-\d\d-\d\d; the job has no day/, /calibration holds/],
  },
  {
    title: "a witness's reading of an outlet that is not drawn",
    kind: "retest-not-judged",
    cells: retestRows({ D3: "S-7", H3: "not drawn" }),
    cell: "D3",
    says: [/“S-7” is not judged in the re-test: not drawn/, /Set seed and share back/],
  },
  {
    title: "a witness's readings on a sheet that keeps no tag beside them",
    kind: "retest-not-judged",
    cells: { A1: "No.", B1: "Drawn", C1: "Reported", D1: "W1", E1: "Agreement", A2: 1, B2: "S-3", C2: 175, D3: 400 },
    cell: "D3",
    says: [/Nothing says of which outlets/, /signed record/],
  },
  {
    title: "an inserted row without its formulas",
    kind: "row-without-formulas",
    cells: without(outletRows(5), "J4", "K4", "L4"),
    cell: "J4",
    says: [/none of the formulas/, /fill them in/],
  },
  {
    title: "an airflow as left without one as found",
    kind: "left-without-found",
    cells: without(adjustedRows(3), "F3", "G3"),
    cell: "J3",
    says: [/none as found/, /readings as found/],
  },
];
