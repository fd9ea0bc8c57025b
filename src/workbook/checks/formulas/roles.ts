import { cellFunctions, type ParameterRole } from "../../../cells/index.js";

/** For each function, the places of its arguments by their role. */
const PLACES: ReadonlyMap<string, ReadonlyMap<ParameterRole, readonly number[]>> = new Map(
  cellFunctions.map(({ id, parameters }) => {
    const places = new Map<ParameterRole, number[]>();
    parameters.forEach(({ role }, index) => {
      if (role !== null) places.set(role, [...(places.get(role) ?? []), index]);
    });
    return [id, places];
  }),
);

/** Where a function takes what plays a role: places in its list of arguments, from 0. */
export function placesOf(id: string, role: ParameterRole): readonly number[] {
  return PLACES.get(id)?.get(role) ?? [];
}
