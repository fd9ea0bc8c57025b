import type { CellFunctionDeclaration, CellFunctionParameter } from "../../../src/cells/index.js";

/*
 * Calls of a function over every way in which an argument may stand in a sheet: as it should, blank, 0, empty text of
 * another formula, text, negative, left out. One argument varies at a time, and each pair of the first three.
 */

/** What stands in the sheet around the calls. */
export const INPUT_CELLS: Readonly<Record<string, number | string>> = {
  // Single values: A1 is never filled.
  A2: 0,
  A3: '=IF(TRUE,"")',
  A4: "text",
  A5: -7,
  // Blocks of four: whole, with a blank, with a 0, with empty text, with text, blank, with a negative, all 0.
  ...block("C", [400, 420, 380, 300]),
  ...block("D", [400, 420, null, 300]),
  ...block("E", [400, 0, 380, 300]),
  ...block("F", [400, '=IF(TRUE,"")', 380, null]),
  ...block("G", [400, "text", 380, 300]),
  ...block("I", [400, -20, 380, 300]),
  ...block("J", [0, 0, 0, 0]),
  ...block("K", [30, 25, 20, 35]),
  ...block("L", [30, null, 20, null]),
  ...block("M", [0.04, 0.05, '=IF(TRUE,"")', 0.06]),
};

function block(column: string, values: readonly (number | string | null)[]): Record<string, number | string> {
  return Object.fromEntries(values.flatMap((value, row) => (value === null ? [] : [[`${column}${row + 1}`, value]])));
}

const BLOCKS = ["C1:C4", "D1:D4", "E1:E4", "F1:F4", "G1:G4", "H1:H4", "I1:I4", "J1:J4", "M1:M4"];
const ODD_VALUES = ["A1", "A2", "A3", "A4", "A5"];

/** A usual value of a parameter, and others that deserve a look. */
const USUAL: Readonly<Record<string, readonly string[]>> = {
  width: ["14", "24.5", "46181"],
  height: ["6", "A1", "46181"],
  diameter: ["8"],
  major: ["24", "5"],
  minor: ["12"],
  area: ["0.6", "0.2"],
  effectiveArea: ["0.3", "0.9"],
  freeArea: ["0.5"],
  factor: ["0.8", "1", "1.2", '"none"'],
  density: ["0.07"],
  newDensity: ["0.065"],
  temperature: ["70", "20", "-5"],
  elevation: ["5280"],
  humidity: ["50", "100"],
  velocity: ["412.5"],
  standardVelocity: ["412.5"],
  airflow: ["175.5"],
  measured: ["142.5", "165", "149.9"],
  design: ["150"],
  minus: ["5", "0"],
  plus: ["10", "0"],
  before: ["400"],
  after: ["440", "403"],
  repeatability: ["3"],
  uncertainty: ["11", "30", "", "0"],
  sweeps: ["4", "2", "1", "2.5"],
  afterRepeatability: ["2"],
  afterSweeps: ["5", "3", "1"],
  resolution: ["1", "40", "0"],
  instrument: ["3"],
  repeat: ["2", "0.5"],
  repeats: ["3", "2", "2.5", "1"],
  percent: ["3"],
  fixed: ["20"],
  roomLoad: ["600", "6000"],
  systemAirflow: ["1200"],
  sensible: ["6000"],
  difference: ["20"],
  capacity: ["3"],
  perTon: ["350"],
  changes: ["6"],
  volume: ["1200"],
  floorArea: ["1800", "900"],
  bedrooms: ["3", "2.5"],
  edition: ["", "2019", '"62.2-2010"'],
  total: ["90"],
  infiltration: ["30"],
  exterior: ["0.8", "2"],
  kind: ['"velocity"', '"pressure"', '"balanced"', '"unbalanced"'],
  output: ["40000"],
  returnAir: ["75"],
  outsideAir: ["95"],
  mixedAir: ["80", "110"],
  entering: ["70"],
  leaving: ["120", "60"],
  speed: ["1000"],
  newSpeed: ["1100"],
  wanted: ["1300"],
  upstream: ["10", "1"],
  downstream: ["3", "0.3"],
  power: ["2.5"],
  pressure: ["0.8"],
  fan: ["1500"],
  units: ["", '"ip"', '"si"', '"SI"', '"metric"', "A1"],
};

