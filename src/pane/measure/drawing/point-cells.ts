import { type FlatOvalDuct, flatOvalStrips } from "../../../core/index.js";
import type { PointPlan } from "../understood-plan.js";
import type { DrawingPoint, ScaledSection } from "./scaled-section.js";

/** The part of the section for which a point stands, and where its reading is written. */
export interface PointCell {
  readonly path: string;
  readonly label: DrawingPoint;
  /** Whether a number of four digits finds room. */
  readonly isRoomy: boolean;
}

const number = (value: number) => value.toFixed(2);
const at = ({ x, y }: DrawingPoint) => `${number(x)} ${number(y)}`;

/** Room for the digits of a reading, in units of the drawing. */
const ROOM = { width: 21, height: 9 } as const;

type Room = Readonly<Record<keyof typeof ROOM, number>>;

function rectangleCells(points: PointPlan, drawn: ScaledSection, room: Room): readonly PointCell[] {
  const width = drawn.width / points.pointsPerLine;
  const height = drawn.height / points.lines;
  return points.plan.points.map(({ line, pointOnLine }) => {
    const left = drawn.left + (pointOnLine - 1) * width;
    const top = drawn.bottom - line * height;
    return {
      path: `M${at({ x: left, y: top })}h${number(width)}v${number(height)}h${number(-width)}z`,
      label: { x: left + width / 2, y: top + height / 2 },
      isRoomy: width >= room.width && height >= room.height,
    };
  });
}

/** A ring sector between two radii, around a ray. */
function sector(center: DrawingPoint, inner: number, outer: number, ray: number, half: number): string {
  const place = (radius: number, angle: number) => ({
    x: center.x + radius * Math.cos(angle),
    y: center.y + radius * Math.sin(angle),
  });
  const arc = (radius: number, to: DrawingPoint, sweep: 0 | 1) =>
    `A${number(radius)} ${number(radius)} 0 0 ${sweep} ${at(to)}`;
  const [outerFrom, outerTo] = [place(outer, ray - half), place(outer, ray + half)];
  const [innerTo, innerFrom] = [place(inner, ray + half), place(inner, ray - half)];
  const back = inner === 0 ? `L${at(center)}` : `L${at(innerTo)}${arc(inner, innerFrom, 0)}`;
  return `M${at(outerFrom)}${arc(outer, outerTo, 1)}${back}z`;
}

/** Every point of a round plan stands for the same area: a sector of one of as many equal rings as a radius has points. */
function roundCells(points: PointPlan, drawn: ScaledSection, room: Room): readonly PointCell[] {
  const radius = drawn.width / 2;
  const center = { x: drawn.left + radius, y: drawn.top + radius };
  const rings = points.pointsPerLine / 2;
  const half = Math.PI / points.lines / 2;
  return points.plan.points.map((point) => {
    const hole = drawn.placeOf(points.plan.lines[point.line - 1]?.hole ?? point);
    const holeRay = Math.atan2(hole.y - center.y, hole.x - center.x);
    const isNear = point.pointOnLine <= rings;
    const ray = isNear ? holeRay : holeRay + Math.PI;
    const fromCenter = isNear ? rings - point.pointOnLine : point.pointOnLine - rings - 1;
    const inner = radius * Math.sqrt(fromCenter / rings);
    const outer = radius * Math.sqrt((fromCenter + 1) / rings);
    const middle = Math.sqrt((inner ** 2 + outer ** 2) / 2);
    return {
      path: sector(center, inner, outer, ray, half),
      label: { x: center.x + middle * Math.cos(ray), y: center.y + middle * Math.sin(ray) },
      isRoomy: outer - inner >= room.height && 2 * middle * Math.sin(Math.min(half, Math.PI / 2)) >= room.width,
    };
  });
}

/** Places along the edge of a strip of an oval, enough for a smooth curve. */
const EDGE_STEPS = 12;

/** Each point of an oval stands for a slice of its strip; the slices follow the rounded ends. */
function ovalCells(points: PointPlan, drawn: ScaledSection, section: FlatOvalDuct, room: Room): readonly PointCell[] {
  const scale = drawn.width / section.majorIn;
  const radius = drawn.height / 2;
  const center = drawn.top + radius;
  const halfHeightAt = (x: number) => {
    const fromEnd = Math.min(x - drawn.left, drawn.left + drawn.width - x);
    return fromEnd >= radius ? radius : Math.sqrt(Math.max(0, radius ** 2 - (radius - fromEnd) ** 2));
  };
  const strips = flatOvalStrips(section.majorIn, section.minorIn, points.lines);
  return points.plan.points.map((point) => {
    const { leftIn = 0, rightIn = 0 } = strips[point.line - 1] ?? {};
    const [left, width] = [drawn.left + leftIn * scale, (rightIn - leftIn) * scale];
    const xs = Array.from({ length: EDGE_STEPS + 1 }, (_, step) => left + (width * step) / EDGE_STEPS);
    const edge = (slice: number) =>
      xs.map((x) => ({ x, y: center + halfHeightAt(x) * ((2 * slice) / points.pointsPerLine - 1) }));
    const outline = [...edge(point.pointOnLine - 1), ...edge(point.pointOnLine).reverse()];
    const label = drawn.placeOf(point);
    const height = (2 * halfHeightAt(label.x)) / points.pointsPerLine;
    return {
      path: `M${outline.map(at).join("L")}z`,
      label,
      isRoomy: width >= room.width && height >= room.height,
    };
  });
}

/**
 * Divides the section into the equal parts for which its points stand.
 *
 * @param textScale - How much larger than usual the readings in them are
 */
export function pointCells(points: PointPlan, drawn: ScaledSection, textScale: number): readonly PointCell[] {
  const room = { width: ROOM.width * textScale, height: ROOM.height * textScale };
  const { section } = points;
  if (section.shape === "flat oval") return ovalCells(points, drawn, section, room);
  return section.shape === "round" ? roundCells(points, drawn, room) : rectangleCells(points, drawn, room);
}
