import type { UnitSystemName } from "../../../core/index.js";
import { tapeText, tapeTextMm } from "../../../core/index.js";
import type { PointPlan } from "../understood-plan.js";
import type { ScaledSection } from "./scaled-section.js";

/** The depth of a point as a tape is read. */
export function depthText(depthIn: number, units: UnitSystemName): string {
  return units === "si" ? tapeTextMm(depthIn) : tapeText(depthIn);
}

/** A depth under the drawing, at the place of its point on the first line. */
export interface DepthLabel {
  readonly x: number;
  readonly text: string;
  /** Labels too near to each other stand on two levels, from 0. */
  readonly level: number;
}

/** Nearer than this, in units of the drawing, two upright labels touch. */
const NEAREST = 11;

/** The depths along the first line, which are those of every line; the same place is labelled once. */
export function depthLabels({ plan }: PointPlan, drawn: ScaledSection, units: UnitSystemName): readonly DepthLabel[] {
  const labels: DepthLabel[] = [];
  const lastOf = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const point of plan.points.filter(({ line }) => line === 1)) {
    const { x } = drawn.placeOf(point);
    if (labels.at(-1)?.x === x) continue;
    const level = lastOf.findIndex((last) => x - last >= NEAREST);
    if (level < 0) continue;
    lastOf[level] = x;
    labels.push({ x, text: depthText(point.depthIn, units), level });
  }
  return labels;
}
