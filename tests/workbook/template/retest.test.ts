import { describe, expect, it } from "vitest";
import { createModel } from "../../../src/engine/index.js";
import { calculatePlan } from "../../../src/tools/templates/calculate-plan.js";
import { TEMPLATES } from "../../../src/workbook/index.js";
import { drawOf } from "../../../src/workbook/template/room-balance/retest-draw.js";
import { columnLetters } from "../../../src/xlsx/address.js";
import { cellUnder } from "../../support/plan-places.js";

/*
 * Twenty outlets of one free square foot (12 x 12 in, factor 1), each with one reading of 100 fpm and its number: the
 * reading is the airflow in cfm.
 */

const PLAN = TEMPLATES["room-balance"]("");
const OUTLETS = 20;
const FIRST = 18;

function entered(table: string, row: number, cells: Readonly<Record<string, string | number>>) {
  return Object.fromEntries(
    Object.entries(cells).map(([header, value]) => [cellUnder(PLAN, table, header, row), value]),
  );
}

type Cells = Readonly<Record<string, string | number>>;

/** What is entered in the row of the list, over what it has anyway. */
const outlet = (number: number, cells: Cells) => entered("Outlets", 8 + number, cells);

/** What is entered in a row of the re-test. */
const read = (index: number, cells: Cells) => entered("Retest", FIRST + index, cells);

function retest(own: Cells, more: Cells = {}) {
  const outlets = Array.from({ length: OUTLETS }, (_, index) =>
    outlet(index + 1, {
      Outlet: `S${index + 1}`,
      "Width or diameter": 12,
      Height: 12,
      Factor: 1,
      R1: 101 + index,
    }),
  );
  const results = calculatePlan(PLAN, { Outlets: Object.assign({}, ...outlets, more), "Re-test": own });
  const shown = (header: string, index: number) =>
    results.get("Re-test")?.get(cellUnder(PLAN, "Retest", header, FIRST + index))?.value;
  return {
    drawn: Array.from({ length: 20 }, (_, index) => shown("Drawn", index)).filter((tag) => tag !== ""),
    shown,
    agreement: (count: number) => Array.from({ length: count }, (_, index) => shown("Agreement", index)),
    result: results.get("Re-test")?.get("C10")?.value,
    unjudged: results.get("Re-test")?.get("C11")?.value,
  };
}

const SEEDED = { C6: 4711, C5: 20 };

/** The four outlets that the seed draws, copied as values and read as they were reported. */
function copied(count = 4): Cells {
  const { shown } = retest(SEEDED);
  const rows = Array.from({ length: count }, (_, index) => {
    const reported = Number(shown("Reported", index));
    return read(index, { "Outlet read": String(shown("Drawn", index)), "Reported then": reported, W1: reported });
  });
  return Object.assign({}, ...rows);
}

describe("the record of a re-test", () => {
  it("draws the share of the measured outlets by the seed, each once, and the same ones again", () => {
    expect(retest({}).drawn).toEqual([]);
    expect(retest({}).result).toBe("Type the seed that the witness names.");
    const first = retest(SEEDED);
    expect(first.drawn).toHaveLength(4);
    expect(new Set(first.drawn).size).toBe(4);
    expect(retest(SEEDED).drawn).toEqual(first.drawn);
    expect(first.result).toBe("0 of 4 read again.");
  });

  it("draws every outlet about equally often, whatever their tags are", () => {
    const seeds = 60;
    // Tags in column A, airflows in column B, seeds in row 30, and above each seed the draws of the outlets.
    const cells = Array.from({ length: seeds }, (_, index) => {
      const letters = columnLetters(index + 3);
      const draws = Array.from({ length: OUTLETS }, (_row, row) => {
        return [`${letters}${row + 1}`, drawOf(`$A${row + 1}`, `$B${row + 1}`, `${letters}$30`)] as const;
      });
      return [[`${letters}30`, `${index + 1}`] as const, ...draws];
    });
    const tags = Array.from({ length: OUTLETS }, (_, row) => [`A${row + 1}`, `S-${row + 1}`] as const);
    const airflows = tags.map((_, row) => [`B${row + 1}`, "100"] as const);
    const sheet = { id: "S", name: "S", colNumber: seeds + 3, rowNumber: 30 };
    const all = Object.fromEntries([...tags, ...airflows, ...cells.flat()]);
    const model = createModel({ sheets: [{ ...sheet, cells: all }] });
    const counts = new Array<number>(OUTLETS).fill(0);
    for (let col = 2; col <= seeds + 1; col += 1) {
      const draws = counts.map((_, row) => Number(model.getters.getEvaluatedCell({ sheetId: "S", col, row }).value));
      const fourth = [...draws].sort((one, other) => one - other)[3] ?? Number.NaN;
      draws.forEach((draw, row) => {
        if (draw <= fourth) counts[row] = (counts[row] ?? 0) + 1;
      });
    }
    // Four of twenty sixty times are 12 of each on average; 2 and 26 lie more than three standard deviations away.
    expect(counts.reduce((sum, count) => sum + count, 0)).toBe(4 * seeds);
    expect(Math.min(...counts)).toBeGreaterThan(2);
    expect(Math.max(...counts)).toBeLessThan(26);
  });

  it("draws by the tag, so that a sorted list gives the same outlets in the same order", () => {
    const { drawn } = retest(SEEDED);
    const turned = Array.from({ length: OUTLETS }, (_, index) =>
      outlet(index + 1, { Outlet: `S${OUTLETS - index}`, R1: 100 + OUTLETS - index }),
    );
    const sorted = retest(SEEDED, Object.assign({}, ...turned)).drawn;
    expect(sorted).toEqual(drawn);
  });

  it("compares what the witness read, and asks for the whole system where one differs", () => {
    const rows = copied();
    const near = retest({ ...SEEDED, ...rows });
    expect(near.agreement(5)).toEqual(["agrees", "agrees", "agrees", "agrees", ""]);
    expect(near.result).toBe("All 4 agree within 10 %.");
    expect(near.unjudged).toBe("");
    const first = Number(near.shown("Reported", 0));
    const edge = retest({ ...SEEDED, ...rows, ...read(0, { W1: 1.1 * first }), ...read(1, { W1: "" }) });
    expect(edge.shown("Off by", 0)).toBeCloseTo(10, 9);
    expect(edge.agreement(2)).toEqual(["agrees", ""]);
    expect(edge.result).toBe("3 of 4 read again.");
    const off = retest({ ...SEEDED, ...rows, ...read(0, { W1: 1.11 * first }) });
    expect(off.shown("Agreement", 0)).toBe("differs");
    expect(off.result).toBe(
      "1 of 4 differ by more than 10 %: recalculate, calibrate the meter, and test the whole system again.",
    );
  });

  it("keeps a reading with the outlet that was read, in whatever row it was entered", () => {
    const { drawn, shown } = retest(SEEDED);
    const reported = Number(shown("Reported", 2));
    const swapped = retest({
      ...SEEDED,
      ...read(0, { "Outlet read": String(drawn[2]), "Reported then": reported, W1: reported }),
    });
    expect(swapped.shown("Airflow read", 0)).toBeCloseTo(reported, 9);
    expect(swapped.agreement(3)).toEqual(["agrees", "", ""]);
  });
});

