import { describe, expect, it } from "vitest";
import { cellFunctions, typedName } from "../../../src/cells/index.js";
import {
  BALANCE_BLOCKS,
  type BalanceBlock,
  type CellPlan,
  type SheetPlan,
  STYLES,
  TEMPLATES,
  type TemplateOptions,
  type TemplatePlan,
} from "../../../src/workbook/index.js";
import { isInRange, parseAddress, parseRange, scanFormula } from "../../../src/xlsx/index.js";

/** A room balance with more readings than it comes with, and everything that it can hold besides. */
const WHOLE: TemplateOptions = { points: 9, blocks: Object.keys(BALANCE_BLOCKS) as BalanceBlock[] };

const plans: readonly (readonly [string, TemplatePlan, TemplateOptions])[] = [
  ...Object.entries(TEMPLATES).map(([id, plan]) => [id, plan(""), {}] as const),
  ["room-balance with every block", TEMPLATES["room-balance"]("", WHOLE), WHOLE],
];

function isFormula(cell: CellPlan): cell is CellPlan & { readonly content: string } {
  return typeof cell.content === "string" && cell.content.startsWith("=");
}

function covers(range: string, at: string): boolean {
  const position = parseAddress(at);
  const block = parseRange(range);
  return position !== undefined && block !== undefined && isInRange(block, position.row, position.column);
}

/** Blocks that a formula reads, with their sheets. */
function readsOf(sheet: SheetPlan, formula: string): readonly { readonly sheet: string; readonly range: string }[] {
  const tokens = scanFormula(formula);
  const reads: { sheet: string; range: string }[] = [];
  for (let at = 0; at < tokens.length; at += 1) {
    const token = tokens[at];
    if (token?.kind !== "cell") continue;
    const isAbroad = tokens[at - 1]?.text === "!";
    const named = isAbroad ? (tokens[at - 2]?.text ?? "").replaceAll("'", "") : sheet.name;
    const isRange = tokens[at + 1]?.text === ":";
    const range = isRange ? `${token.text}:${tokens[at + 2]?.text ?? ""}` : token.text;
    reads.push({ sheet: named, range: range.replaceAll("$", "") });
    if (isRange) at += 2;
  }
  return reads;
}

const callsOurs = (formula: string) => formula.includes("VANE.");

/** Every formula cell that holds a call of ours or depends on one, however far. */
function dependents(plan: TemplatePlan): ReadonlySet<string> {
  const formulas = plan.sheets.flatMap((sheet) => sheet.cells.filter(isFormula).map((cell) => ({ sheet, cell })));
  const marked = new Set(
    formulas.filter(({ cell }) => callsOurs(cell.content)).map(({ sheet, cell }) => `${sheet.name}!${cell.at}`),
  );
  for (let grew = true; grew; ) {
    const places = [...marked].map((place) => place.split("!") as [string, string]);
    const before = marked.size;
    for (const { sheet, cell } of formulas) {
      const reads = readsOf(sheet, cell.content);
      const depends = places.some(([name, at]) => reads.some((read) => read.sheet === name && covers(read.range, at)));
      if (depends) marked.add(`${sheet.name}!${cell.at}`);
    }
    grew = marked.size > before;
  }
  return marked;
}

