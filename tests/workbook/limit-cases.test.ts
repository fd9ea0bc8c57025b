import { describe, expect, it } from "vitest";
import { vaneBalanceAdvice, vaneBalanceLow } from "../../src/cells/balance-advice.js";
import { vaneDesignVerdict } from "../../src/cells/design-result.js";
import { vaneSheetOutlets } from "../../src/cells/sheet.js";
import { type DesignVerdict, designVerdict, FRESH_READINGS } from "../../src/core/index.js";
import { createModel, typedContent } from "../../src/engine/index.js";
import { systemAdvice } from "../../src/pane/balance/system-advice.js";
import { balanceGroups, handoffFormula, type OutletRow, UNSTATED_JOB } from "../../src/workbook/index.js";
import { verdictOf } from "../../src/workbook/template/plain-formulas.js";
import { jobBytes, readBytes } from "./rollup/made-job.js";

/*
 * Airflows that meet a limit exactly on paper, or miss it by the last digit that is written. What is right is worked out
 * in whole numbers; every place that judges has to say the same.
 */

interface LimitCase {
  readonly measured: number;
  readonly design: number;
  readonly minus: number;
  readonly plus: number;
  readonly expected: DesignVerdict;
}

const CASES_PER_PAIR = 500;
/** In tenths of a percent. */
const PAIRS = [
  [80, 80],
  [100, 100],
  [50, 100],
  [0, 100],
  [75, 0],
  [33, 67],
  [125, 151],
  [1, 1],
  [299, 300],
  [200, 250],
] as const;

/** A small generator of whole numbers, always the same. */
function* wholeNumbers(): Generator<number, never> {
  let state = 20_251_209n;
  for (;;) {
    state = (state * 6364136223846793005n + 1442695040888963407n) & 0xffff_ffff_ffff_ffffn;
    yield Number(state >> 33n);
  }
}

function casesOf([minus, plus]: readonly [number, number], next: () => number): readonly LimitCase[] {
  return Array.from({ length: CASES_PER_PAIR }, () => {
    const designTenths = 10 + (next() % 60_000);
    // Design in tenths times a limit in tenths of a percent: ten-thousandths, without a remainder.
    const low = designTenths * (1000 - minus);
    const high = designTenths * (1000 + plus);
    const measured = (next() % 2 === 0 ? low : high) + ((next() % 3) - 1);
    return {
      measured: Number(`${measured}e-4`),
      design: Number(`${designTenths}e-1`),
      minus: minus / 10,
      plus: plus / 10,
      expected: measured < low ? "low" : measured > high ? "high" : "within",
    };
  });
}

function makeCases(): readonly (readonly LimitCase[])[] {
  const numbers = wholeNumbers();
  return PAIRS.map((pair) => casesOf(pair, () => numbers.next().value));
}

const groups = makeCases();
const all = groups.flat();

/** How many cases a place judges otherwise than whole numbers do, with the first of them. */
function differences(
  judge: (one: LimitCase, index: number) => unknown,
  expected = (one: LimitCase): unknown => one.expected,
) {
  const wrong = all.flatMap((one, index) => {
    const given = judge(one, index);
    return given === expected(one) ? [] : [`${JSON.stringify(one)} is ${String(given)}`];
  });
  return { count: wrong.length, first: wrong[0] };
}

const NONE = { count: 0, first: undefined };

/** A limit as it is typed for a cell function: a 0 could be a blank cell. */
const typed = (limit: number) => (limit === 0 ? "none" : limit);

function outletRow(name: string, measured: number, design: number): OutletRow {
  const cell = { sheet: "Outlets", range: "A1" };
  return {
    id: name,
    name,
    sheet: "Outlets",
    row: 1,
    system: "",
    branch: "",
    room: "",
    kind: "supply",
    design,
    measured,
    before: measured,
    after: null,
    freeArea: null,
    factor: "none",
    expandedPercent: null,
    entry: "airflow",
    entryCells: [cell],
    entryScale: 1,
    isOld: false,
    ageCell: null,
    asFoundCells: [],
    entered: [measured],
    cell,
  };
}

function advised({ measured, design, minus, plus }: LimitCase) {
  // The second outlet is at its design, so that the first decides.
  const [group] = balanceGroups([outletRow("S1", measured, design), outletRow("S2", design, design)]);
  if (group === undefined) throw new Error("There is no group.");
  const view = systemAdvice(group, {
    isThrottled: () => false,
    isBranchThrottled: () => false,
    fanMost: Number.POSITIVE_INFINITY,
    limits: { minusPercent: minus, plusPercent: plus, isAssumed: false },
    order: FRESH_READINGS,
    job: UNSTATED_JOB,
  });
  if ("problem" in view) throw new Error(view.problem);
  return view.value;
}

