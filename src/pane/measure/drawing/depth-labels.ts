import type { SectionPlace, UnitSystemName } from "../../../core/index.js";
import { tapeText, tapeTextMm } from "../../../core/index.js";
import type { PointPlan } from "../understood-plan.js";
import type { ScaledSection } from "./scaled-section.js";

/** The depth of a point as a tape is read. */
export function depthText(depthIn: number, units: UnitSystemName): string {
  return units === "si" ? tapeTextMm(depthIn) : tapeText(depthIn);
}

/** A length under the drawing: a depth at its point on the first line, or how far a hole of an oval is from the end. */
export interface DepthLabel {
  readonly x: number;
  readonly text: string;
  /** Labels too near to each other stand on two levels, from 0. */
  readonly level: number;
}

/** Nearer than this, in units of the drawing, two upright labels touch. */
const NEAREST = 11;

interface LabelledPlace extends SectionPlace {
  readonly shownIn: number;
}

function placesOf({ plan, section }: PointPlan): readonly LabelledPlace[] {
  if (section.shape === "flat oval") return plan.lines.map(({ hole }) => ({ ...hole, shownIn: hole.xIn }));
  return plan.points.filter(({ line }) => line === 1).map((point) => ({ ...point, shownIn: point.depthIn }));
}

/**
 * The depths along the first line, which are those of every line; the same place is labelled once. Of a flat oval, whose
 * lines have depths of their own, how far each hole is from the left end.
 *
 * @param textScale - How much larger than usual the labels are
 */
export function depthLabels(
  points: PointPlan,
  drawn: ScaledSection,
  units: UnitSystemName,
  textScale: number,
): readonly DepthLabel[] {
  const labels: DepthLabel[] = [];
  const lastOf = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const place of placesOf(points)) {
    const { x } = drawn.placeOf(place);
    if (labels.at(-1)?.x === x) continue;
    const level = lastOf.findIndex((last) => x - last >= NEAREST * textScale);
    if (level < 0) continue;
    lastOf[level] = x;
    labels.push({ x, text: depthText(place.shownIn, units), level });
  }
  return labels;
}
