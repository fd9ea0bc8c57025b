import { moveFormula, type Workbook, type WorkbookEdit } from "../../xlsx/index.js";
import { placeOf, readPart } from "../../xlsx/package/read-part.js";
import { readXml } from "../../xlsx/xml/read-xml.js";
import { type Splice, spliceBytes } from "../../xlsx/xml/splice.js";
import { escapeXml } from "../../xlsx/xml/text.js";
import { type FormulaNode, nodesIn, nodeText, readFormulaTree } from "./formula-tree.js";
import { calledIn, handoffFormula } from "./handoff-formula.js";
import type { FormulaPlace, Places } from "./places.js";
import { isOneValue, sizesIn } from "./sizes.js";

/** A name whose formula calls our functions, and why it keeps them; no reasons where it is a plain one now. */
export interface HandoffName {
  readonly name: string;
  /** "" for one of the whole workbook. */
  readonly sheet: string;
  readonly functions: readonly string[];
  readonly reasons: readonly string[];
}

/** A formula with its names written out, or the names that cannot be. */
export type WrittenOut =
  | { readonly kind: "formula"; readonly formula: string }
  | { readonly kind: "stuck"; readonly ids: readonly string[]; readonly reason: string };

/** Names within names that are still followed; a name that leads back to itself has no result anyway. */
const DEEPEST = 16;

