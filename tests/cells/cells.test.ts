import { describe, expect, it } from "vitest";
import { CellError } from "../../src/cells/index.js";
import { callCell as call, expectCellError as expectError } from "./call-cell.js";

const FACE = [
  [400, 420],
  [380, 400],
];

describe("AIRFLOW.FACE", () => {
  it("takes a face of 14 by 6 in, three quarters free, at 400 fpm for 175 cfm", () => {
    // 84/144 ft2 · 0.75 · 400 fpm = 175 cfm, by hand
    expect(call("AIRFLOW.FACE", 14, 6, FACE, 0.75, null, null)).toBeCloseTo(175, 12);
  });

  it("assumes 0.75 where no factor is given, and treats a blank factor as not given", () => {
    for (const blank of [null, undefined, 0, ""]) {
      expect(call("AIRFLOW.FACE", 14, 6, FACE, blank)).toBeCloseTo(175, 12);
    }
  });

  it("takes a size without a height for a diameter", () => {
    // π/4 · (12 in)² = 0.785398 ft2; · 1 · 400 fpm
    expect(call("AIRFLOW.FACE", 12, 0, [[400]], 1)).toBeCloseTo(100 * Math.PI, 9);
  });

  it("stays empty until a reading is there, then asks for the size", () => {
    expect(call("AIRFLOW.FACE", 0, 0, [[0, 0]], null, 0)).toBe("");
    expectError(call("AIRFLOW.FACE", 0, 6, FACE), "#N/A", "width is missing");
  });

  it("never lets a blank lower the mean", () => {
    expectError(
      call("AIRFLOW.FACE", 14, 6, [
        [400, 0],
        [380, 400],
      ]),
      "#VALUE!",
      "COUNT",
    );
    expect(
      call(
        "AIRFLOW.FACE",
        14,
        6,
        [
          [400, 0],
          [400, 400],
        ],
        0.75,
        3,
      ),
    ).toBeCloseTo(175, 12);
    expect(
      call(
        "AIRFLOW.FACE",
        14,
        6,
        [
          [400, 0],
          [400, 400],
        ],
        0.75,
        4,
      ),
    ).toBeCloseTo(131.25, 12);
  });

  it("refuses a factor above 1 in the words of the sheet", () => {
    expectError(call("AIRFLOW.FACE", 14, 6, FACE, 75), "#VALUE!", "factor must be above 0 and at most 1.");
  });

  it("reads millimetres and metres per second when units say so, and refuses other words", () => {
    // 0.35 m · 0.15 m · 0.75 · 2 m/s = 0.07875 m3/s
    expect(call("AIRFLOW.FACE", 350, 150, [[2]], 0.75, null, "si")).toBeCloseTo(78.75, 10);
    expectError(call("AIRFLOW.FACE", 350, 150, [[2]], 0.75, null, "metric"), "#VALUE!", '"ip"');
  });

  it("passes on the error of a cell with its code", () => {
    expectError(call("AIRFLOW.FACE", new CellError("#REF!", ""), 6, FACE), "#REF!", "width is in error");
  });
});

describe("functions of a column", () => {
  it("keep an error in its own row and leave an empty row empty", () => {
    const result = call("OPENING.RECT", [[12], [0], [12]], [[12], [0], ["x"]]) as unknown[][];
    expect(result[0]).toEqual([1]);
    expect(result[1]).toEqual([""]);
    expectError(result[2]?.[0], "#VALUE!", "height holds the text “x”");
  });

  it("serve every row with one cell", () => {
    const verdicts = call("DESIGN.VERDICT", [[142.5], [142.4], [165], [165.1]], [[150]], [[5]], [[10]]);
    expect(verdicts).toEqual([["within"], ["low"], ["within"], ["high"]]);
  });

  it("refuse columns of different heights and say which", () => {
    expectError(call("DESIGN.PERCENT", [[1], [2], [3]], [[1], [2]]), "#VALUE!", "design has 2 rows");
  });
});

