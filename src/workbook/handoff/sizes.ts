import { cellFunctions } from "../../cells/index.js";
import { bare, type CallNode, type FormulaNode, nodeText, readFormulaTree } from "./formula-tree.js";
import { givesOneValue, isByValue, takesByValue } from "./native-functions.js";
import type { Area, FormulaPlace, Places } from "./places.js";
import { TRANSLATIONS } from "./translations.js";

/** How many rows and columns a part of a formula gives. */
export interface Size {
  readonly rows: number;
  readonly columns: number;
}

const ONE: Size = { rows: 1, columns: 1 };

export function isOneValue(size: Size | undefined): boolean {
  return size?.rows === 1 && size.columns === 1;
}

/** Names stand for other names at most so deep. */
const DEEPEST_NAME = 8;

const PARAMETERS = new Map(cellFunctions.map(({ id, parameters }) => [id, parameters.map(({ name }) => name)]));

/** What operators and functions make of blocks of these sizes: undefined where one is not known. */
function together(sizes: readonly (Size | undefined)[]): Size | undefined {
  if (sizes.includes(undefined)) return undefined;
  const known = sizes as readonly Size[];
  return {
    rows: Math.max(1, ...known.map(({ rows }) => rows)),
    columns: Math.max(1, ...known.map(({ columns }) => columns)),
  };
}

function whole(node: FormulaNode | undefined): number | undefined {
  if (node === undefined) return undefined;
  const inner = bare(node);
  const number = inner.kind === "literal" ? Number(nodeText(inner)) : Number.NaN;
  return Number.isInteger(number) ? number : undefined;
}

/** Tells the sizes of the parts of one formula, by what they refer to. */
export interface Sizes {
  sizeOf(node: FormulaNode): Size | undefined;
  /** The cells that a node stands for, names and blocks of other formulas resolved. */
  areaOf(node: FormulaNode): Area | undefined;
}

