import { cellFunctions } from "../../../cells/index.js";

/** What the cells of an argument are, whatever function takes them. */
export type Role =
  | "readings"
  | "velocity"
  | "measured"
  | "taken"
  | "factor"
  | "area"
  | "width"
  | "height"
  | "design"
  | "rule"
  | "points"
  | "units"
  | "kind of reading";

/** Parameters by name. A parameter that has no role here is not looked at by its role. */
const ROLES: Readonly<Record<string, Role>> = {
  readings: "readings",
  pressures: "readings",
  velocities: "readings",
  velocity: "velocity",
  measured: "measured",
  taken: "taken",
  factor: "factor",
  area: "area",
  freeArea: "area",
  effectiveArea: "area",
  width: "width",
  diameter: "width",
  major: "width",
  height: "height",
  minor: "height",
  design: "design",
  rule: "rule",
  points: "points",
  units: "units",
  quantity: "kind of reading",
};

/** In these functions `factor` and `area` are doubts in percent, and `kind` and `velocity` are something else. */
const OTHERWISE = /^UNCERTAINTY\./;

function roleOf(id: string, parameter: string): Role | undefined {
  if (OTHERWISE.test(id)) return undefined;
  if (id === "TRAVERSE.CHECK" && parameter === "kind") return "kind of reading";
  return Object.hasOwn(ROLES, parameter) ? ROLES[parameter] : undefined;
}

/** For each function, the places of its arguments by their role. */
const PLACES: ReadonlyMap<string, ReadonlyMap<Role, readonly number[]>> = new Map(
  cellFunctions.map(({ id, parameters }) => {
    const places = new Map<Role, number[]>();
    parameters.forEach(({ name }, index) => {
      const role = roleOf(id, name);
      if (role !== undefined) places.set(role, [...(places.get(role) ?? []), index]);
    });
    return [id, places];
  }),
);

/** Where a function takes what plays a role: places in its list of arguments, from 0. */
export function placesOf(id: string, role: Role): readonly number[] {
  return PLACES.get(id)?.get(role) ?? [];
}