const USUAL_BLOCK: Readonly<Record<string, string>> = {
  seconds: "K1:K4",
  allLoads: "C1:C4",
  pressures: "M1:M4",
  angles: "K1:K4",
};

function variants(parameter: CellFunctionParameter, takesBlock: boolean): readonly string[] {
  const { name, optional } = parameter;
  const left = optional ? [""] : [];
  if (name === "taken") return [""];
  if (name === "seconds") return ["K1:K4", "L1:L4"];
  if (takesBlock) return [USUAL_BLOCK[name] ?? "C1:C4", ...BLOCKS, "K1:K4", "L1:L4"];
  return [...(USUAL[name] ?? ["1"]), ...ODD_VALUES, ...left];
}

/** One call, and how many of its arguments are not as they should be. */
export interface CallVariant {
  readonly call: string;
  readonly oddArguments: number;
}

const MEASURED = [
  "readings",
  "angles",
  "pressures",
  "velocities",
  "repeats",
  "outlets",
  "velocity",
  "standardVelocity",
  "airflow",
  "measured",
  "after",
];

/** Every variant of a call, as formula text. */
export function callVariants(declaration: CellFunctionDeclaration, blocks: readonly string[]): readonly CallVariant[] {
  const { parameters } = declaration;
  const all = parameters.map((parameter) => variants(parameter, blocks.includes(parameter.name)));
  const usual = all.map((values) => values[0] ?? "");
  const takenAt = parameters.findIndex(({ name }) => name === "taken");
  const measuredAt = parameters.findIndex(({ name }) => MEASURED.includes(name));
  const lists: { readonly texts: readonly string[]; readonly oddArguments: number }[] = [
    { texts: usual, oddArguments: 0 },
  ];
  const counted = (texts: readonly string[]) =>
    takenAt < 0 ? texts : texts.with(takenAt, `COUNT(${texts[measuredAt] ?? ""})`);
  all.forEach((values, at) => {
    for (const value of values) {
      const texts = usual.with(at, value);
      lists.push({ texts, oddArguments: 1 });
      if (takenAt < 0) continue;
      for (const taken of [`COUNT(${texts[measuredAt] ?? ""})`, "1", "0", "3", "2.5"]) {
        lists.push({ texts: texts.with(takenAt, taken), oddArguments: taken.startsWith("COUNT") ? 1 : 2 });
      }
    }
  });
  for (let first = 0; first < Math.min(3, all.length); first += 1) {
    for (let second = first + 1; second < Math.min(4, all.length); second += 1) {
      if (parameters[second]?.name === "units") continue;
      for (const one of all[first] ?? []) {
        for (const two of all[second] ?? []) {
          lists.push({ texts: counted(usual.with(first, one).with(second, two)), oddArguments: 2 });
        }
      }
    }
  }
  const byCall = new Map(
    lists.map(({ texts, oddArguments }) => [`VANE.${declaration.id}(${trimmed(texts).join(",")})`, oddArguments]),
  );
  return [...byCall].map(([call, oddArguments]) => ({ call, oddArguments }));
}

/** Without the arguments left out at the end. */
function trimmed(texts: readonly string[]): readonly string[] {
  return texts.slice(0, texts.findLastIndex((text) => text !== "") + 1);
}

/** One row of readings, for the functions that take a block. */
export const USUAL_BLOCK_ROW = [400, 420, 380];

/** A usual value of a parameter, a little other in each row of a sheet. */
export function usualValue(parameter: string, row: number): number | string {
  const [usual = "1"] = USUAL[parameter] ?? ["1"];
  const number = Number(usual);
  if (Number.isNaN(number)) return usual.replaceAll('"', "");
  return Number.isInteger(number) && ["bedrooms", "repeats", "sweeps", "afterSweeps"].includes(parameter)
    ? number
    : number * (1 + 0.02 * row);
}
