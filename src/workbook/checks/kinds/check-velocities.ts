import { fpmFromMetersPerSecond, metersPerSecondFromFpm } from "../../../core/index.js";
import {
  argumentOf,
  blockKey,
  blockOf,
  isInSi,
  type PlacedCall,
  singleValue,
  type WorkbookIndex,
} from "../formulas/workbook-index.js";
import type { FilledCell } from "../source/checked-workbook.js";
import { coveringRanges, type Draft, grouped, placesIn, shownNumber, spelled } from "../support/draft.js";
import { averagedBlocks, numbersIn, typedSource } from "../support/readings.js";
import { LEAST_READABLE_FPM, LIKE_THE_OTHERS_FACTOR, MOST_PLAUSIBLE_M_PER_S, SURELY_FPM } from "../thresholds.js";

type Velocity = FilledCell & { readonly value: number; readonly sheet: number; readonly block: string };

/** Velocities of one sheet that are all in one unit. */
interface Gathered {
  readonly isSi: boolean;
  readonly velocities: Map<string, Velocity>;
}

/** Whether a block holds pressures; a call that is told the kind decides before one that takes only pressures. */
function pressureBlocks(index: WorkbookIndex): ReadonlySet<string> {
  const told = new Map<string, boolean>();
  const taken = new Set<string>();
  for (const call of index.calls) {
    const block = blockOf(index, argumentOf(call, "readings"), call.formula);
    if (block === undefined) continue;
    const kind = singleValue(index, argumentOf(call, "kind-of-reading"), call.formula);
    if (kind === "pressure" || kind === "velocity") told.set(blockKey(block), kind === "pressure");
    if (call.call.id === "TRAVERSE.PRESSURE") taken.add(blockKey(block));
  }
  for (const [block, isPressure] of told) {
    if (isPressure) taken.add(block);
    else taken.delete(block);
  }
  return taken;
}

/** What each sheet works in, from the calls on it that say so. */
function siSheets(index: WorkbookIndex): ReadonlySet<number> {
  return new Set(index.calls.filter((call) => isInSi(index, call)).map(({ formula }) => formula.sheet));
}

function velocityBlocks(index: WorkbookIndex, call: PlacedCall) {
  const readings = blockOf(index, argumentOf(call, "readings"), call.formula);
  const single = blockOf(index, argumentOf(call, "velocity"), call.formula);
  return [readings, single, ...averagedBlocks(index, call)].filter((block) => block !== undefined);
}

function gather(index: WorkbookIndex): ReadonlyMap<number, Gathered> {
  const pressures = pressureBlocks(index);
  const inSi = siSheets(index);
  const bySheet = new Map<number, Gathered>();
  const seen = new Set<string>();
  for (const call of index.calls) {
    for (const block of velocityBlocks(index, call)) {
      const key = blockKey(block);
      if (pressures.has(key) || seen.has(key)) continue;
      seen.add(key);
      for (const cell of numbersIn(index, block)) {
        const { sheet, row, column } = typedSource(index, block.sheet, cell);
        if (cell.value === 0 || index.formulaAt(sheet, row, column) !== undefined) continue;
        const gathered = bySheet.get(sheet) ?? { isSi: inSi.has(call.formula.sheet), velocities: new Map() };
        gathered.velocities.set(`${row},${column}`, { row, column, value: cell.value, sheet, block: key });
        bySheet.set(sheet, gathered);
      }
    }
  }
  return bySheet;
}

function median(values: readonly number[]): number | undefined {
  const sorted = values.map(Math.abs).sort((a, b) => a - b);
  return sorted.length === 0 ? undefined : sorted[Math.floor((sorted.length - 1) / 2)];
}

function isLike(converted: number, others: number): boolean {
  return converted >= others / LIKE_THE_OTHERS_FACTOR && converted <= others * LIKE_THE_OTHERS_FACTOR;
}

interface Units {
  readonly wanted: string;
  readonly other: string;
  readonly isDoubtful: (size: number) => boolean;
  readonly isSure: (size: number) => boolean;
  readonly toWanted: (value: number) => number;
}

const IN_FPM: Units = {
  wanted: "fpm",
  other: "m/s",
  isDoubtful: (size) => size < LEAST_READABLE_FPM,
  isSure: (size) => size >= SURELY_FPM,
  toWanted: fpmFromMetersPerSecond,
};

const IN_M_PER_S: Units = {
  wanted: "m/s",
  other: "fpm",
  isDoubtful: (size) => size > MOST_PLAUSIBLE_M_PER_S,
  isSure: (size) => size <= metersPerSecondFromFpm(SURELY_FPM * 100),
  toWanted: metersPerSecondFromFpm,
};

/** The doubtful velocities of a sheet that, taken in the other unit, would be like the others. */
function doubtful({ isSi, velocities }: Gathered) {
  const units = isSi ? IN_M_PER_S : IN_FPM;
  const all = [...velocities.values()];
  const sure = all.filter(({ value }) => units.isSure(Math.abs(value)));
  const ofSheet = median(sure.map(({ value }) => value));
  const sureByBlock = grouped(sure, ({ block }) => block);
  const byBlock = new Map([...sureByBlock].map(([block, cells]) => [block, median(cells.map(({ value }) => value))]));
  return {
    units,
    others: ofSheet,
    cells: all.filter(({ value, block }) => {
      if (!units.isDoubtful(Math.abs(value))) return false;
      const others = byBlock.get(block) ?? ofSheet;
      return others === undefined || isLike(units.toWanted(Math.abs(value)), others);
    }),
  };
}

/** Velocities in m/s where fpm belong, and the other way round. */
export function checkVelocities(index: WorkbookIndex): readonly Draft[] {
  return [...gather(index)].flatMap(([sheet, gathered]) => {
    const { units, others, cells } = doubtful(gathered);
    const valueAt = new Map(cells.map(({ row, column, value }) => [`${row},${column}`, value]));
    return coveringRanges(cells).map((range): Draft => {
      const values = placesIn(range).flatMap(({ row, column }) => valueAt.get(`${row},${column}`) ?? []);
      const middle = median(values) ?? 0;
      const size = values.length === 1 ? "is" : "are about";
      const against = others === undefined ? "is no" : `is far from the others (about ${shownNumber(others)}) as a`;
      return {
        kind: "velocity-in-other-unit",
        severity: "warning",
        sheet,
        range,
        problem: `${spelled(range)} ${size} ${shownNumber(middle)}, which ${against}${others === undefined ? " plausible" : ""} velocity in ${units.wanted} and looks like ${units.other}.`,
        action: `Read the meter's unit: ${shownNumber(middle)} ${units.other} are ${shownNumber(units.toWanted(middle))} ${units.wanted}.`,
      };
    });
  });
}
