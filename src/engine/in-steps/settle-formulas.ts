import { ownWords } from "../own-words.js";
import { inOneGo } from "./in-one-go.js";
import type { InsidePlace, InsideRange } from "./library-inside.js";
import { blockOfPlaces, firstPlace, lookedAtPlaces, type ReferringFormula } from "./looked-at-places.js";

/** What a cell that depends on itself shows, as the library calls it. */
const CIRCLE = "#CYCLE";

/** Formulas that are calculated one within the other; some twelve times as many end the stack. */
const MOST_AT_ONCE = 100;

interface FormulaCell {
  readonly id: number;
  readonly compiledFormula: ReferringFormula;
}

interface Result {
  readonly value: unknown;
}

interface Reading {
  ensureRange(range: InsideRange): readonly (readonly Result[])[];
  referenceDenormalizer(range: InsideRange): unknown;
  readonly evalContext: { __originCellPosition?: unknown; __originSheetId?: unknown };
}

/** The library's calculation, as far as it follows what a formula reads. */
export interface SettledEvaluator {
  readonly getters: {
    getSheetZone(sheetId: string): InsideRange["zone"];
    getCell(place: InsidePlace): { readonly id: number } | undefined;
  };
  readonly evaluatedCells: { has(place: InsidePlace): boolean; set(place: InsidePlace, cell: Result): void };
  readonly compilationParams: Reading;
  readonly cellsBeingComputed: Set<number>;
  computeCell(place: InsidePlace): Result;
  computeFormulaCell(place: InsidePlace, cell: FormulaCell): Result;
  updateCompilationParameters(): void;
  assertSheetHasEnoughSpaceToSpreadFormulaResult(place: InsidePlace, result: unknown): void;
}

/** Calculates a cell, and what it waits for, in steps. */
export type SettleInSteps = (place: InsidePlace) => Generator<undefined, Result>;

/** A formula that is being calculated, or a block that one reads; or one that was, and lies in a circle. */
interface Settling {
  /** The formula's place; undefined for a block. */
  readonly place: InsidePlace | undefined;
  /** The library's number of the formula's cell, or the key of the block. */
  readonly id: number | string;
  readonly depth: number;
  /** How far out those go that it reads and that wait for it; infinite where there are none. */
  outermost: number;
  isOpen: boolean;
  /** What is further out and in a circle with it. */
  within: Settling | undefined;
  /** The block that a formula was reading when it had to wait. */
  left: Settling | undefined;
}

const keyOf = ({ sheetId, zone: { top, left, bottom, right } }: InsideRange) =>
  `${sheetId} ${left} ${top} ${right} ${bottom}`;

const circle = () => ({ value: CIRCLE, message: ownWords("Circular reference") });

/**
 * Makes the library's calculation settle every formula as a file's is settled.
 *
 * The library tells the first formula alone that meets itself; the others calculate with that error, which a count leaves
 * out and a search passes over, so that they show a number. Here all that depend on themselves show it (by Tarjan's
 * strongly connected components), and none that only asks where its own cell lies. The library calculates what a formula
 * reads within its calculation, until the stack ends and the results are errors: here one that is deep in others is taken
 * first, and those are begun again after it. And formulas that stand in a block that they read make it anew for each
 * other: here a block that is being made is not made again, since who asks for it meanwhile is needed for it.
 *
 * @returns What calculates a cell in steps; nothing else may be calculated before the last one
 */