describe("DESIGN.VERDICT", () => {
  it("stays empty for what is not measured, and asks for a missing design", () => {
    expect(call("DESIGN.VERDICT", "", 150)).toBe("");
    expectError(call("DESIGN.VERDICT", 140, 0), "#N/A", "design is missing");
  });

  it("takes the word none for a limit that allows nothing, and neither a 0 nor one limit of two", () => {
    expect(call("DESIGN.VERDICT", 149.9, 150, "none", 10)).toBe("low");
    expect(call("DESIGN.VERDICT", 150, 150, " None ", "none")).toBe("within");
    expectError(call("DESIGN.VERDICT", 149.9, 150, 0, 10), "#VALUE!", 'Enter "none" where it allows nothing');
    expectError(call("DESIGN.VERDICT", 149.9, 150, 5, 0), "#VALUE!", "plus is 0 or blank");
    expectError(call("DESIGN.VERDICT", 149.9, 150, 5), "#N/A", "plus is missing beside minus");
    expectError(call("DESIGN.VERDICT", 149.9, 150, "", 5), "#N/A", "minus is missing beside plus");
    expectError(call("DESIGN.VERDICT", 149.9, 150, "some", 5), "#VALUE!", "minus holds the text");
    expectError(call("DESIGN.VERDICT", 149.9, 150, 0, 0), "#VALUE!", "both 0 or blank");
  });

  it("needs taken to call an outlet with no air at all low", () => {
    expectError(call("DESIGN.VERDICT", 0, 150), "#N/A", "measured is blank or 0");
    expect(call("DESIGN.VERDICT", 0, 150, 10, 10, 1)).toBe("low");
  });
});

describe("DESIGN.DECISION", () => {
  it("is open where a limit lies between both ends of the ±, and decided elsewhere", () => {
    // Limits 135 and 165: 160 ± 8 reaches 168, 152 ± 8 stays inside, 120 ± 8 and 180 ± 8 stay outside.
    expect([160, 152, 120, 180].map((measured) => call("DESIGN.DECISION", measured, 150, 8))).toEqual([
      "open",
      "within",
      "low",
      "high",
    ]);
    expect(call("DESIGN.DECISION", 150, 150, 4, "none", 10)).toBe("open");
  });

  it("asks for the ±, and takes a 0 for it only where no air was measured", () => {
    expectError(call("DESIGN.DECISION", 150, 150, 0), "#N/A", "plusMinus is missing");
    expectError(call("DESIGN.DECISION", 150, 150, -3), "#VALUE!", "plusMinus must be 0 or more");
    expect(call("DESIGN.DECISION", 0, 150, 0, 10, 10, 1)).toBe("low");
    expect(call("DESIGN.DECISION", "", 150, "")).toBe("");
  });
});

describe("SWEEP.AVERAGE", () => {
  it("weighs each sweep by its time", () => {
    // (400·30 + 440·10) / 40 = 410
    expect(call("SWEEP.AVERAGE", [[400], [440]], [[30], [10]])).toBeCloseTo(410, 12);
  });

  it("leaves out a sweep that is not there and asks for a missing time", () => {
    expect(call("SWEEP.AVERAGE", [[400], [0]], [[30], [0]])).toBe(400);
    expectError(call("SWEEP.AVERAGE", [[400], [440]], [[30], [0]]), "#N/A", "seconds, sweep 2,");
  });

  it("counts a measured 0 only when taken says so", () => {
    expectError(call("SWEEP.AVERAGE", [[400], [0]], [[30], [10]]), "#N/A", "sweep 2");
    expect(call("SWEEP.AVERAGE", [[400], [0]], [[30], [10]], 2)).toBe(300);
    expect(call("SWEEP.AVERAGE", [[400], [0]], [[30], [10]], 1)).toBe(400);
    expectError(call("SWEEP.AVERAGE", [[400], [0]], [[30], [10]], 3), "#VALUE!", "taken is 3");
  });
});

