import type { UnitSystemName } from "../../core/index.js";
import type { JobDetails, SizeMath, TakenMeasurement, TakenSize, TakenSweep } from "../../workbook/index.js";
import { type MeasureDraft, readingsOf, type TypedSweep } from "./measure-draft.js";
import { readReading, readSeconds } from "./reading-text.js";
import {
  type UnderstoodFactor,
  type UnderstoodSizes,
  understoodFactor,
  understoodSizes,
  wallOf,
} from "./understood-opening.js";
import { type PointPlan, type UnderstoodPlan, understoodPlan } from "./understood-plan.js";

/** Everything that follows from the draft. */
export interface UnderstoodMeasurement {
  readonly sizes: UnderstoodSizes;
  /** Null for a duct, which is open. */
  readonly factor: UnderstoodFactor | null;
  /** Null while the size is not known, and for sweeps. */
  readonly plan: UnderstoodPlan | null;
  /** The measurement, complete enough for a result; null while something is missing. */
  readonly taken: TakenMeasurement | null;
  /** What is missing for it, in a few words. */
  readonly missing: readonly string[];
}

function numberIn(text: string | undefined): number | null {
  const read = readReading(text ?? "");
  return "value" in read ? read.value : null;
}

/** Sweeps with both their numbers; one without its time counts nowhere. */
export function takenSweeps(sweeps: readonly TypedSweep[]): readonly TakenSweep[] {
  return sweeps.flatMap((sweep) => {
    const seconds = readSeconds(sweep.seconds);
    const velocity = numberIn(sweep.velocity);
    if (velocity === null || "error" in seconds || seconds.value === null) return [];
    return [{ velocity, seconds: seconds.value }];
  });
}

function missingParts(
  draft: MeasureDraft,
  size: TakenSize | null,
  wall: number | null,
  factor: UnderstoodFactor | null,
  plan: UnderstoodPlan | null,
): readonly string[] {
  return [
    size === null ? "the size" : [],
    wall === null ? "the wall" : [],
    factor === null || "factor" in factor ? [] : "missing" in factor ? factor.missing : "the factor",
    draft.kind === "face" && draft.method === "sweeps" ? [] : plan !== null && "error" in plan ? "the points" : [],
  ].flat();
}

function takenOf(
  draft: MeasureDraft,
  units: UnitSystemName,
  size: TakenSize,
  factor: number | null,
  wall: number,
  points: PointPlan | null,
): TakenMeasurement | null {
  if (draft.kind === "face" && draft.method === "sweeps") {
    return { kind: "face sweeps", units, size, factor, sweeps: takenSweeps(draft.sweeps) };
  }
  if (points === null) return null;
  const { keys, rule, lines, pointsPerLine } = points;
  const typed = readingsOf(draft);
  const readings = keys.map((key) => numberIn(typed[key]));
  const shared = { units, size, lines, pointsPerLine, readings };
  return draft.kind === "duct" ? { kind: "duct", rule, wall, ...shared } : { kind: "face points", factor, ...shared };
}

/** Works out everything that follows from what is typed. */
export function understoodMeasurement(draft: MeasureDraft, job: JobDetails, math: SizeMath): UnderstoodMeasurement {
  const { units } = job;
  const sizes = understoodSizes(draft, units, math);
  const { size } = sizes;
  const wall = wallOf(sizes);
  const factor = draft.kind === "duct" ? null : understoodFactor(draft, size, units);
  const isSwept = draft.kind === "face" && draft.method === "sweeps";
  const plan = size === null || wall === null || isSwept ? null : understoodPlan(draft, size, wall, units);
  const missing = missingParts(draft, size, wall, factor, plan).filter(
    (part, index, all) => all.indexOf(part) === index,
  );
  const points = plan !== null && "points" in plan ? plan.points : null;
  const known = factor === null ? 1 : "factor" in factor ? factor.factor : undefined;
  const taken =
    missing.length > 0 || size === null || wall === null || known === undefined
      ? null
      : takenOf(draft, units, size, known, wall, points);
  return { sizes, factor, plan, taken, missing };
}