/** The texts of the calls in a formula: `VANE.AIRFLOW.FACE(F9,…)`. */
function callsIn(formula: string): readonly string[] {
  return [...formula.matchAll(/VANE\.[A-Z.]+\(/g)].map((match) => {
    let depth = 0;
    let end = match.index + match[0].length - 1;
    for (; end < formula.length; end += 1) {
      if (formula[end] === "(") depth += 1;
      if (formula[end] === ")") depth -= 1;
      if (depth === 0) break;
    }
    return formula.slice(match.index, end + 1);
  });
}

/** The arguments of a call, split at its own commas. */
function argumentsOf(call: string): readonly string[] {
  const parts = [""];
  let depth = 0;
  for (const letter of call.slice(call.indexOf("(") + 1, -1)) {
    if (letter === "(") depth += 1;
    if (letter === ")") depth -= 1;
    if (letter === "," && depth === 0) parts.push("");
    else parts[parts.length - 1] += letter;
  }
  return parts;
}

/** Functions that read a block and tell its zeros from its blanks by `taken`. */
const readers = cellFunctions.filter(({ parameters }) =>
  ["readings", "pressures", "velocities"].some((block) => parameters.some(({ name }) => name === block)),
);

describe.each(plans)("the template %s", (_, plan, options) => {
  const works = plan.sheets.filter(({ role }) => role !== "notes");

  it("has job details, sheets to fill, and notes with how to fill it, sources and cautions", () => {
    expect(plan.sheets[0]?.role).toBe("job");
    expect(plan.sheets.some(({ role }) => role === "work")).toBe(true);
    const notes = plan.sheets.filter(({ role }) => role === "notes");
    expect(notes).toHaveLength(1);
    const topics = notes.flatMap(({ cells }) => cells.map(({ content }) => content));
    for (const topic of [
      "How to fill it",
      "What is assumed, and from where",
      "Take care",
      "Ladders",
      "Drilling a duct",
      "Fans and motors",
      "Combustion appliances",
      "Old duct tape, wrap and board",
      "What rules",
    ]) {
      expect(topics).toContain(topic);
    }
  });

  it("tells what belongs in every input, and checks it", () => {
    for (const sheet of plan.sheets) {
      const inputs = sheet.cells.filter(({ style }) => STYLES[style].unlocked);
      if (sheet.role !== "notes" && sheet.charts.length === 0) expect(inputs.length).toBeGreaterThan(0);
      const unchecked = inputs.filter(({ at }) => !sheet.validations.some(({ range }) => covers(range, at)));
      expect(unchecked.map(({ at }) => `${sheet.name}!${at}`)).toEqual([]);
    }
  });

  it("keeps the words of a validation as short as a spreadsheet program takes them", () => {
    for (const { input, error } of plan.sheets.flatMap(({ validations }) => validations)) {
      expect(input.title.length).toBeLessThanOrEqual(32);
      expect(error.title.length).toBeLessThanOrEqual(32);
      expect(input.message.length).toBeLessThanOrEqual(255);
      expect(error.message.length).toBeLessThanOrEqual(225);
      expect(input.message).not.toBe("");
      expect(error.message).not.toBe("");
    }
  });

  it("locks every formula, and unlocks nothing but inputs", () => {
    for (const sheet of plan.sheets) {
      const open = sheet.cells.filter((cell) => isFormula(cell) && STYLES[cell.style].unlocked);
      expect(open.map(({ at }) => `${sheet.name}!${at}`)).toEqual([]);
    }
  });

  it("writes each cell once", () => {
    for (const sheet of plan.sheets) {
      const places = sheet.cells.map(({ at }) => at);
      expect(places.length, sheet.name).toBe(new Set(places).size);
    }
  });

  it("lets no call of ours wait for another", () => {
    const marked = dependents(plan);
    const places = [...marked].map((place) => place.split("!") as [string, string]);
    const waiting = works.flatMap((sheet) =>
      sheet.cells.filter(isFormula).flatMap((cell) => {
        if (!callsOurs(cell.content)) return [];
        const reads = readsOf(sheet, cell.content);
        const depends = places.some(([name, at]) =>
          reads.some((read) => read.sheet === name && covers(read.range, at)),
        );
        const nested = callsIn(cell.content).some((call) => call.lastIndexOf("VANE.") > 0);
        return depends || nested ? [`${sheet.name}!${cell.at} ${cell.content}`] : [];
      }),
    );
    expect(waiting).toEqual([]);
  });

  it("gives every call that reads a block the COUNT of the same cells", () => {
    const formulas = works.flatMap((sheet) => sheet.cells.filter(isFormula).map(({ content }) => content));
    const calls = formulas.flatMap(callsIn);
    for (const declaration of readers) {
      const { parameters } = declaration;
      const blockAt = parameters.findIndex(({ name }) => ["readings", "pressures", "velocities"].includes(name));
      const takenAt = parameters.findIndex(({ name }) => name === "taken");
      for (const call of calls.filter((text) => text.startsWith(`${typedName(declaration)}(`))) {
        const given = argumentsOf(call);
        const block = given[blockAt] ?? "";
        // The constant of a single pressure is no block of cells.
        const counted = block === "1" ? "1" : `COUNT(${block})`;
        expect(given[takenAt], call).toBe(counted);
      }
    }
  });

  it("calls only functions that there are", () => {
    const names = new Set(cellFunctions.map((declaration) => `${typedName(declaration)}(`));
    const called = works.flatMap((sheet) =>
      sheet.cells.filter(isFormula).flatMap(({ content }) => content.match(/VANE\.[A-Z.]+\(/g) ?? []),
    );
    for (const name of called) expect(names).toContain(name);
  });

  it("lets a row of a table look at itself and at fixed blocks only, so that rows can be sorted", () => {
    for (const sheet of plan.sheets) {
      for (const table of sheet.tables) {
        const range = parseRange(table.range);
        if (range === undefined) throw new Error(table.range);
        for (const cell of sheet.cells.filter(isFormula)) {
          const position = parseAddress(cell.at);
          if (position === undefined || position.row <= range.firstRow || !covers(table.range, cell.at)) continue;
          const loose = scanFormula(cell.content).filter(
            ({ kind, text }) =>
              kind === "cell" && !/\$\d+$/.test(text) && Number(/\d+$/.exec(text)?.[0]) !== position.row,
          );
          expect(loose, `${sheet.name}!${cell.at}`).toEqual([]);
        }
      }
    }
  });

  it("gives tables distinct headers that stand in their header row", () => {
    for (const sheet of plan.sheets) {
      for (const table of sheet.tables) {
        const names = table.columns.map(({ name }) => name.toLowerCase());
        expect(new Set(names).size).toBe(names.length);
        const row = parseRange(table.range)?.firstRow;
        const headers = sheet.cells.filter(({ at }) => parseAddress(at)?.row === row).map(({ content }) => content);
        expect(headers).toEqual(table.columns.map(({ name }) => name));
      }
    }
  });

  it("names cells that are there", () => {
    for (const { name, refersTo } of plan.names) {
      const [sheetName = "", at = ""] = refersTo.replaceAll("$", "").split("!");
      const sheet = plan.sheets.find((candidate) => candidate.name === sheetName);
      expect(
        sheet?.cells.some((cell) => cell.at === at && STYLES[cell.style].unlocked),
        name,
      ).toBe(true);
    }
  });

  it("prints across, within its area, with its header repeated where it runs over pages", () => {
    for (const { print, cells, name } of plan.sheets) {
      // A traverse has two columns of pages: what was entered with three lines, the result with the others.
      expect(print.orientation, name).toBe(/^Duct traverse(?! notes)/.test(name) ? "portrait" : "landscape");
      const area = parseRange(print.area);
      expect(
        cells.some(({ at }) => area !== undefined && covers(print.area, at)),
        name,
      ).toBe(true);
      if (print.fitToPagesHigh === null) expect(print.repeatedRows, name).not.toBeNull();
    }
  });

  it("says every verdict in a word beside its colour", () => {
    for (const { conditionalFormats } of plan.sheets) {
      for (const format of conditionalFormats) {
        if (format.kind === "word") expect(format.word).toMatch(/^[a-z]+( [a-z]+)?$/);
      }
    }
  });

  it("may stand twice in a workbook: a second copy shares no sheet but the job's, no table, and no cell of the first", () => {
    const second = TEMPLATES[plan.template](" 2", options);
    const own = second.sheets.filter(({ role }) => role !== "job").map(({ name }) => name);
    const first = plan.sheets.map(({ name }) => name);
    expect(own.filter((name) => first.includes(name))).toEqual([]);
    const tables = (of: TemplatePlan) => of.sheets.flatMap((sheet) => sheet.tables.map(({ name }) => name));
    expect(tables(second).filter((name) => tables(plan).includes(name))).toEqual([]);
    const allowed = new Set(second.sheets.map(({ name }) => name));
    for (const sheet of second.sheets) {
      const reads = sheet.cells.filter(isFormula).flatMap(({ content }) => readsOf(sheet, content));
      for (const read of reads) expect(allowed).toContain(read.sheet);
      expect(sheet.name.length).toBeLessThanOrEqual(31);
    }
  });
});
