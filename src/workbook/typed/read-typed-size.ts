import { SizeProblem, sizeExpression } from "../../cells/index.js";
import type { UnitSystemName } from "../../core/index.js";
import { inchesFromMillimeters, millimetersFromInches } from "../../core/index.js";

/** The part of mathjs that reading a size needs; whoever has loaded it hands it in. */
export interface SizeMath {
  evaluate(expression: string): unknown;
}

/** A size as read; null where nothing stands. */
export type TypedSize = { readonly value: number; readonly understood: string } | { readonly error: string } | null;

/** mathjs finds 12 in to be 0.9999999999999998 ft. Twelve digits are finer than any tape. */
const DIGITS = 12;

const rounded = (value: number) => Number(value.toPrecision(DIGITS));

function lengthIn(unit: "inch" | "mm", result: unknown): number {
  if (typeof result === "number") return result;
  if (typeof result === "object" && result !== null && "toNumber" in result && typeof result.toNumber === "function") {
    return result.toNumber(unit);
  }
  throw new SizeProblem("This is not a length.");
}

function understood(value: number, units: UnitSystemName): string {
  const shown = Number(value.toFixed(4));
  return units === "si"
    ? `= ${shown} mm (${inchesFromMillimeters(value).toFixed(2)} in)`
    : `= ${shown} in (${millimetersFromInches(value).toFixed(0)} mm)`;
}

function problemText(cause: unknown): string {
  if (cause instanceof SizeProblem) return cause.message;
  const said = cause instanceof Error ? cause.message : String(cause);
  if (/subtractScalar|addScalar|Unexpected type/.test(said)) return "Give every length its unit, or none of them.";
  if (/[Uu]nits/.test(said)) return "This is not a length: look at the units.";
  return "This cannot be read as a size. Write a number, with a unit or without: 14 1/4, 350 mm, 12 - 2*1/2.";
}

/**
 * Reads a size as people write it: `14 1/4`, `350 mm`, `1' 2 1/2"`, `10 1/4 in - 2*1/2 in`.
 *
 * @param text - As typed; a number without a unit is in the job's unit
 * @param units - "ip" for a result in inches, "si" for millimeters
 * @param minimum - The least that makes sense, in the same unit
 * @param maximum - The most that makes sense, in the same unit
 * @param math - mathjs, or what evaluates arithmetic with units of length alike
 * @returns The size and how it was understood, what is wrong with it, or null where nothing stands
 */
export function readTypedSize(
  text: string,
  units: UnitSystemName,
  minimum: number,
  maximum: number,
  math: SizeMath,
): TypedSize {
  if (text.trim() === "") return null;
  try {
    const value = rounded(lengthIn(units === "si" ? "mm" : "inch", math.evaluate(sizeExpression(text))));
    if (!Number.isFinite(value)) return { error: "This is not a length: it divides by zero." };
    const unit = units === "si" ? "mm" : "in";
    if (value >= minimum && value <= maximum) return { value, understood: understood(value, units) };
    const come = `This is ${Number(value.toPrecision(6))} ${unit}.`;
    return { error: `${come} Enter a size from ${minimum} to ${maximum} ${unit}.` };
  } catch (cause) {
    return { error: problemText(cause) };
  }
}
