import type { UnitSystemName } from "../../../core/index.js";
import type { PointPlan } from "../understood-plan.js";
import { depthLabels } from "./depth-labels.js";
import { lineLetter } from "./line-letter.js";
import { NUMBERED_RADIUS, pointRadius } from "./point-radius.js";
import { scaledSection } from "./scaled-section.js";
import { SectionOutline } from "./section-outline.js";
import { useTextScale } from "./use-text-scale.js";

interface PlanDrawingProps {
  readonly points: PointPlan;
  readonly units: UnitSystemName;
  /** Index of the point that is read next. */
  readonly current: number;
  /** Whether a reading stands for each point. */
  readonly taken: readonly boolean[];
  readonly hasDepths: boolean;
  readonly description: string;
}

const LEVEL_HEIGHT = 40;
const LETTER_DISTANCE = 13;

/** The cross-section to scale, with each point's number, the depths along the first line, and the next point lit. */
export function PlanDrawing({ points, units, current, taken, hasDepths, description }: PlanDrawingProps) {
  const textScale = useTextScale();
  const drawn = scaledSection(points.section, textScale);
  const places = points.plan.points.map(drawn.placeOf);
  const radius = pointRadius(places, textScale);
  const numbered = NUMBERED_RADIUS * textScale;
  const labels = hasDepths ? depthLabels(points, drawn, units, textScale) : [];
  const levelHeight = LEVEL_HEIGHT * textScale;
  const letterDistance = LETTER_DISTANCE * textScale;
  const levels = labels.reduce((most, { level }) => Math.max(most, level + 1), 0);
  const height = drawn.bottom + 16 + levels * levelHeight;
  const { shape } = points.section;
  const firstLine = shape === "flat oval" ? drawn.top + drawn.height / 2 : (places[0]?.y ?? drawn.bottom);
  const center = { x: drawn.left + drawn.width / 2, y: drawn.top + drawn.height / 2 };
  return (
    <svg class="vs-drawing" viewBox={`0 0 ${drawn.drawingWidth} ${height}`} role="img" aria-label={description}>
      <SectionOutline drawn={drawn} />
      {labels.map(({ x, text, level }) => {
        const top = drawn.bottom + 8 + level * levelHeight;
        return (
          <g key={x}>
            <line class="vs-lead-line" x1={x} y1={firstLine} x2={x} y2={top} />
            <text class="vs-depth" x={0} y={0} transform={`translate(${x + 3} ${top + 3}) rotate(90)`}>
              {text}
            </text>
          </g>
        );
      })}
      {points.plan.lines.map(({ line, hole, end }) => {
        const [from, to] = [drawn.placeOf(hole), drawn.placeOf(end)];
        const away = Math.hypot(from.x - center.x, from.y - center.y) || 1;
        const letter =
          shape === "round"
            ? {
                x: from.x + ((from.x - center.x) / away) * letterDistance,
                y: from.y + ((from.y - center.y) / away) * letterDistance,
              }
            : shape === "flat oval"
              ? { x: from.x, y: drawn.top - letterDistance }
              : { x: from.x - letterDistance, y: from.y };
        return (
          <g key={line}>
            <line class="vs-line" x1={from.x} y1={from.y} x2={to.x} y2={to.y} />
            <text class="vs-letter" x={letter.x} y={letter.y}>
              {lineLetter(line)}
            </text>
          </g>
        );
      })}
      {places.map(({ x, y }, index) => (
        <g key={points.keys[index]} class={pointClass(index === current, taken[index] === true)}>
          {index === current && <circle class="vs-halo" cx={x} cy={y} r={Math.max(radius, numbered) + 3.5} />}
          <circle class="vs-dot" cx={x} cy={y} r={index === current ? Math.max(radius, numbered + 1) : radius} />
          {(radius >= numbered || index === current) && (
            <text class="vs-number" x={x} y={y}>
              {index + 1}
            </text>
          )}
        </g>
      ))}
    </svg>
  );
}

function pointClass(isCurrent: boolean, isTaken: boolean): string {
  return `vs-point${isCurrent ? " vs-now" : ""}${isTaken ? " vs-taken" : ""}`;
}
