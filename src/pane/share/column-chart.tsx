import { useId } from "preact/hooks";

/** One column; where several of them stand side by side the same label may be left to a few. */
export interface Column {
  readonly key: string;
  readonly value: number;
  /** Beneath the column; "" for none. */
  readonly label: string;
}

interface ColumnChartProps {
  readonly title: string;
  /** What the chart shows, for whoever does not see it. */
  readonly description: string;
  readonly columns: readonly Column[];
  /** The value at the top of the chart, above 0. */
  readonly most: number;
  readonly mostLabel: string;
}

const WIDTH = 296;
const HEIGHT = 128;
const TOP = 14;
const BOTTOM = 18;
const GAP_RATIO = 0.15;

/** How wide a character of a label is at most. */
const CHARACTER_WIDTH = 7;

/** A label at either end that is wider than its column stays inside the chart. */
function anchorOf(label: string, index: number, count: number): "start" | "middle" | "end" {
  if (label.length * CHARACTER_WIDTH <= WIDTH / count) return "middle";
  if (index === 0) return "start";
  return index === count - 1 ? "end" : "middle";
}

/** Columns over a base line. The figures stand in a table beside it. */
export function ColumnChart({ title, description, columns, most, mostLabel }: ColumnChartProps) {
  const id = useId();
  const step = WIDTH / Math.max(columns.length, 1);
  const scale = (HEIGHT - TOP - BOTTOM) / most;
  const base = HEIGHT - BOTTOM;
  return (
    <figure class="vs-chart">
      <figcaption>{title}</figcaption>
      <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-labelledby={id}>
        <title id={id}>{description}</title>
        <line class="vs-chart-rule" x1="0" x2={WIDTH} y1={TOP} y2={TOP} />
        <text class="vs-chart-text" x="0" y={TOP - 3}>
          {mostLabel}
        </text>
        {columns.map(({ key, value, label }, index) => {
          const height = Math.max(0, Math.min(value, most)) * scale;
          const anchor = anchorOf(label, index, columns.length);
          const places = { start: index * step, middle: (index + 0.5) * step, end: (index + 1) * step };
          return (
            <g key={key}>
              <rect
                class="vs-chart-column"
                x={index * step + step * GAP_RATIO}
                y={base - height}
                width={step * (1 - 2 * GAP_RATIO)}
                height={height}
              />
              {label !== "" && (
                <text class="vs-chart-text" x={places[anchor]} y={HEIGHT - 4} text-anchor={anchor}>
                  {label}
                </text>
              )}
            </g>
          );
        })}
        <line class="vs-chart-base" x1="0" x2={WIDTH} y1={base} y2={base} />
      </svg>
    </figure>
  );
}