describe("a row of a re-test that cannot be judged says so and counts as nothing", () => {
  const rows = copied();
  const [tag, reported] = [String(retest(SEEDED).drawn[0]), Number(retest(SEEDED).shown("Reported", 0))];
  const row = Number(tag.slice(1));
  it.each<[string, Cells, Cells, string, RegExp]>([
    ["another seed", { C6: 12, ...rows }, {}, "not drawn", /^\d not drawn: set seed and share back/],
    ["a share lowered to 10 %", { ...rows, C5: 10 }, {}, "agrees", /^2 not drawn/],
    ["readings beside no tag", { ...rows, ...read(0, { "Outlet read": "" }) }, {}, "no outlet", /^1 no outlet: enter/],
    [
      "a tag that is not in the list",
      { ...rows, ...read(0, { "Outlet read": "S99" }) },
      {},
      "not listed",
      /^1 not listed/,
    ],
    ["a tag that two outlets have", rows, outlet(row === 1 ? 2 : 1, { Outlet: tag }), "repeated tag", /1 repeated tag/],
    [
      "an outlet entered twice",
      { ...rows, ...read(7, { "Outlet read": tag.toLowerCase(), "Reported then": reported, W1: reported }) },
      {},
      "entered twice",
      /^2 entered twice/,
    ],
    ["a reading as a text", { ...rows, ...read(0, { W2: "105 fpm" }) }, {}, "text reading", /^1 text reading/],
    ["no reported airflow", { ...rows, ...read(0, { "Reported then": "" }) }, {}, "no airflow", /^1 no airflow/],
    ["an airflow that is old", rows, outlet(row, { "Reading is": "old" }), "old reading", /^1 old reading/],
    ["an airflow read anew", rows, outlet(row, { R1: reported + 0.6 }), "changed since", /^1 changed since/],
  ])("%s", (_, own, more, word, sentence) => {
    const { agreement, result, unjudged } = retest({ ...SEEDED, ...own }, more);
    expect(agreement(1)).toEqual([word]);
    expect(unjudged).toMatch(sentence);
    expect(result).toMatch(/^\d rows? (is|are) not judged: put right what the next line says\.$/);
  });

  it("an airflow rounded to a whole number as it was copied is the same airflow", () => {
    expect(retest({ ...SEEDED, ...rows }, outlet(row, { R1: reported + 0.5 })).agreement(1)).toEqual(["agrees"]);
  });

  it("an outlet that was taken out of the list", () => {
    const gone = retest({ ...SEEDED, ...rows }, outlet(row, { Outlet: "", R1: "" }));
    expect(gone.agreement(1)).toEqual(["not listed"]);
    expect(gone.result).not.toMatch(/^All/);
  });

  it("measured outlets without a tag cannot be drawn, which is said", () => {
    const { drawn, unjudged, result } = retest({ C6: 4711, C5: 100 }, outlet(3, { Outlet: "" }));
    expect(drawn).toHaveLength(19);
    expect(unjudged).toBe("1 measured without a tag: enter it, or it cannot be drawn.");
    expect(result).toBe("0 of 20 read again.");
  });
});
