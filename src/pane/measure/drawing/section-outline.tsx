import type { ScaledSection } from "./scaled-section.js";

/** The inside wall of the duct or the frame of the face. */
export function SectionOutline({ drawn }: { readonly drawn: ScaledSection }) {
  const { section, left, top, width, height } = drawn;
  return section.shape === "round" ? (
    <circle class="vs-wall" cx={left + width / 2} cy={top + height / 2} r={width / 2} />
  ) : (
    <rect
      class="vs-wall"
      x={left}
      y={top}
      width={width}
      height={height}
      rx={section.shape === "flat oval" ? height / 2 : 0}
    />
  );
}
