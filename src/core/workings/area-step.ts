import { flatOvalArea } from "../openings/flat-oval-area.js";
import { rectangleArea } from "../openings/rectangle-area.js";
import { roundArea } from "../openings/round-area.js";
import type { OpeningSize } from "./opening-size.js";
import type { WorkingInput, WorkingStep } from "./workings.js";

const SOURCE = "Plane geometry; units converted exactly";

/** The step from a size to an area. */
export function areaStep(title: string, size: OpeningSize): WorkingStep {
  const common = { title, symbol: "A", unit: "ft2", source: SOURCE, assumed: null } as const;
  switch (size.shape) {
    case "rectangle":
      return {
        ...common,
        expression: "w * h",
        inputs: [length("Width", "w", size.widthIn), length("Height", "h", size.heightIn)],
        result: rectangleArea(size.widthIn, size.heightIn),
      };
    case "round":
      return {
        ...common,
        expression: "pi * d^2 / 4",
        inputs: [length("Diameter", "d", size.diameterIn)],
        result: roundArea(size.diameterIn),
      };
    case "flat oval":
      return {
        ...common,
        expression: "pi * a^2 / 4 + a * (b - a)",
        inputs: [length("Minor axis", "a", size.minorIn), length("Major axis", "b", size.majorIn)],
        result: flatOvalArea(size.majorIn, size.minorIn),
      };
  }
}

function length(name: string, symbol: string, value: number): WorkingInput {
  return { name, symbol, value, unit: "in" };
}
