// Written by `npm run generate` from the JSDoc in this folder. Change that, not this.
import { vaneAirflow } from "./airflow.js";
import type { CellFunctionDeclaration } from "./declaration.js";

export const declarations: readonly CellFunctionDeclaration[] = [
  {"id":"AIRFLOW","description":"Air volume through a free area at a mean velocity. Blocks of equal size give a block.","parameters":[{"name":"velocity","description":"Mean velocity over the area; negative where the air runs backwards [fpm or m/s].","optional":false,"isBlock":true},{"name":"freeArea","description":"Area that the louvers leave free, above 0 [ft2 or m2].","optional":false,"isBlock":true},{"name":"taken","description":"COUNT of the velocity cells, so that a measured 0 is told from a blank cell.","optional":true,"isBlock":false}],"returnsBlock":true,"call":vaneAirflow},
];
