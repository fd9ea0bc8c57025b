import { type CellFunctionDeclaration, cellFunctions, isWrittenSize } from "../../cells/index.js";
import { formatRange, isInRange } from "../../xlsx/index.js";
import { type BlockText, blockText, pieceOf } from "./block-text.js";
import { checkingUnits, isOmitted, part } from "./formula-text.js";
import { bare, type CallNode, type FormulaNode, nodeText } from "./formula-tree.js";
import { isByValue, takesByValue, takesLists } from "./native-functions.js";
import { piecesOf, scatteredIn } from "./pieces.js";
import type { Area, FormulaPlace, Places } from "./places.js";
import { isOneValue, type Size, sizesIn } from "./sizes.js";
import type { CellArguments, Translation } from "./translation.js";
import { TRANSLATIONS } from "./translations.js";

/** Longest formula that a spreadsheet program takes. */
export const LONGEST_FORMULA = 8192;

const DECLARATIONS: ReadonlyMap<string, CellFunctionDeclaration> = new Map(
  cellFunctions.map((declaration) => [declaration.id, declaration]),
);

/** What a function that goes through a column calls measured: one `taken` then counts all of it. */
const COUNTED = ["after", "velocity", "standardVelocity", "measured", "airflow"];

const UNKNOWN_SIZE = "What an argument refers to is found only while it is calculated.";
const NO_ARRAY = "No plain formula takes these blocks cell by cell.";
const TOO_LONG = "The plain formula would be longer than a cell holds.";
const NO_PLAIN_CALL = "This call has no plain formula.";
const ONE_VALUE = "An argument that takes one value is a block.";
const WRITTEN_SIZE = "A size in it is text, which no plain formula reads. Enter it as a number: 12.5 for 12 1/2.";
const PART_OF_BLOCK = "It goes on calculating with a block of results, which older programs cannot.";

/** A function for which there was no plain text, and why. */
export interface StuckCall {
  readonly id: string;
  readonly reason: string;
}

/** One formula in plain words, or part of it. */
export interface WrittenFormula {
  readonly text: string;
  /** Every call of ours in it. */
  readonly ids: readonly string[];
  readonly stuck: readonly StuckCall[];
  /** Whether only an array formula calculates it. */
  readonly wantsArray: boolean;
}

/** One cell of a block, counted from 0. */
interface BlockCell {
  readonly row: number;
  readonly column: number;
}

/** Where a formula stands and how it is calculated there. */
export interface FormulaSite {
  readonly places: Places;
  readonly place: FormulaPlace;
  /** Whether references to parts of tables stay, by which a table's column finds the cells of each row. */
  readonly keepsTables: boolean;
  /** Whether a block where one value is wanted means the cell of the formula's own row or column. */
  readonly intersects: boolean;
}

/** Excel's own operator for the block that a formula fills. */
export const SPILL_OPERATOR = "#";
const NO_BLOCK = "The file does not say which cells the formula before # fills.";

/** Thrown where a part has no plain text for one of its cells; caught where the call is written. */
class NoTextError extends Error {}

