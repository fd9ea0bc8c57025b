import { ASSUMED_FREE_AREA } from "../../../shared/tables/assumed-free-area.js";
import type { UnitSystemName } from "../../core/index.js";
import { factorFromEffectiveArea, squareFeetFromSquareMeters } from "../../core/index.js";
import { readTypedSize, type SizeMath, sizeAreaFt2, type TakenSize, type TypedSize } from "../../workbook/index.js";
import { withPoints } from "../controls/decimal-sign.js";
import { readTypedNumber } from "../controls/read-typed-number.js";
import { figure, fixedFigure } from "../controls/shown-figure.js";
import type { MeasureDraft } from "./measure-draft.js";

/** As on the sheets: from half a unit to 5000. A wall may be nothing. */
const SIZES = [0.5, 5000] as const;
const WALLS = [0, 1000] as const;

/** What was understood of the typed sizes. */
export interface UnderstoodSizes {
  readonly width: TypedSize;
  readonly height: TypedSize;
  readonly wall: TypedSize;
  /** Null while a part is missing or wrong. */
  readonly size: TakenSize | null;
}

const sizeIn = (typed: TypedSize) => (typed !== null && "value" in typed ? typed.value : null);

export function understoodSizes(draft: MeasureDraft, units: UnitSystemName, math: SizeMath): UnderstoodSizes {
  const read = (text: string, [minimum, maximum]: readonly [number, number]) =>
    readTypedSize(withPoints(text), units, minimum, maximum, math);
  const width = read(draft.width, SIZES);
  const height = draft.shape === "round" ? null : read(draft.height, SIZES);
  const wall = draft.kind === "duct" ? read(draft.wall, WALLS) : null;
  return { width, height, wall, size: sizeOf(draft.shape, sizeIn(width), sizeIn(height)) };
}

function sizeOf(shape: MeasureDraft["shape"], width: number | null, height: number | null): TakenSize | null {
  if (width === null) return null;
  if (shape === "round") return { shape, diameter: width };
  if (height === null) return null;
  // Whichever was typed first: the longer one runs from end to end.
  if (shape === "flat oval") return { shape, major: Math.max(width, height), minor: Math.min(width, height) };
  return { shape, width, height };
}

/** The wall to pass, 0 where nothing is typed; null where it cannot be read. */
export function wallOf({ wall }: UnderstoodSizes): number | null {
  return wall === null ? 0 : sizeIn(wall);
}

/** A free-area factor: known, assumed (null), still missing, or wrong. */
export type UnderstoodFactor =
  | { readonly factor: number | null; readonly understood: string }
  | { readonly missing: string }
  | { readonly error: string };

function fromEffectiveArea(text: string, size: TakenSize | null, units: UnitSystemName): UnderstoodFactor {
  const read = readTypedNumber(text, 0, null);
  if ("error" in read) return read;
  if (read.value === null) return { missing: "the effective area" };
  if (size === null) return { missing: "the size" };
  const effectiveFt2 = units === "si" ? squareFeetFromSquareMeters(read.value) : read.value;
  const wholeFt2 = sizeAreaFt2(size, units);
  if (read.value <= 0 || effectiveFt2 > wholeFt2) {
    return { error: "An effective area is above 0 and not above the whole area. Look at its unit." };
  }
  const factor = factorFromEffectiveArea(effectiveFt2, wholeFt2);
  return { factor, understood: `Factor ${fixedFigure(factor, 3)}: effective area by whole area.` };
}

/** Reads how much of a face is free. */
export function understoodFactor(draft: MeasureDraft, size: TakenSize | null, units: UnitSystemName): UnderstoodFactor {
  switch (draft.factorBasis) {
    case "open":
      return { factor: 1, understood: "Factor 1: nothing is in the opening." };
    case "unknown":
      return {
        factor: null,
        understood: `${figure(ASSUMED_FREE_AREA.metal.freeAreaRatio)} assumed; the result is marked and less certain.`,
      };
    case "effective area":
      return fromEffectiveArea(draft.effectiveArea, size, units);
    case "published": {
      const read = readTypedNumber(draft.factor, 0.01, 1);
      if ("error" in read) return { error: `A factor is a number from ${figure(0.01)} to 1, such as ${figure(0.78)}.` };
      return read.value === null ? { missing: "the factor" } : { factor: read.value, understood: "" };
    }
  }
}
