import type { UnitSystemName } from "../../core/index.js";
import {
  type AnyDuctSection,
  DomainError,
  fieldLayout,
  inchesFromMillimeters,
  minimumWallDistance,
  type TraversePlan,
  type TraverseRule,
  traversePlan,
} from "../../core/index.js";
import type { TakenSize } from "../../workbook/index.js";
import { readTypedNumber } from "../controls/read-typed-number.js";
import type { MeasureDraft } from "./measure-draft.js";

/** The points to read, drawn and numbered. */
export interface PointPlan {
  readonly section: AnyDuctSection;
  readonly rule: TraverseRule;
  readonly lines: number;
  readonly pointsPerLine: number;
  readonly plan: TraversePlan;
  /** Key of each point's reading, in the order of measuring. */
  readonly keys: readonly string[];
}

export type UnderstoodPlan = { readonly points: PointPlan } | { readonly error: string };

/** Six readings at a face: as many as a row of the outlets takes. */
const FACE_LINES = { rectangular: 2, round: 3, "flat oval": 2 } as const;
const FACE_POINTS = { rectangular: 3, round: 2, "flat oval": 3 } as const;

const ARGUMENT_WORDS: Readonly<Record<string, string>> = {
  lines: "Lines",
  pointsPerLine: "Points on a line",
  pointsPerDiameter: "Points on a line",
  pointsPerSide: "Points on a line",
  widthIn: "Width",
  heightIn: "Height",
  diameterIn: "Diameter",
  minorIn: "Short side",
};

function sectionOf(size: TakenSize, units: UnitSystemName): AnyDuctSection {
  const inches = (length: number) => (units === "si" ? inchesFromMillimeters(length) : length);
  switch (size.shape) {
    case "round":
      return { shape: "round", diameterIn: inches(size.diameter) };
    case "rectangular":
      return { shape: "rectangular", widthIn: inches(size.width), heightIn: inches(size.height) };
    case "flat oval":
      return { shape: "flat oval", majorIn: inches(size.major), minorIn: inches(size.minor) };
  }
}

function count(text: string, usual: number, label: string): number {
  const read = readTypedNumber(text, 1, 200);
  if ("error" in read || (read.value !== null && !Number.isInteger(read.value))) {
    throw new DomainError(label, "a whole number from 1 to 200", text);
  }
  return read.value ?? usual;
}

function ruleOf(draft: MeasureDraft): TraverseRule {
  if (draft.kind === "face" || draft.shape === "flat oval" || draft.rule === "equal area") return "equal area";
  return draft.shape === "round" ? "log-linear" : "log-Tchebycheff";
}

function pointPlan(draft: MeasureDraft, size: TakenSize, wall: number, units: UnitSystemName): PointPlan {
  const section = sectionOf(size, units);
  const rule = ruleOf(draft);
  const isDuct = draft.kind === "duct";
  const usual = isDuct
    ? fieldLayout(section, rule)
    : { lines: FACE_LINES[size.shape], pointsPerLine: FACE_POINTS[size.shape] };
  const lines = count(isDuct ? draft.ductLines : draft.faceLines, usual.lines, "lines");
  const pointsPerLine = count(isDuct ? draft.ductPoints : draft.facePoints, usual.pointsPerLine, "pointsPerLine");
  const wallIn = units === "si" ? inchesFromMillimeters(wall) : wall;
  const leastIn = isDuct && rule === "equal area" ? minimumWallDistance(section) : 0;
  const plan = traversePlan(section, rule, lines, pointsPerLine, wallIn, leastIn);
  const keys = plan.points.map(({ line, pointOnLine }) => `${line}.${pointOnLine}`);
  return { section, rule, lines, pointsPerLine, plan, keys };
}

/** Plans the points of what is measured, or says which number does not fit the rule. */
export function understoodPlan(
  draft: MeasureDraft,
  size: TakenSize,
  wall: number,
  units: UnitSystemName,
): UnderstoodPlan {
  try {
    return { points: pointPlan(draft, size, wall, units) };
  } catch (cause) {
    if (!(cause instanceof DomainError)) throw cause;
    return { error: `${ARGUMENT_WORDS[cause.parameter] ?? cause.parameter}: ${cause.expected}.` };
  }
}
