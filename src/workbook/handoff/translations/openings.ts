import { ASSUMED_FREE_AREA } from "../../../../shared/tables/assumed-free-area.js";
import { PLAUSIBLE } from "../../../../shared/tables/plausible-ranges.js";
import { kgM3FromLbFt3 } from "../../../core/index.js";
import {
  allOf,
  anyMissing,
  choose,
  inUnits,
  isOmitted,
  needing,
  optional,
  part,
  quietWhenEmpty,
  WRONG,
} from "../formula-text.js";
import { ofValues, type Translation } from "../translation.js";

/** Square inches in a square foot, and square millimeters in a square meter. */
export const areaScale = (units: string) => inUnits(units, "144", "1000000");

/** The free-area factor, assumed where it is not given; #VALUE! outside 0 to 1. */
export function factorText(factor: string): string {
  const assumed = `${ASSUMED_FREE_AREA.metal.freeAreaRatio}`;
  if (isOmitted(factor)) return assumed;
  const checked = `IF(ISNUMBER(${factor})*(${part(factor)}>0)*(${part(factor)}<=1),${part(factor)},${WRONG})`;
  return choose(anyMissing([factor]), assumed, checked);
}

/** Width times height, or the round area where there is no height, in the square of the unit of the sizes. */
export function squareText(width: string, height: string): string {
  const round = `PI()*${part(width)}^2/4`;
  const h = part(height);
  const rectangle = `${part(width)}*IF(ISNUMBER(${height})*(${h}>0)*(${h}<=${PLAUSIBLE.length.most}),${h},${WRONG})`;
  return needing([[width, "a length"]], isOmitted(height) ? round : choose(anyMissing([height]), round, rectangle));
}

export const OPENINGS: Readonly<Record<string, Translation>> = {
  "OPENING.RECT": ofValues((text) => {
    const [width, height] = [text("width"), text("height")];
    const area = `${part(width)}*${part(height)}/${areaScale(text("units"))}`;
    const needed = needing(
      [
        [width, "a length"],
        [height, "a length"],
      ],
      area,
    );
    return quietWhenEmpty([width, height], needed);
  }),
  "OPENING.ROUND": ofValues((text) => {
    const diameter = text("diameter");
    const area = `PI()*${part(diameter)}^2/4/${areaScale(text("units"))}`;
    return quietWhenEmpty([diameter], needing([[diameter, "a length"]], area));
  }),
  "OPENING.OVAL": ofValues((text) => {
    const [major, minor] = [part(text("major")), part(text("minor"))];
    const area = `(PI()*${minor}^2/4+${minor}*(${major}-${minor}))/${areaScale(text("units"))}`;
    const ordered = `IF(${major}>=${minor},${area},${WRONG})`;
    const needed = needing(
      [
        [text("major"), "a length"],
        [text("minor"), "a length"],
      ],
      ordered,
    );
    return quietWhenEmpty([text("major"), text("minor")], needed);
  }),
  "OPENING.FREE": ofValues((text) => {
    const [area, factor, effective] = [text("area"), text("factor"), text("effectiveArea")];
    const byFactor = `${part(area)}*${factorText(factor)}`;
    const fits = `IF(ISNUMBER(${effective})*(${part(effective)}>0)*(${part(effective)}<=${part(area)}),${part(effective)},${WRONG})`;
    const byEffective = choose(anyMissing([factor]), fits, WRONG);
    const free = isOmitted(effective) ? byFactor : choose(anyMissing([effective]), byFactor, byEffective);
    return quietWhenEmpty([area, factor, effective], needing([[area, "above 0"]], free));
  }),
  "OPENING.FACTOR": ofValues((text) => {
    const [effective, area] = [part(text("effectiveArea")), part(text("area"))];
    const ratio = `IF(${effective}<=${area},${effective}/${area},${WRONG})`;
    const needed = needing(
      [
        [text("effectiveArea"), "above 0"],
        [text("area"), "above 0"],
      ],
      ratio,
    );
    return quietWhenEmpty([text("effectiveArea"), text("area")], needed);
  }),
};

/** True where a density is one that air has, in the person's unit system. */
export function isDensity(density: string, units: string): string {
  const { least, most } = PLAUSIBLE.densityLbFt3;
  const bound = (limit: number) => inUnits(units, `${limit}`, `${kgM3FromLbFt3(limit)}`);
  return allOf([`${part(density)}>=${bound(least)}`, `${part(density)}<=${bound(most)}`]);
}

/** Exported for the airflows: an optional density of the person's unit system, standard air where none is given. */
export function densityText(density: string, standard: string, units: string): string {
  const given = optional(density, standard, "above 0");
  if (given === standard) return standard;
  const checked = `IF(${isDensity(density, units)},${part(density)},${WRONG})`;
  return choose(anyMissing([density]), standard, `IF(ISNUMBER(${density}),${checked},${WRONG})`);
}