export function settleFormulas(evaluator: SettledEvaluator): SettleInSteps {
  /** Formulas that wait for one another, and the blocks that they read, the outermost first. */
  const open: Settling[] = [];
  const openById = new Map<number | string, Settling>();
  /** What is in a circle with one that is open. */
  const circled = new Map<number | string, Settling>();
  let depthOfStack = 0;
  let places: ReadonlySet<InsideRange> | undefined;
  /** The formula that is to be taken before those that the stack is left for. */
  let first: InsidePlace | undefined;
  let resumed: Settling | undefined;

  const computeCell = evaluator.computeCell.bind(evaluator);
  const computeFormulaCell = evaluator.computeFormulaCell.bind(evaluator);
  const requireSpace = evaluator.assertSheetHasEnoughSpaceToSpreadFormulaResult.bind(evaluator);
  const update = evaluator.updateCompilationParameters.bind(evaluator);

  function meets(depth: number): void {
    const current = open.at(-1);
    if (current !== undefined && depth < current.outermost) current.outermost = depth;
  }

  function meetsCircle(one: Settling | undefined): void {
    let at = one;
    while (at !== undefined && !at.isOpen) at = at.within;
    if (at !== undefined) meets(at.depth);
  }

  function meetsCell(place: InsidePlace): void {
    const id = evaluator.getters.getCell(place)?.id;
    if (id !== undefined) meetsCircle(openById.get(id) ?? circled.get(id));
  }

  function begin(id: number | string, place: InsidePlace | undefined): Settling {
    const depth = open.length;
    const none = Number.POSITIVE_INFINITY;
    return { place, id, depth, outermost: none, isOpen: true, within: undefined, left: undefined };
  }

  function close(own: Settling): void {
    open.pop();
    openById.delete(own.id);
    own.isOpen = false;
    if (own.outermost < own.depth) {
      own.within = open[own.outermost];
      circled.set(own.id, own);
      meets(own.outermost);
    }
    if (open.length === 0) circled.clear();
  }

  /** Takes up again the formula that has waited for the one just settled. */
  function resume(): InsidePlace {
    const block = open.at(-1)?.place === undefined ? open.pop() : undefined;
    const own = open.at(-1) as Settling & { readonly id: number; readonly place: InsidePlace };
    if (block !== undefined) {
      openById.delete(block.id);
      block.isOpen = false;
    }
    own.left = block;
    evaluator.cellsBeingComputed.delete(own.id);
    resumed = own;
    return own.place;
  }

  function* settleInSteps(place: InsidePlace): Generator<undefined, Result> {
    let at = place;
    for (;;) {
      const begun = open.length;
      const result = computeCell(at);
      if (first !== undefined) {
        for (const { id } of open.slice(Math.max(0, begun - 1))) {
          if (typeof id === "number") evaluator.cellsBeingComputed.add(id);
        }
        at = first;
        first = undefined;
        yield;
        continue;
      }
      // It was met while it waited, and so is settled already: it is in a circle.
      if (resumed !== undefined) close(resumed);
      resumed = undefined;
      if (open.length === 0) return result;
      if (!evaluator.evaluatedCells.has(at)) evaluator.evaluatedCells.set(at, result);
      at = resume();
      yield;
    }
  }

  evaluator.computeCell = (place) => {
    if (depthOfStack === 0) return inOneGo(settleInSteps(place));
    const result = computeCell(place);
    if (first !== undefined) throw circle(); // No result: the stack is left.
    if (result.value === CIRCLE) meetsCell(place);
    return result;
  };

  evaluator.computeFormulaCell = (place, cell) => {
    if (depthOfStack >= MOST_AT_ONCE) {
      first = place;
      throw circle();
    }
    const own = resumed ?? begin(cell.id, place);
    if (resumed === undefined) open.push(own);
    resumed = undefined;
    openById.set(own.id, own);
    const { evalContext } = evaluator.compilationParams;
    const { __originCellPosition, __originSheetId } = evalContext;
    const placesOutside = places;
    places = lookedAtPlaces(cell.compiledFormula);
    depthOfStack += 1;
    try {
      const result = computeFormulaCell(place, cell);
      if (first !== undefined || own.outermost <= own.depth) throw circle();
      return result;
    } finally {
      depthOfStack -= 1;
      places = placesOutside;
      // The library leaves these as they were for a formula within that ended by an error.
      Object.assign(evalContext, { __originCellPosition, __originSheetId });
      if (first === undefined) close(own);
    }
  };

  evaluator.assertSheetHasEnoughSpaceToSpreadFormulaResult = (place, result) => {
    const own = open.at(-1);
    if (first !== undefined || (own !== undefined && own.outermost <= own.depth)) throw circle();
    requireSpace(place, result);
  };

  function follow(reading: Reading): void {
    const { ensureRange, referenceDenormalizer } = reading;
    reading.referenceDenormalizer = (range) =>
      places?.has(range) === true ? firstPlace(range) : referenceDenormalizer(range);
    reading.ensureRange = (range) => {
      const current = open.at(-1);
      if (current === undefined) return ensureRange(range);
      if (places?.has(range) === true) return blockOfPlaces(range, evaluator.getters.getSheetZone(range.sheetId));
      const { left, top, right, bottom } = range.zone;
      if (left === right && top === bottom) {
        const cell = ensureRange(range);
        if (cell[0]?.[0]?.value === CIRCLE) meetsCell({ sheetId: range.sheetId, col: left, row: top });
        return cell;
      }
      const key = keyOf(range);
      const made = openById.get(key);
      if (made !== undefined) {
        meets(made.depth);
        throw circle();
      }
      const block = current.left?.id === key ? current.left : begin(key, undefined);
      block.isOpen = true;
      open.push(block);
      openById.set(key, block);
      try {
        return ensureRange(range);
      } finally {
        if (first === undefined) close(block);
        // It is handed over as it was made before, and may hold what is in a circle.
        if (first === undefined) meetsCircle(circled.get(key));
      }
    };
  }

  evaluator.updateCompilationParameters = () => {
    update();
    follow(evaluator.compilationParams);
  };
  follow(evaluator.compilationParams);
  return settleInSteps;
}
