import { execFileSync } from "node:child_process";
import { linkSync, mkdirSync, symlinkSync, truncateSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { hostileWorkbooks } from "../hosts/file/hostile-workbooks.js";
import { plainWorkbook } from "../xlsx/plain-workbook.js";

/** One call of the command line that must end soon, in words, whatever it is given. */
export interface HostileInput {
  readonly title: string;
  readonly group: "workbook" | "calculation" | "formula" | "log" | "name";
  /** Makes what is needed in an empty folder; returns the arguments. */
  readonly prepare: (folder: string) => readonly string[];
  /** Whether it may also succeed: an answer is as good as a refusal. */
  readonly mayDo: boolean;
  /** Whether a short run takes it: what starts fast and has been a fault before. */
  readonly isQuick?: boolean;
}

/** Commands that read a workbook, with a workbook in their place of the file. */
const WORKBOOK_COMMANDS = {
  calc: ["calc", "in.xlsx", "--dry-run"],
  check: ["check", "in.xlsx"],
  handoff: ["handoff", "in.xlsx", "-o", "out.xlsx"],
  readings: ["readings", "in.xlsx"],
  rollup: ["rollup", ".", "-o", "out.xlsx"],
} as const;

type WorkbookCommand = keyof typeof WORKBOOK_COMMANDS;
const ALL_COMMANDS = Object.keys(WORKBOOK_COMMANDS) as readonly WorkbookCommand[];

const workbookInputs: readonly HostileInput[] = hostileWorkbooks.flatMap(({ title, make }, index) =>
  ALL_COMMANDS.map((command) => ({
    title: `${command}: ${title}`,
    group: "workbook" as const,
    mayDo: command === "rollup",
    isQuick: index % 25 === 3,
    prepare: (folder: string) => {
      writeFileSync(join(folder, "in.xlsx"), make());
      return WORKBOOK_COMMANDS[command];
    },
  })),
);

const escaped = (formula: string) => formula.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll('"', "&quot;");
const LETTERS = "a".repeat(30_000);
const STARS = `${"*a".repeat(60)}*b`;
const text = (address: string, value: string) => `<c r="${address}" t="str"><v>${value}</v></c>`;
const formula = (address: string, written: string) => `<c r="${address}"><f>${escaped(written)}</f></c>`;

/** Formulas in a workbook, calculated because they have no stored result. */
const CALCULATIONS: readonly (readonly [string, readonly string[]])[] = [
  ["COUNTIF with sixty stars over 30,000 letters", [`COUNTIF(A1:A1,"${STARS}")`]],
  ["MATCH with sixty stars", [`MATCH("${STARS}",A1:A1,0)`]],
  ["XLOOKUP with stars", [`XLOOKUP("${STARS}",A1:A1,A1:A1,"none",2)`]],
  ["SUMIFS with stars", [`SUMIFS(B1:B1,A1:A1,"${STARS}")`]],
  ["SEARCH with stars", [`SEARCH("${STARS}",A1)`]],
  ["a product of matrices of 1,400", ["SUM(MMULT(SEQUENCE(1400,1400),SEQUENCE(1400,1400)))"]],
  ["a determinant of 1,900", ["MDETERM(MUNIT(1900))"]],
  ["an inverse of 1,500", ["SUM(MINVERSE(MUNIT(1500)))"]],
  ["500 sums of 2.2 million", Array.from({ length: 500 }, () => "SUM(SEQUENCE(1500,1500))")],
  ["20,000 square", ["SUM(MUNIT(20000))"]],
  ["a hundred million", ["SUM(SEQUENCE(100000000))"]],
  [
    "a text that doubles thirty times",
    Array.from({ length: 30 }, (_, index) => (index === 0 ? "A1&A1" : `B${index}&B${index}`)),
  ],
  ["REPT of a thousand million", ['LEN(REPT("ab",1000000000))']],
  ["a workday in a million million", ["WORKDAY(1,1E12)"]],
  ["rounding to a thousand million places", ["ROUND(1,1E9)"]],
  ["whole columns against whole columns", ["SUMPRODUCT((A:A=A:A)*(B:B=B:B))"]],
  ["2,000 brackets", [`${"(".repeat(2000)}7${")".repeat(2000)}`]],
  ["2,000 signs", [`${"-".repeat(4000)}7`]],
  ["1,000 nested functions", [`${"ABS(".repeat(1000)}7${")".repeat(1000)}`]],
  ["a chain of 5,000 cells", Array.from({ length: 5000 }, (_, index) => (index === 0 ? "1" : `B${index}+1`))],
  ["a chain of 5,000 cells from below", Array.from({ length: 5000 }, (_, index) => `B${index + 2}+1`)],
  ["a circle of 1,000 cells", Array.from({ length: 1000 }, (_, index) => `B${((index + 1) % 1000) + 1}+1`)],
  ["3,000 sums that grow", Array.from({ length: 3000 }, (_, index) => `SUM(C$1:C${index + 1})`)],
  [
    "VLOOKUP over a whole sheet, 2,000 times",
    Array.from({ length: 2000 }, (_, index) => `VLOOKUP(${index},A:D,4,FALSE)`),
  ],
  ["SORT of two million", ["SUM(SORT(SEQUENCE(2000000)))"]],
  ["UNIQUE of two million", ["SUM(UNIQUE(SEQUENCE(2000000)))"]],
  ["FREQUENCY of a million in a million", ["SUM(FREQUENCY(SEQUENCE(1000000),SEQUENCE(1000000)))"]],
];

const calculationInputs: readonly HostileInput[] = CALCULATIONS.flatMap(([title, formulas]) =>
  (["calc", "check", "handoff"] as const).map((command) => ({
    title: `${command}: ${title}`,
    group: "calculation" as const,
    mayDo: true,
    prepare: (folder: string) => {
      const rows = formulas.map(
        (written, row) =>
          `<row r="${row + 1}">${row === 0 ? text("A1", LETTERS) : ""}${formula(`B${row + 1}`, written)}</row>`,
      );
      writeFileSync(join(folder, "in.xlsx"), plainWorkbook(rows.join("")));
      return WORKBOOK_COMMANDS[command];
    },
  })),
);

const FORMULAS: readonly string[] = [
  "=SUM(MUNIT(20000))",
  "=SUM(SEQUENCE(100000000))",
  "=WORKDAY(1,1E12)",
  "=EDATE(1,1E15)",
  "=ROUND(1,1E9)",
  "=YEARFRAC(1,1E15)",
  `=${"(".repeat(3000)}7${")".repeat(3000)}`,
  `=${"ABS(".repeat(3000)}7${")".repeat(3000)}`,
  `=${"-".repeat(8000)}7`,
  `=1${"+1".repeat(20_000)}`,
  `=COUNTIF({"${"a".repeat(8000)}"},"${STARS}")`,
  '=REPT("x",1E9)',
  "=1E308*10",
  "=0/0",
  "=SQRT(-1)",
  "=10^10^10",
  "=FACT(1E9)",
  "=COMBIN(1E9,5E8)",
  "=MMULT(SEQUENCE(1400,1400),SEQUENCE(1400,1400))",
  "=NETWORKDAYS(1,1E9)",
  "=SUMPRODUCT(SEQUENCE(5000,5000))",
  "=VANE.AIRFLOW(1E308,1E308)",
  "=VANE.AIRFLOW.FACE(1E-300,1E-300,{1E300},1)",
  "={1;2",
  '="',
  "=A1#REF!!!",
  `=${"{".repeat(5000)}`,
  "=\u0000\u001b[2J",
  "",
];

const formulaInputs: readonly HostileInput[] = FORMULAS.map((written) => ({
  title: `eval: ${written.length > 60 ? `${written.slice(0, 40)}… (${written.length} letters)` : written}`,
  group: "formula",
  mayDo: true,
  // An argument cannot hold the character that ends it.
  prepare: () => ["eval", written.replaceAll("\u0000", "\u0001")],
}));

const HEAD = "Time (s),Velocity (fpm)\n";
const rows = (count: number) => Array.from({ length: count }, (_, index) => `${index},${400 + (index % 9)}\n`).join("");

const LOGS: Readonly<Record<string, string | Uint8Array | ((path: string) => void)>> = {
  "an empty text": "",
  zeros: new Uint8Array(1_000_000),
  "random bytes": Uint8Array.from({ length: 1_000_000 }, (_, index) => (index * 7919 + (index >> 3) * 104_729) % 256),
  "a field of 200,000 digits": `${HEAD}0,400\n1,${"9".repeat(200_000)}\n2,410\n`,
  "a field of 3,000,000 digits": `${HEAD}0,400\n1,${"9".repeat(3_000_000)}\n2,410\n`,
  "100 rows of 20,000 blanks": Array.from({ length: 100 }, (_, row) => `${row}${" ".repeat(20_000)}400\n`).join(""),
  "20,000 blanks before each unit": `${HEAD}${Array.from({ length: 200 }, (_, row) => `${row},4${" ".repeat(20_000)}x\n`).join("")}`,
  "one line of 20 MB": "1,".repeat(10_000_000),
  "20 MB of quotation marks": '"'.repeat(20_000_000),
  "a quotation mark left open over 20 MB": `${HEAD}0,"400\n${"1,410\n".repeat(3_300_000)}`,
  "20 MB of new lines": "\n".repeat(20_000_000),
  "20 MB of carriage returns": "\r".repeat(20_000_000),
  "3,000,000 rows": `${HEAD}${rows(3_000_000)}`,
  "1,000,000 rows": `${HEAD}${rows(1_000_000)}`,
  "a million rows that are no readings": `${HEAD}${"x,---\n".repeat(1_000_000)}`,
  "half of a million at rest": `${HEAD}${Array.from({ length: 1_000_000 }, (_, index) => `${index},${index % 8 < 4 ? 0 : 400}\n`).join("")}`,
  "30,000 columns": `${"1,".repeat(30_000)}1\n`.repeat(20),
  "escape sequences": `Time (s),Velocity \u001b]0;x\u0007\u001b[2J (fpm)\n0,400\n1,\u001b[31mOL\n2,410\n`,
  "times beyond all numbers": "Elapsed (h),Velocity (fpm)\n1e300,400\n1e307,410\n1e308,420\n",
  "half of a character at the end": new Uint8Array([...Buffer.from(`${HEAD}0,400\n1,410\n`), 0xe2, 0x82]),
  "UTF-16 without its other half": new Uint8Array([0xff, 0xfe, ...Buffer.from(`${HEAD}0,400\n`, "utf16le"), 0x31]),
  "a file of 300 MB": (path) => {
    writeFileSync(path, HEAD);
    truncateSync(path, 300 * 2 ** 20);
  },
  "a file of 200 MB of zeros": (path) => {
    writeFileSync(path, HEAD);
    truncateSync(path, 200 * 2 ** 20);
  },
};

const logInputs: readonly HostileInput[] = Object.entries(LOGS).map(([title, content], index) => ({
  title: `readings: ${title}`,
  group: "log",
  mayDo: true,
  isQuick: index === 3 || index === 5,
  prepare: (folder: string) => {
    const path = join(folder, "log.csv");
    if (typeof content === "function") content(path);
    else writeFileSync(path, content);
    return ["readings", "log.csv"];
  },
}));

const sound = plainWorkbook('<row r="1"><c r="A1"><v>1</v></c></row>');
const LONGEST = `${"n".repeat(250)}.xlsx`;

const NAMES: Readonly<
  Record<string, { readonly mayDo: boolean; readonly prepare: (folder: string) => readonly string[] }>
> = {};

function name(title: string, mayDo: boolean, prepare: (folder: string) => readonly string[]): void {
  (NAMES as Record<string, (typeof NAMES)[string]>)[title] = { mayDo, prepare };
}

for (const command of ["calc", "check", "readings"] as const) {
  name(`${command}: a named pipe`, false, (folder) => {
    execFileSync("mkfifo", [join(folder, "in.xlsx")]);
    return [command, "in.xlsx"];
  });
  name(`${command}: a device without end`, false, () => [command, "/dev/zero"]);
  name(`${command}: a folder`, false, (folder) => {
    mkdirSync(join(folder, "in.xlsx"));
    return [command, "in.xlsx"];
  });
  name(`${command}: a link to itself`, false, (folder) => {
    symlinkSync("in.xlsx", join(folder, "in.xlsx"));
    return [command, "in.xlsx"];
  });
  name(`${command}: a name too long for any disk`, false, () => [command, `${"n".repeat(5000)}.xlsx`]);
  name(`${command}: a name with escape sequences and new lines`, false, () => [command, "a\u001b[2J\n\u202eb.xlsx"]);
  name(`${command}: an empty name`, false, () => [command, ""]);
}
name("calc: the longest name that a disk takes", true, (folder) => {
  writeFileSync(join(folder, LONGEST), sound);
  return ["calc", LONGEST];
});
name("handoff: to the longest name that a disk takes", true, (folder) => {
  writeFileSync(join(folder, "in.xlsx"), sound);
  return ["handoff", "in.xlsx", "-o", LONGEST];
});
name("new: a name too long for any disk", false, () => ["new", "room-balance", `${"n".repeat(5000)}.xlsx`]);
name("new: into a device", false, () => ["new", "room-balance", "/dev/full/x.xlsx"]);
name("calc: a hard link", true, (folder) => {
  writeFileSync(join(folder, "in.xlsx"), sound);
  linkSync(join(folder, "in.xlsx"), join(folder, "other.xlsx"));
  return ["calc", "in.xlsx"];
});
name("rollup: a named pipe among the workbooks", false, (folder) => {
  execFileSync("mkfifo", [join(folder, "pipe.xlsx")]);
  writeFileSync(join(folder, "in.xlsx"), sound);
  return ["rollup", ".", "-o", "out.xlsx"];
});
name("rollup: a folder of links to each other", false, (folder) => {
  for (const [from, to] of ["ab", "ba"]) symlinkSync(`${to}.xlsx`, join(folder, `${from}.xlsx`));
  return ["rollup", ".", "-o", "out.xlsx"];
});
name("functions: a name of 100,000 letters", false, () => ["functions", "A".repeat(100_000)]);

const nameInputs: readonly HostileInput[] = Object.entries(NAMES).map(([title, { mayDo, prepare }]) => ({
  title,
  group: "name",
  mayDo,
  isQuick: title.includes("named pipe"),
  prepare,
}));

export const hostileInputs: readonly HostileInput[] = [
  ...workbookInputs,
  ...calculationInputs,
  ...formulaInputs,
  ...logInputs,
  ...nameInputs,
];
