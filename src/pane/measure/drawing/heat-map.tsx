import { figure, preciseFigure } from "../../controls/shown-figure.js";
import type { PointPlan } from "../understood-plan.js";
import { pointCells } from "./point-cells.js";
import { scaledSection } from "./scaled-section.js";
import { SectionOutline } from "./section-outline.js";
import { useTextScale } from "./use-text-scale.js";
import { velocityScale } from "./velocity-scale.js";

interface HeatMapProps {
  readonly points: PointPlan;
  readonly readings: readonly (number | null)[];
  readonly unit: string;
}

function stepClass(step: number | null): string {
  if (step === null) return "vs-heat vs-untaken";
  return step < 0 ? "vs-heat vs-reversed" : `vs-heat vs-heat-${step}`;
}

const shown = (velocity: number) => preciseFigure(velocity, 3);

/** The profile: each point's part of the section in the colour of its velocity, with the number in it. */
export function HeatMap({ points, readings, unit }: HeatMapProps) {
  const textScale = useTextScale();
  const drawn = scaledSection(points.section, textScale);
  const cells = pointCells(points, drawn, textScale);
  const scale = velocityScale(readings);
  const legend = [
    ...scale.steps.map(({ from, to }, step) => ({ step, text: `${shown(from)} to ${shown(to)}` })),
    ...(scale.hasReversed ? [{ step: -1, text: "reverse flow" }] : []),
  ];
  return (
    <figure class="vs-figure">
      <svg
        class="vs-drawing"
        viewBox={`0 0 ${drawn.drawingWidth} ${drawn.bottom + 8}`}
        role="img"
        aria-label={`Profile of the velocities, from ${shown(scale.steps[0]?.from ?? 0)} to ${shown(scale.steps.at(-1)?.to ?? 0)} ${unit}. Every reading is in the table below.`}
      >
        {cells.map(({ path, label, isRoomy }, index) => {
          const reading = readings[index] ?? null;
          return (
            <g key={points.keys[index]} class={stepClass(scale.stepOf(reading))}>
              <path d={path} />
              {isRoomy && (
                <text x={label.x} y={label.y}>
                  {reading === null ? "–" : figure(reading)}
                </text>
              )}
            </g>
          );
        })}
        <SectionOutline drawn={drawn} />
      </svg>
      <figcaption>
        <ul class="vs-legend" aria-label={`Colours, ${unit}`}>
          {legend.map(({ step, text }) => (
            <li key={step}>
              <svg class="vs-swatch" viewBox="0 0 12 12" aria-hidden="true">
                <g class={stepClass(step)}>
                  <rect width="12" height="12" />
                </g>
              </svg>
              {text}
            </li>
          ))}
          <li class="vs-unit">{unit}</li>
        </ul>
      </figcaption>
    </figure>
  );
}
