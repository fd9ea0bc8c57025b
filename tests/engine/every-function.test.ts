import { describe, expect, it } from "vitest";
import { type CellFunctionParameter, cellFunctions, typedName } from "../../src/cells/index.js";
import { CALCULATION_LIMITS } from "../../src/engine/calculator/calculation-limits.js";
import { evaluateFormula } from "../../src/engine/evaluate-formula.js";
import { FUNCTION_GROUPS } from "../../src/engine/functions/index.js";

/*
 * Every function that is calculated, with arguments that nobody means: it answers soon, with finite numbers or an error.
 * SWEEP=long goes further: larger blocks, more arguments, each odd argument in each place beside tame ones.
 */

const IS_LONG = process.env["SWEEP"] === "long";

const CELLS = {
  A1: 12,
  A2: "door shut",
  A4: true,
  A5: "=NA()",
  A6: -3,
  B1: 1e308,
  B2: 1e-308,
  B3: 0,
  B4: 400,
  B5: "7",
};

/** What an argument may be, however odd. */
const ODD = [
  "1E308",
  "-1E308",
  "1E-308",
  "1E15",
  "-1E9",
  "2958465",
  "0",
  "-1",
  "0.5",
  '"door shut"',
  '""',
  '"1E999"',
  "TRUE",
  "#N/A",
  "A3",
  "A2",
  "A1:B6",
  "A:A",
  "{1E308,-1E308;0,1E-308}",
  '{"a",TRUE;1,#DIV/0!}',
  IS_LONG ? "SEQUENCE(300,300)" : "SEQUENCE(5,5)",
  "NOT.THERE",
];

/** How long one call may take, also beside other work: the limit of one formula, and what it takes to say so [ms]. */
const LONGEST_MS = 1000 * CALCULATION_LIMITS.secondsForOneFormula + 4000;

interface Called {
  readonly name: string;
  readonly least: number;
  readonly most: number;
}

const ours = cellFunctions.map(
  ({ id, parameters }): Called => ({
    name: typedName({ id }),
    least: parameters.filter(({ optional }: CellFunctionParameter) => !optional).length,
    most: parameters.length,
  }),
);

/** Calls with one odd argument for all, with each in turn beside tame ones, and with one too few and too many. */
function callsOf({ name, least, most }: Called): readonly string[] {
  const counts = IS_LONG ? [...new Set([least, Math.min(most, least + 2), Math.min(most, 6)])] : [Math.max(least, 1)];
  const call = (given: readonly string[]) => `${name}(${given.join(",")})`;
  const alike = counts.flatMap((count) => ODD.map((odd) => call(Array.from({ length: count }, () => odd))));
  const tooMany = Array.from({ length: Math.min(most + 1, 300) }, () => "1");
  if (!IS_LONG) return [call([]), call(tooMany), ...alike];
  const [usual = least] = counts.slice(-1);
  const inTurn = Array.from({ length: usual }, (_, place) =>
    ODD.map((odd, index) =>
      call(
        Array.from({ length: usual }, (_, at) => (at === place ? odd : (["1", "2", "A1:A6"][(at + index) % 3] ?? "1"))),
      ),
    ),
  ).flat();
  return [call([]), call(tooMany), ...alike, ...inTurn];
}

function faultsOf(formula: string): readonly string[] {
  const startMs = performance.now();
  const result = evaluateFormula(formula, CELLS);
  const tookMs = performance.now() - startMs;
  const faults = tookMs > LONGEST_MS ? [`takes ${Math.round(tookMs)} ms`] : [];
  const cells = result.kind === "block" ? result.rows.flat() : result.kind === "value" ? [result.value] : [];
  if (cells.some((cell) => typeof cell === "number" && !Number.isFinite(cell))) faults.push("gives no finite number");
  const messages = result.kind === "error" ? [result.message] : [];
  for (const cell of cells) if (typeof cell === "object") messages.push(cell.message);
  if (messages.some((text) => /NaN|Infinity|undefined|\[object/.test(text)))
    faults.push(`says “${messages.join(" ")}”`);
  return faults.map((fault) => `${formula}: ${fault}`);
}

const all = [...Object.values(FUNCTION_GROUPS).flat(), ...ours];

describe("every function", () => {
  it("is called here", () => expect(all.length).toBeGreaterThan(500));

  it("answers odd arguments soon, with finite numbers or an error in words", {
    timeout: IS_LONG ? 7_200_000 : 120_000,
  }, () => {
    expect(all.flatMap(callsOf).flatMap(faultsOf)).toEqual([]);
  });
});