export function sizesIn(places: Places, place: FormulaPlace): Sizes {
  const known = new Map<FormulaNode, Size | undefined>();

  function areaOf(node: FormulaNode, depth = 0): Area | undefined {
    const inner = bare(node);
    if (inner.kind === "spilled") {
      const anchor = areaOf(inner.inner, depth);
      const range = anchor && places.filledFrom(anchor);
      return anchor && range && { sheet: anchor.sheet, range };
    }
    if (inner.kind !== "reference") return undefined;
    const text = places.withoutTables(nodeText(inner), place);
    if (text === undefined) return undefined;
    const area = places.areaOf(text, place);
    if (area !== undefined || depth > DEEPEST_NAME) return area;
    const refersTo = places.named(text, place.sheet);
    return refersTo === undefined ? undefined : areaOf(readFormulaTree(refersTo), depth + 1);
  }

  function sizeOfReference(node: FormulaNode, depth: number): Size | undefined {
    const area = areaOf(node);
    if (area !== undefined) {
      const { firstRow, lastRow, firstColumn, lastColumn } = area.range;
      return { rows: lastRow - firstRow + 1, columns: lastColumn - firstColumn + 1 };
    }
    const refersTo = places.named(nodeText(node).trim(), place.sheet);
    return refersTo === undefined || depth > DEEPEST_NAME ? undefined : measured(readFormulaTree(refersTo), depth + 1);
  }

  function sizeOfOurs(call: CallNode, id: string): Size | undefined {
    const translation = TRANSLATIONS[id];
    const names = PARAMETERS.get(id) ?? [];
    const argument = (name: string) => call.arguments[names.indexOf(name)];
    if (translation?.kind === "cells") {
      const rows = argument(translation.rowsOf);
      const size = rows && sizeOf(rows);
      if (size === undefined) return undefined;
      return { rows: size.rows, columns: translation.columns === "same" ? size.columns : translation.columns };
    }
    const blocks = translation?.kind === "plain" ? translation.blocks : [];
    return together(call.arguments.filter((_, index) => !blocks.includes(names[index] ?? "")).map(sizeOf));
  }

  function sizeOfIndex(call: CallNode): Size | undefined {
    const [block, row, column] = call.arguments;
    const size = block && sizeOf(block);
    if (size === undefined || row === undefined || !isOneValue(sizeOf(row))) return undefined;
    if (column !== undefined && !isOneValue(sizeOf(column))) return undefined;
    const isLine = size.rows === 1 || size.columns === 1;
    const takesAll = (node: FormulaNode) => bare(node).kind === "omitted" || whole(node) === 0;
    if (column === undefined) return isLine && !takesAll(row) ? ONE : undefined;
    return {
      rows: takesAll(row) ? size.rows : 1,
      columns: takesAll(column) ? size.columns : 1,
    };
  }

  function sizeOfOffset(call: CallNode): Size | undefined {
    const [start, , , height, width] = call.arguments;
    const size = start && sizeOf(start);
    const told = (node: FormulaNode | undefined, usual: number | undefined) =>
      node === undefined || bare(node).kind === "omitted" ? usual : whole(node);
    const [rows, columns] = [told(height, size?.rows), told(width, size?.columns)];
    return rows === undefined || columns === undefined ? undefined : { rows, columns };
  }

  function sizeOfStack(call: CallNode, isAcross: boolean): Size | undefined {
    const sizes = call.arguments.map(sizeOf);
    const largest = together(sizes);
    if (largest === undefined) return undefined;
    const sum = (count: (size: Size) => number) => (sizes as Size[]).reduce((total, size) => total + count(size), 0);
    return isAcross
      ? { rows: largest.rows, columns: sum(({ columns }) => columns) }
      : { rows: sum(({ rows }) => rows), columns: largest.columns };
  }

  function sizeOfNative(call: CallNode): Size | undefined {
    const { name, arguments: given } = call;
    const [first] = given;
    if (givesOneValue(name)) return ONE;
    if (isByValue(name)) return together(given.map(sizeOf));
    if (name === "CHOOSE") {
      const index = first && sizeOf(first);
      const chosen = isOneValue(index) ? whole(first) : undefined;
      const only = chosen === undefined ? undefined : given[chosen];
      return only === undefined ? together(given.map(sizeOf)) : sizeOf(only);
    }
    if (name === "INDEX") return sizeOfIndex(call);
    if (name === "OFFSET") return sizeOfOffset(call);
    if (name === "HSTACK") return sizeOfStack(call, true);
    if (name === "VSTACK") return sizeOfStack(call, false);
    if (name === "TRANSPOSE") {
      const size = first && sizeOf(first);
      return size && { rows: size.columns, columns: size.rows };
    }
    if (name === "N" || name === "T") return ONE;
    if (name === "ROW" || name === "COLUMN") {
      const size = first === undefined ? ONE : sizeOf(first);
      return size && (name === "ROW" ? { rows: size.rows, columns: 1 } : { rows: 1, columns: size.columns });
    }
    const byValue = given.filter((_, index) => takesByValue(name, index) === true);
    if (byValue.length > 0) return together(byValue.map(sizeOf));
    // Nothing is known of the function: with one value each, it gives one, as nearly all do.
    const isSimple = given.every((argument) => isOneValue(sizeOf(argument)));
    return isSimple && !["INDIRECT", "SEQUENCE", "FILTER", "RANDARRAY", "LET", "LAMBDA"].includes(name)
      ? ONE
      : undefined;
  }

  function measured(node: FormulaNode, depth = 0): Size | undefined {
    switch (node.kind) {
      case "literal":
      case "omitted":
      case "single":
        return ONE;
      case "constants":
        return { rows: node.rows.length, columns: node.rows[0]?.length ?? 1 };
      case "group":
        return measured(node.inner, depth);
      case "operation":
        return together(node.operands.map((operand) => measured(operand, depth)));
      case "reference":
      case "spilled":
        return sizeOfReference(node, depth);
      case "call":
        return node.id === undefined ? sizeOfNative(node) : sizeOfOurs(node, node.id);
      default:
        return undefined;
    }
  }

  function sizeOf(node: FormulaNode): Size | undefined {
    if (!known.has(node)) known.set(node, measured(node));
    return known.get(node);
  }

  return { sizeOf, areaOf: (node) => areaOf(node) };
}