describe("AIR.DENSITY", () => {
  it("never takes a blank temperature for 0 degrees", () => {
    expectError(call("AIR.DENSITY", 0), "#N/A", "temperature is blank or 0");
  });
});

describe("OPENING.FREE", () => {
  it("refuses a factor on top of an effective area, which is already free", () => {
    expectError(call("OPENING.FREE", 0.5, 0.75, 0.36), "#VALUE!", "factor must be left out");
    expect(call("OPENING.FREE", 0.5, null, 0.36)).toBe(0.36);
  });
});

describe("TRAVERSE.CHECK", () => {
  it("says why a plane does not suit", () => {
    expect(call("TRAVERSE.CHECK", [[300, 450, -3, 400]])).toContain("1 of 4 show reverse flow");
    expect(call("TRAVERSE.CHECK", [[300, 450, 400, 420]])).toBe("location suitable");
    expectError(call("TRAVERSE.CHECK", [[300]], null, "speed"), "#VALUE!", '"velocity" or "pressure"');
  });
});

describe("SHEET.OUTLETS", () => {
  const sizes = [
    [14, 6],
    [12, 0],
    [0, 0],
    [10, 4],
  ];
  const factors = [[0.75], [1], [0], [0]];
  const designs = [[180], [0], [0], [100]];
  const readings = [
    [400, 420, 380, 400],
    [300, 300, 300, 300],
    [0, 0, 0, 0],
    [0, 0, 0, 0],
  ];

  it("gives what the single functions give, row by row", () => {
    const taken = [[4], [4], [0], [0]];
    const rows = call("SHEET.OUTLETS", sizes, factors, designs, readings, taken, 10, 10) as unknown[][];
    const [area, freeArea, velocity, airflow, plusMinus, percent, verdict] = rows[0] ?? [];
    expect(area).toBeCloseTo(call("OPENING.RECT", 14, 6) as number, 12);
    expect(freeArea).toBeCloseTo(0.4375, 12);
    expect(velocity).toBe(call("TRAVERSE.AVERAGE", [[400, 420, 380, 400]]));
    expect(airflow).toBeCloseTo(175, 12);
    expect(plusMinus).toBeGreaterThan(0.1 * 175);
    expect(percent).toBeCloseTo((100 * 175) / 180, 12);
    expect(verdict).toBe("within");
    expect(rows[1]?.slice(5)).toEqual(["", ""]);
    expect(rows[2]).toEqual(["", "", "", "", "", "", ""]);
    expect((rows[3] as number[])[0]).toBeCloseTo(40 / 144, 12);
    expect(rows[3]?.slice(2)).toEqual(["", "", "", "", ""]);
  });

  it("trusts an assumed factor less than a published one", () => {
    const pair = call(
      "SHEET.OUTLETS",
      [
        [14, 6],
        [14, 6],
      ],
      [[0.75], [0]],
      [[0], [0]],
      [[400], [400]],
    ) as number[][];
    expect(pair[1]?.[3]).toBe(pair[0]?.[3]);
    expect(pair[1]?.[4]).toBeGreaterThan(pair[0]?.[4] as number);
  });

  it("puts an error where the airflow would stand and keeps the other rows", () => {
    const rows = call(
      "SHEET.OUTLETS",
      [
        [14, 6],
        [14, 6],
      ],
      [[1.5], [1]],
      [[0], [0]],
      [[400], [400]],
    ) as unknown[][];
    expectError(rows[0]?.[3], "#VALUE!", "factor");
    expect(rows[1]?.[3]).toBeCloseTo(233.333, 3);
  });

  it("refuses columns of different heights", () => {
    expectError(call("SHEET.OUTLETS", [[14, 6]], [[1], [1]], [[0]], [[400]]), "#VALUE!", "factor has 2 rows");
  });
});
