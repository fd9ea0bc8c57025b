import { registries } from "@odoo/o-spreadsheet";
import { beginOneCalculation } from "../register-native.js";
import type { InsideCell, InsidePlace, InsideRange } from "./library-inside.js";
import { type SettledEvaluator, settleFormulas } from "./settle-formulas.js";

const PLUGIN = "evaluation";

/** A formula that reads more cells than this waits for those it reads, which would be calculated with it in one go. */
const MANY_CELLS = 1_000;

const FORMULAS_A_STEP = 50;

interface Ranges extends Iterable<InsideRange> {
  isEmpty(): boolean;
  hasPosition(place: InsidePlace): boolean;
}

interface EvaluatedCell {
  readonly value: unknown;
  readonly format?: unknown;
}

/** The library's calculation, as far as it is taken apart here. */
interface Evaluator extends SettledEvaluator {
  readonly nextRangesToUpdate: Ranges;
  blockedArrayFormulas: { isEmpty(): boolean };
  cellsBeingComputed: Set<number>;
  createEmptyPositionSet(): { isEmpty(): boolean };
  formulaDependencies(): { addDependencies(place: InsidePlace, ranges: readonly InsideRange[]): void };
  computeCell(place: InsidePlace): EvaluatedCell;
  evaluate(ranges: Iterable<InsideRange>): void;
  buildDependencyGraph(): void;
  evaluateAllCells(): void;
}

interface Getters {
  getSheetIds(): readonly string[];
  getCells(sheetId: string): readonly InsideCell[];
  getCellPosition(id: number): InsidePlace;
}

interface EvaluationPart {
  readonly evaluator: Evaluator;
  readonly getters: Getters;
  shouldRebuildDependenciesGraph: boolean;
  finalize(): void;
}

type EvaluationPlugin = new (config: never) => EvaluationPart;

/** Whether models that are made now wait for their cells. */
let isWaiting = false;

/** Makes a model that calculates nothing before `calculateInSteps` was gone through. */
export function waitingForCells<Made>(make: () => Made): Made {
  isWaiting = true;
  try {
    return make();
  } finally {
    isWaiting = false;
  }
}

/** The library's calculation, which can also be gone through in steps. */
export interface SteppedEvaluation {
  calculateInSteps(): Generator<undefined, void>;
}

function cellsRead({ compiledFormula }: InsideCell): number {
  return (compiledFormula?.rangeDependencies ?? []).reduce(
    (sum, { zone: { left, top, right, bottom } }) => sum + (right - left + 1) * (bottom - top + 1),
    0,
  );
}

/** Lets the library calculate a workbook in steps; a model made later knows it. */
export function registerCalculation(): void {
  const list = registries.coreViewsPluginRegistry;
  const Library = list.get(PLUGIN) as unknown as EvaluationPlugin;
  if ("calculateInSteps" in Library.prototype) return;
  class Stepped extends Library implements SteppedEvaluation {
    isWaiting = isWaiting;
    private readonly settle = settleFormulas(this.evaluator);

    override finalize(): void {
      if (!this.isWaiting) super.finalize();
    }

    *calculateInSteps(): Generator<undefined, void> {
      const end = beginOneCalculation();
      try {
        yield* this.calculateAll();
      } finally {
        end();
      }
    }

    private *calculateAll(): Generator<undefined, void> {
      const { evaluator } = this;
      evaluator.blockedArrayFormulas = evaluator.createEmptyPositionSet();
      yield* this.learnDependencies();
      evaluator.updateCompilationParameters();
      evaluator.cellsBeingComputed = new Set();
      const late: InsidePlace[] = [];
      let count = 0;
      for (const sheetId of this.getters.getSheetIds()) {
        for (const cell of this.getters.getCells(sheetId)) {
          const place = this.getters.getCellPosition(cell.id);
          if (cell.isFormula && cellsRead(cell) > MANY_CELLS) late.push(place);
          else yield* this.calculate(place);
          count += 1;
          if (count % FORMULAS_A_STEP === 0) yield;
        }
      }
      for (const place of late) {
        yield* this.calculate(place);
        yield;
      }
      this.isWaiting = false;
      this.shouldRebuildDependenciesGraph = false;
      // Which of two results that fill the same cells comes first is decided by the order of all of them.
      if (!evaluator.blockedArrayFormulas.isEmpty()) {
        evaluator.buildDependencyGraph();
        evaluator.evaluateAllCells();
      } else if (!evaluator.nextRangesToUpdate.isEmpty()) evaluator.evaluate([...evaluator.nextRangesToUpdate]);
    }

    private *learnDependencies(): Generator<undefined, void> {
      const graph = this.evaluator.formulaDependencies();
      let count = 0;
      for (const sheetId of this.getters.getSheetIds()) {
        for (const { id, compiledFormula } of this.getters.getCells(sheetId)) {
          count += 1;
          if (count % FORMULAS_A_STEP === 0) yield;
          if (compiledFormula === undefined) continue;
          graph.addDependencies(this.getters.getCellPosition(id), compiledFormula.rangeDependencies);
        }
      }
    }

    private *calculate(place: InsidePlace): Generator<undefined, void> {
      const { evaluator } = this;
      if (evaluator.nextRangesToUpdate.hasPosition(place)) return;
      const cell: EvaluatedCell = yield* this.settle(place);
      if (cell.value !== null || cell.format !== undefined) evaluator.evaluatedCells.set(place, cell);
    }
  }
  list.replace(PLUGIN, Stepped as never);
}
