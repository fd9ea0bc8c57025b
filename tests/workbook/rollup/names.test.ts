import { describe, expect, it } from "vitest";
import { EVERY_JOB, nameRules, rollUp } from "../../../src/workbook/rollup/index.js";
import { figuresOf, jobBytes } from "./made-job.js";

const NAMES = ["J. Vale", "J Vale", "Jim Vale", "Ann Reed", "Ann Read", "Technician A", "Technician B", "Bo"];

const FIGURES = NAMES.flatMap((technician, index) => {
  const details = { Job_InstrumentSerial: ["VM-1042", "VM 1O42", "VM-1043"][index % 3] ?? "" };
  const bytes = jobBytes([{ design: 100, after: 98 }], { number: `J-${index}`, technician }, "ip", details);
  return figuresOf(bytes, `${index}.xlsx`);
});

const rolled = (...rows: readonly (readonly string[])[]) => {
  const names = nameRules([["Kind", "Found", "Counts as"], ...rows], "names.csv");
  return rollUp(FIGURES, EVERY_JOB, { today: null, calibrationMonths: 12, names }).value;
};

describe("names that look alike", () => {
  it("are listed with what they are like, and count apart", () => {
    const { names, technicians } = rolled();
    expect(technicians).toHaveLength(NAMES.length);
    const pairs = names.filter(({ kind }) => kind === "technician").map(({ name, like, why }) => [name, like, why]);
    expect(pairs).toEqual([
      ["Ann Reed", "Ann Read", "one letter apart"],
      ["J. Vale", "J Vale", "the same but for spaces and signs"],
      ["Jim Vale", "J Vale", "the same family name, and an initial"],
      ["Jim Vale", "J. Vale", "the same family name, and an initial"],
    ]);
  });

  it("are of meters only where their numbers are read alike: the next number is another meter", () => {
    const { names, instruments } = rolled();
    expect(names.filter(({ kind }) => kind === "instrument")).toMatchObject([
      { name: "VM-1042", like: "VM 1O42", why: "the same but for letters that look like digits", outlets: 3 },
    ]);
    expect(instruments).toHaveLength(3);
  });
});

describe("the table of names", () => {
  it("merges what it lists, tells each, and tells what it does not find", () => {
    const { technicians, instruments, names, total } = rolled(
      ["technician", "J Vale", "J. Vale"],
      ["technician", "jim vale", "J. Vale"],
      ["Instrument", "VM 1O42", "VM-1042"],
      ["", "", ""],
      ["technician", "Nobody", "Bo"],
    );
    expect(technicians.find(({ name }) => name === "J. Vale")).toMatchObject({ jobs: 3, outlets: 3 });
    expect(instruments.map(({ serial, jobs }) => [serial, jobs])).toEqual([
      ["VM-1042", 6],
      ["VM-1043", 2],
    ]);
    expect(total.outlets).toBe(NAMES.length);
    const told = names
      .filter(({ countsAs }) => countsAs !== null)
      .map(({ name, countsAs, jobs }) => [name, countsAs, jobs]);
    expect(told).toEqual([
      ["J Vale", "J. Vale", 1],
      ["Jim Vale", "J. Vale", 1],
      ["Nobody", "Bo", 0],
      ["VM 1O42", "VM-1042", 3],
    ]);
  });

  it.each([
    [[["who", "a", "b"]], "row 2: “who” is not a kind"],
    [[["technician", "", "b"]], "row 2: a name is missing"],
    [
      [
        ["technician", "a", "b"],
        ["technician", "A", "c"],
      ],
      "row 3: “A” is there twice",
    ],
    [
      [
        ["technician", "a", "b"],
        ["technician", "b", "c"],
      ],
      "“a” counts as “b”, which another row renames",
    ],
  ])("refuses %j and says where", (rows, message) => {
    expect(() => rolled(...rows)).toThrow(message);
  });

  it("needs its headings", () => {
    expect(() => nameRules([["technician", "a", "b"]], "names.csv")).toThrow("the headings have to be kind, found");
  });
});
