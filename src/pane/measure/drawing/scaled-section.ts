import type { AnyDuctSection, SectionPlace } from "../../../core/index.js";

/** Units of the drawing: as many as the pane is pixels wide at its usual size. */
const DRAWING_WIDTH = 290;
/** For the letters beside the section. */
const MARGIN = 20;
const TALLEST = 300;

export interface DrawingPoint {
  readonly x: number;
  readonly y: number;
}

/** A cross-section to scale in the units of the drawing. */
export interface ScaledSection {
  readonly section: AnyDuctSection;
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  /** Width of the whole drawing and height down to the lower edge of the section. */
  readonly drawingWidth: number;
  readonly bottom: number;
  /** Where a place of the section lies in the drawing, whose y runs down. */
  readonly placeOf: (place: SectionPlace) => DrawingPoint;
}

function sidesOf(section: AnyDuctSection): readonly [widthIn: number, heightIn: number] {
  switch (section.shape) {
    case "round":
      return [section.diameterIn, section.diameterIn];
    case "rectangular":
      return [section.widthIn, section.heightIn];
    case "flat oval":
      return [section.majorIn, section.minorIn];
  }
}

/**
 * Scales a cross-section into the drawing, as large as its width and height allow.
 *
 * @param textScale - How much larger than usual its letters are
 */
export function scaledSection(section: AnyDuctSection, textScale: number): ScaledSection {
  const margin = MARGIN * textScale;
  const [widthIn, heightIn] = sidesOf(section);
  const scale = Math.min((DRAWING_WIDTH - 2 * margin) / widthIn, TALLEST / heightIn);
  const [width, height] = [widthIn * scale, heightIn * scale];
  const left = (DRAWING_WIDTH - width) / 2;
  const top = margin;
  return {
    section,
    left,
    top,
    width,
    height,
    drawingWidth: DRAWING_WIDTH,
    bottom: top + height,
    placeOf: ({ xIn, yIn }) => ({ x: left + xIn * scale, y: top + height - yIn * scale }),
  };
}
