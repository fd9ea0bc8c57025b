import type { DesignLimits } from "../../core/index.js";

interface RatioBarProps {
  readonly ratio: number;
  readonly limits: DesignLimits;
}

/** The scale ends here: an outlet with more is far outside either way. */
const MOST_RATIO = 1.5;
const WIDTH = 300;
const HEIGHT = 14;

const place = (ratio: number) => (Math.min(Math.max(ratio, 0), MOST_RATIO) / MOST_RATIO) * WIDTH;

/** An outlet's share of design between the limits. The words beside it say the same. */
export function RatioBar({ ratio, limits }: RatioBarProps) {
  const [low, high] = [place(1 - limits.minusPercent / 100), place(1 + limits.plusPercent / 100)];
  return (
    <svg class="vs-ratio" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} preserveAspectRatio="none" aria-hidden="true">
      <rect class="vs-ratio-ground" x="0" y="3" width={WIDTH} height={HEIGHT - 6} />
      <rect class="vs-ratio-band" x={low} y="0" width={Math.max(high - low, 1)} height={HEIGHT} />
      <rect class="vs-ratio-bar" x="0" y="4" width={place(ratio)} height={HEIGHT - 8} />
      {[low, high].map((at) => (
        <line key={at} class="vs-ratio-limit" x1={at} x2={at} y1="0" y2={HEIGHT} vector-effect="non-scaling-stroke" />
      ))}
    </svg>
  );
}
