import { DomainError } from "../check/domain-error.js";
import type { Count, Inch } from "../units/quantity.js";
import type { AnyDuctSection, DuctSection, FlatOvalDuct } from "./duct-section.js";
import { equalAreaSidePoints } from "./equal-area-side-points.js";
import { flatOvalStrips } from "./flat-oval-strips.js";
import { insertionDepth } from "./insertion-depth.js";
import { linePlaces } from "./line-places.js";
import { offTheWall, type Place } from "./off-the-wall.js";
import { sidePoints } from "./side-points.js";
import type { TraverseRule } from "./traverse-rule.js";

/** A place in the cross-section: from the left and from the bottom of the inside, seen as drawn. */
export interface SectionPlace {
  readonly xIn: Inch;
  readonly yIn: Inch;
}

/** A line of a traverse, from the hole to the opposite wall. */
export interface TraverseLine {
  /** From 1. */
  readonly line: Count;
  readonly hole: SectionPlace;
  readonly end: SectionPlace;
}

/** A point of a traverse, where it lies and how deep to push the probe to reach it. */
export interface TraversePoint extends SectionPlace {
  /** From 1, line by line, in the order of measuring. */
  readonly number: Count;
  readonly line: Count;
  /** From 1 at the hole. */
  readonly pointOnLine: Count;
  /** From the outside of the wall, wall and lining included. */
  readonly depthIn: Inch;
  /** Whether the rule had placed it nearer to a wall than allowed. */
  readonly wasMoved: boolean;
  /** How many points of the plan lie at this very place: one reading there counts as often in the mean. */
  readonly timesCounted: Count;
}

/** What a technician drills and measures, and a screen draws. */
export interface TraversePlan {
  readonly lines: readonly TraverseLine[];
  readonly points: readonly TraversePoint[];
}

/** A line before it is numbered: its length, its points, and what moving it off the wall did to them. */
interface DraftLine {
  readonly insideIn: Inch;
  readonly places: readonly Place[];
  readonly hole: SectionPlace;
  readonly end: SectionPlace;
  readonly wasMoved: boolean;
  readonly timesCounted: Count;
}

type BareLine = Omit<DraftLine, "insideIn" | "places">;

/** Diameters 180° / lines apart, the first from the left, the others turning towards the bottom. */
function diameters(diameterIn: Inch, lines: Count): readonly BareLine[] {
  if (lines !== 2 && lines !== 3 && lines !== 4) throw new DomainError("lines", "2, 3 or 4 diameters", lines);
  const radiusIn = diameterIn / 2;
  return Array.from({ length: lines }, (_, index) => {
    const angle = (index * Math.PI) / lines;
    const [acrossIn, upIn] = [radiusIn * Math.cos(angle), radiusIn * Math.sin(angle)];
    return {
      hole: { xIn: radiusIn - acrossIn, yIn: radiusIn - upIn },
      end: { xIn: radiusIn + acrossIn, yIn: radiusIn + upIn },
      wasMoved: false,
      timesCounted: 1,
    };
  });
}

/** Level lines across the width, from holes in the left wall, the lowest first. */
function levels(
  widthIn: Inch,
  heightIn: Inch,
  rule: TraverseRule,
  lines: Count,
  minimumWallDistanceIn: Inch,
): readonly BareLine[] {
  return offTheWall(sidePoints(rule, lines), heightIn, minimumWallDistanceIn).map(
    ({ positionRatio, wasMoved, timesCounted }) => {
      const yIn = positionRatio * heightIn;
      return { hole: { xIn: 0, yIn }, end: { xIn: widthIn, yIn }, wasMoved, timesCounted };
    },
  );
}