describe(`${all.length} airflows at a limit`, () => {
  it("are as many as they are said to be, of each verdict a good part", () => {
    expect(all).toHaveLength(5000);
    for (const verdict of ["low", "within", "high"]) {
      expect(all.filter(({ expected }) => expected === verdict).length).toBeGreaterThan(500);
    }
  });

  it("are judged rightly by the verdict, in core and in cells", () => {
    expect(differences(({ measured, design, minus, plus }) => designVerdict(measured, design, minus, plus))).toEqual(
      NONE,
    );
    const column = (key: "measured" | "design") => all.map((one) => [one[key]]);
    const limits = (key: "minus" | "plus") => all.map((one) => [typed(one[key])]);
    const verdicts = vaneDesignVerdict(column("measured"), column("design"), limits("minus"), limits("plus"));
    expect(differences((_, index) => verdicts[index]?.[0])).toEqual(NONE);
  });

  it("are judged rightly by the function for a whole sheet", () => {
    const judge = ({ measured, design, minus, plus }: LimitCase) =>
      // One square foot that is all free, so that the velocity is the airflow.
      vaneSheetOutlets([[12, 12]], [[1]], [[design]], [[measured]], [[1]], typed(minus), typed(plus))[0]?.[6];
    expect(differences(judge)).toEqual(NONE);
  });

  it("are done for the balancing functions where they are within, and low where they are low", () => {
    const advice = differences(
      ({ measured, design, minus, plus }) =>
        String(
          vaneBalanceAdvice(
            [[measured], [design]],
            [[design], [design]],
            [["S1"], ["S2"]],
            undefined,
            undefined,
            undefined,
            undefined,
            typed(minus),
            typed(plus),
          ),
        ).startsWith("Every outlet is within limits"),
      ({ expected }) => expected === "within",
    );
    expect(advice).toEqual(NONE);
    const low = differences(
      ({ measured, design, minus }) =>
        vaneBalanceLow(
          [[measured], [design]],
          [[design], [design]],
          undefined,
          undefined,
          undefined,
          typed(minus),
        )[0]?.[0] !== "",
      ({ expected }) => expected === "low",
    );
    expect(low).toEqual(NONE);
  });

  it("are judged rightly in the pane, which stops where they are within", () => {
    const verdict = differences((one) => advised(one).rated.find(({ row }) => row.name === "S1")?.verdict);
    expect(verdict).toEqual(NONE);
    const done = differences(
      (one) => advised(one).advice.step.kind === "done",
      ({ expected }) => expected === "within",
    );
    expect(done).toEqual(NONE);
    const low = differences(
      (one) => advised(one).advice.low.some(({ outlet }) => outlet.name === "S1"),
      ({ expected }) => expected === "low",
    );
    expect(low).toEqual(NONE);
  });

  it("are judged rightly by the roll-up", () => {
    const verdicts = groups.flatMap((cases) => {
      const [first] = cases;
      if (first === undefined) return [];
      const limits = { Job_LimitMinus: first.minus, Job_LimitPlus: first.plus };
      const rows = cases.map(({ measured, design }) => ({ design, before: measured }));
      return readBytes(jobBytes(rows, {}, "ip", limits)).value.map(({ verdict }) => verdict);
    });
    expect(differences((_, index) => verdicts[index])).toEqual(NONE);
  });

  it("are judged rightly by the formulas of a template and of a hand-off copy", () => {
    const handedOff = handoffFormula("VANE.DESIGN.VERDICT(A1,B1,C1,D1)");
    if (handedOff.kind !== "plain") throw new Error("The verdict has no plain formula.");
    const inRow = (formula: string, row: number) => `=${formula.replace(/\b([ABCD])1\b/g, `$1${row}`)}`;
    const cells = all.flatMap(({ measured, design, minus, plus }, index) => {
      const row = index + 1;
      return [
        [`A${row}`, measured],
        [`B${row}`, design],
        [`C${row}`, typed(minus)],
        [`D${row}`, typed(plus)],
        [`E${row}`, inRow(verdictOf("A1", "B1", { minus: "N(C1)", plus: "N(D1)", isHalf: "FALSE" }), row)],
        [`F${row}`, inRow(handedOff.formula, row)],
      ] as const;
    });
    const model = createModel({
      sheets: [
        {
          id: "S",
          name: "S",
          colNumber: 6,
          rowNumber: all.length,
          cells: Object.fromEntries(cells.map(([at, content]) => [at, typedContent(content)])),
        },
      ],
    });
    for (const col of [4, 5]) {
      expect(differences((_, row) => model.getters.getEvaluatedCell({ sheetId: "S", col, row }).value)).toEqual(NONE);
    }
  });
});
