import { part } from "./formula-text.js";

/**
 * A piece of a block, as formula text.
 *
 * cells: a reference to several cells, or to a number of cells that is known only while it is calculated; cell: a
 * reference to one; number: a constant; value: an expression that gives one value; array: one that gives several.
 */
export interface BlockPiece {
  readonly kind: "cells" | "cell" | "number" | "value" | "array";
  readonly text: string;
  /** How many rows and columns, where that is known. */
  readonly rows?: number;
  readonly columns?: number;
}

/**
 * What a plain formula can say of a block of cells, scattered ones included.
 *
 * Nothing in it needs array evaluation, which some programs do not do inside an ordinary cell, but for pieces that are
 * arrays and for `rootSum` over a range: those say so by `wantsArray`.
 */
export interface BlockText {
  readonly pieces: readonly BlockPiece[];
  readonly sum: string;
  /** How many cells hold a number. */
  readonly count: string;
  readonly cells: string;
  /** How many cells hold a number other than 0. */
  readonly nonZero: string;
  /** How many cells hold text that is not empty, a truth value or an error: true where it is above 0. */
  readonly holdsText: string;
  /** How many cells hold a number, a 0 or nothing: what a COUNT of them may come to. */
  readonly countable: string;
  /** The least number; undefined where a piece is no reference. */
  readonly minimum: string | undefined;
  /** The arguments of a statistic, such as STDEV; undefined where a piece is no reference. */
  readonly list: string | undefined;
  /** The largest number, 0 where none is above it. */
  readonly largest: string;
  countAbove(limit: string): string;
  readonly countBelowZero: string;
  /**
   * The sum of the square roots of the numbers, those below 0 as 0.
   *
   * @param of - What is taken the root of, by the text of a number of 0 or more; that number itself where left out
   */
  rootSum(of?: (number: string) => string): string;
}

type Told = string | number;

/** A sum of texts and numbers; the numbers are added up at once. */
function total(terms: readonly Told[]): string {
  const constant = terms.reduce<number>((sum, term) => (typeof term === "number" ? sum + term : sum), 0);
  const texts = terms.filter((term) => typeof term === "string");
  const all = constant === 0 && texts.length > 0 ? texts : [...texts, String(constant)];
  return all.join("+");
}

const isReference = ({ kind }: BlockPiece) => kind === "cells" || kind === "cell";

/** An argument of SUM: text that stands directly in a call would be an error there. */
function addend({ kind, text }: BlockPiece): string {
  return kind === "value" ? `N(${text})` : text;
}

const whereNumber = (text: string, condition: string) => `IF(ISNUMBER(${text}),IF(${part(text)}${condition},1,0),0)`;

const CELL = /^(?:'(?:[^']|'')+'!|[\p{L}\p{N}_.]+!)?\$?[A-Z]{1,3}\$?\d+$/iu;
const NUMBER = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/;

/** One value as a piece of a block, by its text. */
export function pieceOf(text: string): BlockPiece {
  if (NUMBER.test(text)) return { kind: "number", text };
  return { kind: CELL.test(text) ? "cell" : "value", text };
}

/**
 * Says a block in plain formulas.
 *
 * @param wantsArray - Called when a text is taken that only an array formula calculates
 */
export function blockText(pieces: readonly BlockPiece[], wantsArray: () => void): BlockText {
  const inArray = (text: string) => {
    wantsArray();
    return text;
  };
  const each = (tell: (piece: BlockPiece) => Told) => total(pieces.map(tell));
  const counting = (condition: string, criterion: string) => (piece: BlockPiece) => {
    const { kind, text } = piece;
    if (isReference(piece)) return `COUNTIF(${text},${criterion})`;
    const counted = whereNumber(text, condition);
    return kind === "array" ? inArray(`SUM(${counted})`) : counted;
  };
  const cellsIn = ({ kind, text }: BlockPiece) =>
    kind === "cells" || kind === "array" ? `ROWS(${text})*COLUMNS(${text})` : 1;
  const blanksIn = ({ kind, text }: BlockPiece) => {
    if (kind === "number") return 0;
    if (kind === "value") return `IF(LEN(${text})=0,1,0)`;
    return kind === "array" ? inArray(`SUM(IF(LEN(${text})=0,1,0))`) : `COUNTBLANK(${text})`;
  };
  /** Cells that hold anything but a number: text of no length, where nothing else has been refused. */
  const textsIn = ({ kind, text }: BlockPiece) => {
    if (kind === "number") return 0;
    if (kind === "value") return `IF(ISNUMBER(${text}),0,1)`;
    return kind === "array" ? inArray(`SUM(IF(ISNUMBER(${text}),0,1))`) : `COUNTA(${text})-COUNT(${text})`;
  };
  const nonZeroIn = (piece: BlockPiece) => {
    const { kind, text } = piece;
    if (kind === "number") return Number(text) === 0 ? 0 : 1;
    if (isReference(piece)) return `COUNTIF(${text},">0")+COUNTIF(${text},"<0")`;
    return counting("<>0", '"<>0"')(piece);
  };
  const countOf = () => {
    const values = pieces.filter(({ kind }) => kind === "value").map(({ text }) => `IF(ISNUMBER(${text}),1,0)`);
    const others = pieces.filter(({ kind }) => kind !== "value").map(({ text }) => text);
    return total([...(others.length > 0 ? [`COUNT(${others.join(",")})`] : []), ...values]);
  };
  const rootIn =
    (of: (number: string) => string) =>
    (piece: BlockPiece): string => {
      const { kind, text } = piece;
      if (kind === "cells" || kind === "array") {
        const own = of(`((${text}>0)*${part(text)})`);
        return inArray(`SUM(IF(ISNUMBER(${text}),IF(${own}>0,SQRT(ABS(${own})),0),0))`);
      }
      const root = `SQRT(MAX(0,${of(`MAX(0,${kind === "value" ? `N(${text})` : text})`)}))`;
      return kind === "number" ? root : `IF(ISNUMBER(${text}),${root},0)`;
    };
  const minus = (texts: string) => (texts === "0" ? "" : `-(${texts})`);
  const list = pieces.map(({ text }) => text).join(",");
  const isPlainList = pieces.every((piece) => isReference(piece) || piece.kind === "number");
  return {
    pieces,
    get sum() {
      return `SUM(${pieces.map(addend).join(",")})`;
    },
    get count() {
      return countOf();
    },
    get cells() {
      return each(cellsIn);
    },
    get nonZero() {
      return each(nonZeroIn);
    },
    get holdsText() {
      return `${each(cellsIn)}${minus(each(blanksIn))}>${countOf()}`;
    },
    get countable() {
      return `${each(cellsIn)}${minus(each(textsIn))}`;
    },
    minimum: isPlainList ? `MIN(${list})` : undefined,
    list: isPlainList ? list : undefined,
    get largest() {
      return `MAX(0,${pieces.map(addend).join(",")})`;
    },
    countAbove: (limit) => each(counting(`>${limit}`, `">"&${limit}`)),
    get countBelowZero() {
      return each(counting("<0", '"<0"'));
    },
    rootSum: (of = (number) => number) => each(rootIn(of)),
  };
}