/** A name by itself, or behind the name of its sheet: `Flow`, `'Floor 1'!Flow`. */
const NAME = /^(?:(?:'((?:[^']|'')+)'|([^'![\]:]+))!)?([^'![\]:]+)$/u;

/** Names of its own, which may be spelled like one of the workbook. */
const HAS_OWN_NAMES = /\b(?:LET|LAMBDA)\(/i;

interface Definition {
  readonly formula: string;
  readonly name: string;
  readonly sheet: string;
}

/** Knows the names of a workbook that stand for a formula with one of our functions, straight or through other names. */
export function callingNamesIn(workbook: Workbook, places: Places) {
  const definitionOf = (text: string, sheet: string): Definition | undefined => {
    const [, quoted, plain, name] = NAME.exec(text.trim()) ?? [];
    if (name === undefined) return undefined;
    const home = quoted?.replaceAll("''", "'") ?? plain ?? sheet;
    const formula = places.named(name, home);
    return formula === undefined ? undefined : { formula, name, sheet: home };
  };
  const namesIn = (formula: string, sheet: string): readonly Definition[] =>
    nodesIn(readFormulaTree(formula)).flatMap((node) =>
      node.kind === "reference" ? (definitionOf(nodeText(node), sheet) ?? []) : [],
    );
  const calls = new Map<string, readonly string[]>();
  /** The functions that a name calls in the end. */
  function functionsOf({ formula, name, sheet }: Definition, depth: number): readonly string[] {
    const key = `${sheet}!${name}`.toLowerCase();
    const known = calls.get(key);
    if (known !== undefined || depth > DEEPEST) return known ?? [];
    calls.set(key, []);
    const found = [...calledIn(formula), ...namesIn(formula, sheet).flatMap((inner) => functionsOf(inner, depth + 1))];
    calls.set(key, [...new Set(found)]);
    return calls.get(key) ?? [];
  }
  const calling = workbook.names.filter(
    ({ name, sheet, refersTo }) => functionsOf({ name, sheet: sheet ?? "", formula: refersTo }, 0).length > 0,
  );
  const spellings = new Set(calling.map(({ name }) => name.toLowerCase()));

  function writtenIn(node: FormulaNode, place: FormulaPlace, depth: number): string {
    const definition = node.kind === "reference" ? definitionOf(nodeText(node), place.sheet) : undefined;
    if (definition === undefined || functionsOf(definition, 0).length === 0 || depth > DEEPEST) {
      return node.parts.map((part) => (typeof part === "string" ? part : writtenIn(part, place, depth))).join("");
    }
    // Its references are kept as seen from the first cell of a sheet.
    const moved = moveFormula(definition.formula, place.row - 1, place.column - 1);
    return `(${writtenIn(readFormulaTree(moved), { ...place, sheet: definition.sheet }, depth + 1)})`;
  }

  function stuck(used: readonly Definition[]): WrittenOut {
    const ids = used.flatMap((definition) => functionsOf(definition, 0));
    const reason = `It calls them through the name ${used.map(({ name }) => name).join(", ")}, which cannot be written out here.`;
    return { kind: "stuck", ids, reason };
  }

  /** The formula of a cell with such names written out; undefined where it has none. */
  function writtenOut(formula: string, place: FormulaPlace): WrittenOut | undefined {
    if (spellings.size === 0) return undefined;
    const used = namesIn(formula, place.sheet).filter((definition) => functionsOf(definition, 0).length > 0);
    if (used.length === 0) return undefined;
    if (HAS_OWN_NAMES.test(formula)) return stuck(used);
    const written = writtenIn(readFormulaTree(formula), place, 0);
    // A reference that leaves the sheet begins again at its other end, which no text says.
    const isLost = written.split("#REF!").length > formula.split("#REF!").length;
    return isLost ? stuck(used) : { kind: "formula", formula: written };
  }

  /** The names themselves: plain formulas where a name can hold one. */
  function handedOff(): { readonly names: readonly HandoffName[]; readonly edits: readonly WorkbookEdit[] } {
    if (calling.length === 0) return { names: [], edits: [] };
    const plain = new Map<string, string>();
    const names = calling.map(({ name, sheet = "", refersTo }): HandoffName => {
      const place = { sheet: sheet || (workbook.sheets[0]?.name ?? ""), row: 1, column: 1 };
      const handoff = handoffFormula(refersTo, {
        places,
        place,
        form: "dynamic",
        fills: undefined,
        keepsTables: false,
      });
      if (handoff.kind === "unchanged") return { name, sheet, functions: [], reasons: [] };
      if (handoff.kind === "value") return { name, sheet, functions: handoff.functions, reasons: handoff.reasons };
      const size = sizesIn(places, place).sizeOf(readFormulaTree(refersTo));
      if (handoff.isArray || !isOneValue(size))
        return { name, sheet, functions: handoff.functions, reasons: [NEEDS_BLOCK] };
      plain.set(`${sheet}!${name}`.toLowerCase(), handoff.formula);
      return { name, sheet, functions: handoff.functions, reasons: [] };
    });
    return { names: names.filter(({ functions }) => functions.length > 0), edits: namesEdit(workbook, plain) };
  }

  return { writtenOut, handedOff };
}

export type CallingNames = ReturnType<typeof callingNamesIn>;

const NEEDS_BLOCK = "A name calculates no block in every program.";

/** Changes what names stand for, in the part that lists them. */
function namesEdit(workbook: Workbook, plain: ReadonlyMap<string, string>): readonly WorkbookEdit[] {
  if (plain.size === 0) return [];
  const { archive, workbookPart, names } = workbook;
  const part = readPart(archive, workbookPart);
  const splices: Splice[] = [];
  let inList = false;
  let index = 0;
  let from = -1;
  readXml(part, placeOf(archive, workbookPart), {
    open(name, _attributes, depth, _start, end) {
      if (depth === 2) inList = name === "definedNames";
      if (depth === 3 && inList) from = end;
    },
    close(_name, depth, start) {
      if (depth !== 3 || from < 0) return;
      const known = names[index];
      const formula = known && plain.get(`${known.sheet ?? ""}!${known.name}`.toLowerCase());
      if (formula !== undefined) splices.push({ start: from, end: start, text: escapeXml(formula) });
      index += 1;
      from = -1;
    },
  });
  return [{ kind: "part", partName: workbookPart, content: spliceBytes(part, splices) }];
}
