import type { UnitSystemName } from "../../core/index.js";
import { lengthUnit } from "../../workbook/index.js";
import { depthText } from "./drawing/depth-labels.js";
import { lineLetter } from "./drawing/line-letter.js";
import type { PointPlan } from "./understood-plan.js";

/** Says where a point lies: its line, and how deep in a duct or the how-manieth across a face. */
export function pointWords({ plan }: PointPlan, index: number, kind: "duct" | "face", units: UnitSystemName): string {
  const point = plan.points[index];
  if (point === undefined) return "";
  const line = `line ${lineLetter(point.line)}`;
  if (kind === "face") return `${line}, place ${point.pointOnLine}`;
  return `${line}, ${depthText(point.depthIn, units)} ${lengthUnit(units)} deep`;
}