/** Writes parts of one formula plainly. */
export function plainWriter({ places, place, keepsTables, intersects }: FormulaSite) {
  const sizes = sizesIn(places, place);
  const { sizeOf, areaOf } = sizes;
  const ids: string[] = [];
  const stuck: StuckCall[] = [];
  let wantsArray = false;
  let beside: ((row: number, column: number) => string) | undefined;
  const asArray = () => {
    wantsArray = true;
  };

  function spelled({ sheet, range }: Area): string {
    const before = sheet === place.sheet ? "" : `'${sheet.replaceAll("'", "''")}'!`;
    return before + formatRange(range);
  }

  /** The cell of a block in the formula's own row or column. */
  function intersection({ sheet, range }: Area): string | undefined {
    const { row, column } = place;
    if (range.firstRow === range.lastRow && isInRange(range, range.firstRow, column)) {
      return spelled({ sheet, range: cellRange(range.firstRow, column) });
    }
    if (range.firstColumn === range.lastColumn && isInRange(range, row, range.firstColumn)) {
      return spelled({ sheet, range: cellRange(row, range.firstColumn) });
    }
    return undefined;
  }

  function write(node: FormulaNode): string {
    switch (node.kind) {
      case "reference": {
        const text = nodeText(node);
        return keepsTables ? text : (places.withoutTables(text, place) ?? text);
      }
      case "spilled": {
        const area = areaOf(node);
        if (area !== undefined) return spelled(area);
        stuck.push({ id: SPILL_OPERATOR, reason: NO_BLOCK });
        return nodeText(node);
      }
      case "single":
        return oneOf(node.inner);
      case "call":
        return node.id === undefined ? writeNative(node) : writeOurs(node, node.id, null);
      default:
        return writeParts(node, write);
    }
  }

  function writeParts(node: FormulaNode, tell: (node: FormulaNode) => string): string {
    return node.parts.map((piece) => (typeof piece === "string" ? piece : tell(piece))).join("");
  }

  function writeNative(call: CallNode): string {
    return writeParts(call, (argument) => {
      const inner = bare(argument);
      const scattered =
        takesLists(call.name) && inner.kind === "call" && inner.id === undefined
          ? scatteredIn(inner, sizes)
          : undefined;
      if (scattered !== undefined) return scattered.map((item) => write(item).trim()).join(",");
      return isTakenSingly(call, argument) ? single(argument) : write(argument);
    });
  }

  /** In an ordinary cell, a block where one value is wanted is the cell beside the formula. */
  function isTakenSingly(call: CallNode, argument: FormulaNode): boolean {
    return intersects && takesByValue(call.name, call.arguments.indexOf(argument)) === true;
  }

  function single(node: FormulaNode): string {
    const inner = bare(node);
    const area = inner.kind === "reference" && !isOneValue(sizeOf(inner)) ? areaOf(inner) : undefined;
    return (area && intersection(area)) ?? write(node);
  }

  /** What `@` takes. */
  function oneOf(node: FormulaNode): string {
    const inner = bare(node);
    if (isOneValue(sizeOf(inner))) return write(node);
    const area = areaOf(inner);
    const shared = area && inner.kind !== "spilled" ? intersection(area) : undefined;
    if (shared !== undefined) return shared;
    return first(node) ?? write(node);
  }

  function first(node: FormulaNode): string | undefined {
    try {
      return part(cellOf(node, { row: 0, column: 0 }));
    } catch (thrown) {
      if (thrown instanceof NoTextError) return undefined;
      throw thrown;
    }
  }

  /** The text of one cell of a block. */
  function cellOf(node: FormulaNode, at: BlockCell): string {
    const size = sizeOf(node);
    if (size === undefined) throw new NoTextError();
    const row = size.rows === 1 ? 0 : at.row;
    const column = size.columns === 1 ? 0 : at.column;
    if (row >= size.rows || column >= size.columns) throw new NoTextError();
    switch (node.kind) {
      case "literal":
      case "omitted":
      case "single":
        return write(node);
      case "constants":
        return node.rows[row]?.[column] ?? "";
      case "group":
        return `(${cellOf(node.inner, at)})`;
      case "operation":
        return writeParts(node, (operand) => cellOf(operand, at));
      case "reference":
      case "spilled":
        return cellOfReference(node, size, { row, column });
      case "call":
        return node.id === undefined ? cellOfNative(node, size, at) : writeOurs(node, node.id, { row, column });
      default:
        throw new NoTextError();
    }
  }

  function cellOfReference(node: FormulaNode, size: Size, { row, column }: BlockCell): string {
    if (isOneValue(size)) return write(node);
    const area = areaOf(node);
    const text = write(node).trim();
    const isName = area !== undefined && node.kind === "reference" && places.areaOf(text, place) === undefined;
    if (area === undefined || isName) return `INDEX(${text},${row + 1},${column + 1})`;
    const { firstRow, firstColumn } = area.range;
    return spelled({ sheet: area.sheet, range: cellRange(firstRow + row, firstColumn + column) });
  }

  function cellOfNative(call: CallNode, size: Size, at: BlockCell): string {
    if (isOneValue(size)) return write(call);
    const { name, arguments: given } = call;
    if (name === "TRANSPOSE" && given[0] !== undefined) {
      return cellOf(given[0], { row: at.column, column: at.row });
    }
    if (name === "CHOOSE" && given[0] !== undefined) {
      const chosen = given[Number(cellOf(given[0], at))];
      if (chosen === undefined) throw new NoTextError();
      return cellOf(chosen, at);
    }
    if (name === "HSTACK" || name === "VSTACK") return cellOfStack(call, at);
    if (isByValue(name)) return writeParts(call, (argument) => cellOf(argument, at));
    if (!given.some((_, index) => takesByValue(name, index) === true)) throw new NoTextError();
    return writeParts(call, (argument) =>
      takesByValue(name, given.indexOf(argument)) === true ? cellOf(argument, at) : write(argument),
    );
  }

  function cellOfStack(call: CallNode, at: BlockCell): string {
    const isAcross = call.name === "HSTACK";
    let left = isAcross ? at.column : at.row;
    for (const argument of call.arguments) {
      const size = sizeOf(argument);
      const length = isAcross ? size?.columns : size?.rows;
      if (length === undefined) break;
      if (left < length) return cellOf(argument, isAcross ? { ...at, column: left } : { ...at, row: left });
      left -= length;
    }
    throw new NoTextError();
  }

  /** A call of ours in brackets; empty where it has no plain text, which is then noted. */
  function writeOurs(call: CallNode, id: string, at: BlockCell | null): string {
    ids.push(id);
    const before = stuck.length;
    const declaration = DECLARATIONS.get(id);
    const translation = TRANSLATIONS[id];
    let text: string | null = null;
    let reason = NO_PLAIN_CALL;
    if (translation?.kind === "value") {
      reason = translation.reason;
      for (const argument of call.arguments) write(argument);
    } else if (declaration !== undefined && translation !== undefined) {
      try {
        text = built(call, declaration, translation, at);
      } catch (thrown) {
        if (!(thrown instanceof NoTextError)) throw thrown;
        reason = thrown.message || UNKNOWN_SIZE;
      }
    }
    // What is too long already grows with every call around it.
    if (text !== null && text.length > LONGEST_FORMULA) {
      text = null;
      reason = TOO_LONG;
    }
    if (text === null && (stuck.length === before || reason !== NO_PLAIN_CALL)) stuck.push({ id, reason });
    return `(${text ?? ""})`;
  }

  function built(
    call: CallNode,
    declaration: CellFunctionDeclaration,
    translation: Exclude<Translation, { readonly kind: "value" }>,
    at: BlockCell | null,
  ): string | null {
    const given = argumentsOf(call, declaration, translation, at);
    const takesUnits = declaration.parameters.some(({ name }) => name === "units");
    const whole = takesUnits ? given.text("units") : "";
    if (translation.kind === "cells") {
      if (at === null) throw new NoTextError(PART_OF_BLOCK);
      const text = translation.build(given, at.row, at.column);
      return text === null || !takesUnits ? text : checkingUnits(whole, text);
    }
    const text = translation.build(given);
    if (text === null && declaration.parameters.some(({ name }) => given.isBlock(name)))
      throw new NoTextError(NO_ARRAY);
    return text === null || !takesUnits ? text : checkingUnits(whole, text);
  }

  function argumentsOf(
    call: CallNode,
    declaration: CellFunctionDeclaration,
    translation: Exclude<Translation, { readonly kind: "value" }>,
    at: BlockCell | null,
  ): CellArguments {
    const indexOf = (name: string) => {
      const index = declaration.parameters.findIndex((parameter) => parameter.name === name);
      if (index < 0) throw new Error(`${declaration.id} has no parameter ${name}.`);
      return index;
    };
    const blocks = translation.kind === "plain" ? translation.blocks : [];
    const nodeOf = (name: string) => call.arguments[indexOf(name)] ?? OMITTED;
    const sizeOfArgument = (name: string): Size => {
      const size = sizeOf(nodeOf(name));
      if (size === undefined) throw new NoTextError(UNKNOWN_SIZE);
      return size;
    };
    const oneText = (name: string): string => {
      const node = nodeOf(name);
      if (isOneValue(sizeOfArgument(name))) return write(node).trim();
      if (intersects && declaration.parameters[indexOf(name)]?.isBlock === false) {
        const area = areaOf(node);
        const shared = area && intersection(area);
        if (shared !== undefined) return shared;
      }
      if (declaration.returnsBlock && declaration.parameters[indexOf(name)]?.isBlock === false) {
        throw new NoTextError(ONE_VALUE);
      }
      if (at !== null && translation.kind === "plain") return cellOf(node, at).trim();
      asArray();
      return write(node).trim();
    };
    const blockOf = (node: FormulaNode): BlockText => {
      const pieces = piecesOf(node, sizes, write);
      if (pieces === undefined) throw new NoTextError(UNKNOWN_SIZE);
      if (pieces.some(({ kind }) => kind === "array")) asArray();
      return blockText(pieces, asArray);
    };
    /** One `taken` beside a column says of each 0 whether it was read, where it agrees with all of them or with none. */
    const takenText = (): string => {
      const taken = oneText("taken");
      const counted = COUNTED.find((name) => declaration.parameters.some((parameter) => parameter.name === name));
      if (isOmitted(taken) || counted === undefined || blocks.length > 0) return taken;
      if (!isOneValue(sizeOfArgument("taken")) || isOneValue(sizeOfArgument(counted))) return taken;
      const { nonZero, countable } = blockOf(nodeOf(counted));
      const t = part(taken);
      return `IF(${t}=${nonZero},0,IF(${t}=${countable},1,VALUE("wrong input")))`;
    };
    /** A size, refused where its cell holds it as text. */
    const asNumber = (name: string, text: string): string => {
      const role = declaration.parameters[indexOf(name)]?.role;
      if (keepsTables || !(role === "width" || role === "height" || SIZE_BLOCKS.includes(name))) return text;
      const area = places.areaOf(text, place) ?? areaOf(nodeOf(name));
      const isText = area === undefined ? isWrittenLiteral(text) : places.holdsWrittenSize(area);
      if (isText) throw new NoTextError(WRITTEN_SIZE);
      return text;
    };
    const text = (name: string) => {
      if (blocks.includes(name)) return write(nodeOf(name)).trim();
      return name === "taken" && translation.kind === "plain" ? takenText() : asNumber(name, oneText(name));
    };
    const isCountOf = (node: FormulaNode, block: BlockText): boolean => {
      const count = bare(node);
      if (count.kind !== "call" || count.name !== "COUNT") return false;
      const pieces = count.arguments.map((argument) => piecesOf(argument, sizes, write));
      if (pieces.includes(undefined)) return false;
      const plain = (list: BlockText["pieces"]) =>
        list.map((piece) => piece.text.replaceAll(/[\s$]/g, "").toUpperCase()).join(",");
      return plain(pieces.flatMap((list) => list ?? [])) === plain(block.pieces);
    };
    return {
      text,
      block: (name) => blockOf(nodeOf(name)),
      isBlock: (name) => !blocks.includes(name) && at === null && !isOneValue(sizeOfArgument(name)),
      isCountOf: (name, block) => isCountOf(nodeOf(name), block),
      isGiven: (name) => !isOmitted(nodeText(bare(nodeOf(name))).trim()),
      at: (name, row, column) => asNumber(name, cellOf(nodeOf(name), { row, column }).trim()),
      size: sizeOfArgument,
      rowOf: (name, row) => {
        const node = bare(nodeOf(name));
        const { columns } = sizeOfArgument(name);
        const area = areaOf(node);
        if (area !== undefined) {
          const { firstRow, firstColumn, lastColumn } = area.range;
          const line = { firstRow: firstRow + row, lastRow: firstRow + row, firstColumn, lastColumn };
          const kind = columns === 1 ? "cell" : "cells";
          return blockText([{ kind, text: spelled({ sheet: area.sheet, range: line }), rows: 1, columns }], asArray);
        }
        const cells = Array.from({ length: columns }, (_, column) => cellOf(node, { row, column }).trim());
        return blockText(cells.map(pieceOf), asArray);
      },
      shown: (row, column) => beside?.(row, column),
    };
  }

  return {
    sizeOf,
    /** Writes the whole formula, in which blocks may be taken value by value. */
    whole(root: FormulaNode): WrittenFormula {
      const text = write(root);
      return { text, ids, stuck, wantsArray };
    },
    /**
     * Writes what one cell of the block shows that the formula gives; undefined where no formula does.
     *
     * @param placed - Where the block's other cells stand, where each has a formula of its own
     */
    cell(
      root: FormulaNode,
      row: number,
      column: number,
      placed?: (row: number, column: number) => string,
    ): WrittenFormula | undefined {
      beside = bare(root).kind === "call" ? placed : undefined;
      try {
        const text = cellOf(root, { row, column });
        return { text, ids, stuck, wantsArray };
      } catch (thrown) {
        if (thrown instanceof NoTextError) return undefined;
        throw thrown;
      }
    },
  };
}

/** Arguments that hold widths and heights of many openings. */
const SIZE_BLOCKS: readonly string[] = ["sizes", "heights"];

/** Whether an argument is a size in quotes. */
function isWrittenLiteral(text: string): boolean {
  return text.startsWith('"') && isWrittenSize(text.slice(1, -1).replaceAll('""', '"'));
}

const OMITTED: FormulaNode = { kind: "omitted", parts: [] };

function cellRange(row: number, column: number) {
  return { firstRow: row, lastRow: row, firstColumn: column, lastColumn: column };
}