/** Lines that have their points at the same places. */
function alikeLines(
  section: DuctSection,
  rule: TraverseRule,
  lines: Count,
  pointsPerLine: Count,
  minimumWallDistanceIn: Inch,
): readonly DraftLine[] {
  const along = linePlaces(section, rule, pointsPerLine, minimumWallDistanceIn);
  const bare =
    section.shape === "round"
      ? diameters(section.diameterIn, lines)
      : levels(section.widthIn, section.heightIn, rule, lines, minimumWallDistanceIn);
  return bare.map((line) => ({ ...along, ...line }));
}

/** Upright lines, each as long as the oval is high there, from holes in its upper side. */
function uprights(
  { majorIn, minorIn }: FlatOvalDuct,
  rule: TraverseRule,
  lines: Count,
  pointsPerLine: Count,
  minimumWallDistanceIn: Inch,
): readonly DraftLine[] {
  if (rule !== "equal area") throw new DomainError("rule", '"equal area" for a flat oval duct', rule);
  const positions = equalAreaSidePoints(pointsPerLine);
  return flatOvalStrips(majorIn, minorIn, lines).map(({ middleIn, heightIn }) => ({
    insideIn: heightIn,
    places: offTheWall(positions, heightIn, Math.min(minimumWallDistanceIn, heightIn / 2)),
    hole: { xIn: middleIn, yIn: (minorIn + heightIn) / 2 },
    end: { xIn: middleIn, yIn: (minorIn - heightIn) / 2 },
    wasMoved: false,
    timesCounted: 1,
  }));
}

/**
 * Returns every line and point of a traverse with its place in the cross-section and its insertion depth.
 *
 * Round: diameters 180° / lines apart. Rectangular: level lines at the rule's positions up the height, each with the
 * rule's positions across the width. Flat oval: upright lines from holes in the upper side, each in the middle of the
 * area of a strip. Every point has the same weight.
 *
 * @param section - Inside dimensions, above 0
 * @param rule - "equal area", "log-linear" (round only) or "log-Tchebycheff" (not flat oval)
 * @param lines - Diameters, 2 to 4, or rows as the rule allows
 * @param pointsPerLine - Points on each line, as the rule allows
 * @param wallIn - Wall, lining and nipple that the probe passes before the air, 0 or more [in]
 * @param minimumWallDistanceIn - Least distance of a point from any inside wall, 0 to half the smaller dimension [in]
 * @returns The lines and their points, numbered line by line from the hole
 * @throws {DomainError} When an argument is outside its range, or the rule has no such number of points
 * @source 40 CFR 60 App. A-1, Method 1, §11.3; ISO 5802:2001, Tables 2 and 3, Figures 10 and 11
 * @example
 * traversePlan({ shape: "round", diameterIn: 10 }, "log-linear", 3, 8, 0, 0).points.length // => 24
 */
export function traversePlan(
  section: AnyDuctSection,
  rule: TraverseRule,
  lines: Count,
  pointsPerLine: Count,
  wallIn: Inch,
  minimumWallDistanceIn: Inch,
): TraversePlan {
  const drafts =
    section.shape === "flat oval"
      ? uprights(section, rule, lines, pointsPerLine, minimumWallDistanceIn)
      : alikeLines(section, rule, lines, pointsPerLine, minimumWallDistanceIn);
  return {
    lines: drafts.map(({ hole, end }, index) => ({ line: index + 1, hole, end })),
    points: drafts.flatMap((draft, lineIndex) =>
      draft.places.map((place, pointIndex) => ({
        number: lineIndex * draft.places.length + pointIndex + 1,
        line: lineIndex + 1,
        pointOnLine: pointIndex + 1,
        xIn: draft.hole.xIn + place.positionRatio * (draft.end.xIn - draft.hole.xIn),
        yIn: draft.hole.yIn + place.positionRatio * (draft.end.yIn - draft.hole.yIn),
        depthIn: insertionDepth(place.positionRatio, draft.insideIn, wallIn),
        wasMoved: place.wasMoved || draft.wasMoved,
        timesCounted: place.timesCounted * draft.timesCounted,
      })),
    ),
  };
}
