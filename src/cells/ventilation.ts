import { DWELLING_VENTILATION, type DwellingVentilationEdition } from "../../shared/tables/dwelling-ventilation.js";
import { LOCAL_EXHAUST, type LocalExhaustKind, type LocalExhaustRule } from "../../shared/tables/local-exhaust.js";
import {
  dwellingVentilation,
  localExhaust,
  manufacturedHomeVentilation,
  type VentilationKind,
  ventilationFanAirflow,
} from "../core/index.js";
import { CellError, missingInput, wrongInput } from "./cell-error.js";
import { NOTHING_YET } from "./guard.js";
import { overBlocks } from "./over-blocks.js";
import { asSingle, isGiven, readNeeded, readNeededZero, readOptional, readOptionalZero } from "./read-range.js";
import { readUnits } from "./unit-system.js";

const LATEST_EDITION: DwellingVentilationEdition = "62.2-2019";

/** Reads a word that must be one of a few; upper case, spaces and underscores do not matter. */
function readWord<Word extends string>(argument: string, value: unknown, words: readonly Word[]): Word {
  const single = asSingle(value);
  if (single instanceof CellError) throw new CellError(single.code, `${argument} is in error: ${single.message}`);
  if (!isGiven(single)) throw missingInput(`${argument} is missing. Enter one of: ${words.join(", ")}.`);
  const spelled = String(single)
    .trim()
    .toLowerCase()
    .replaceAll(/[\s_]+/g, "-");
  const found = words.find((word) => word === spelled);
  if (found === undefined) throw wrongInput(`${argument} must be one of: ${words.join(", ")}.`);
  return found;
}

/** Reads an edition of the standard, as "62.2-2019" or by its year alone. */
function readEdition(value: unknown): DwellingVentilationEdition {
  if (!isGiven(value)) return LATEST_EDITION;
  const single = asSingle(value);
  const spelled = /^\d{4}$/.test(String(single)) ? `62.2-${single}` : single;
  return readWord("edition", spelled, Object.keys(DWELLING_VENTILATION) as DwellingVentilationEdition[]);
}

/**
 * Whole-dwelling ventilation rate by a named edition of ASHRAE 62.2. The local code says which edition holds.
 *
 * @customfunction DESIGN.VENTILATION
 * @param floorArea Floor area of the dwelling [ft2 or m2].
 * @param bedrooms Bedrooms; a studio counts as one.
 * @param [edition] Year of the edition, 2019 (0.03 cfm per ft2) or 2010 (0.01 cfm per ft2); 2019 when left out.
 * @param [units] "ip" (ft2, cfm) or "si" (m2, L/s); inch-pound when left out.
 * @returns Outdoor air before any credit for infiltration [cfm or L/s].
 * @roles units
 */
export function vaneDesignVentilation(floorArea: any[][], bedrooms: any[][], edition?: any, units?: any): any[][] {
  return overBlocks(["floorArea", "bedrooms"], [floorArea, bedrooms], (oneArea, oneBedrooms) => {
    if (!isGiven(oneArea)) return NOTHING_YET;
    const system = readUnits(units);
    const floorAreaFt2 = system.toFt2(readNeeded("floorArea", oneArea));
    const bedroomCount = readNeeded("bedrooms", oneBedrooms);
    return system.fromCfm(dwellingVentilation(floorAreaFt2, bedroomCount, readEdition(edition)));
  });
}

/**
 * Minimum whole-house ventilation of a manufactured home by 24 CFR 3280.103: 0.035 cfm per ft2, never below 50 cfm.
 *
 * @customfunction DESIGN.MANUFACTUREDHOME
 * @param floorArea Interior floor area [ft2 or m2].
 * @param [units] "ip" (ft2, cfm) or "si" (m2, L/s); inch-pound when left out.
 * @returns Outdoor air [cfm or L/s].
 * @roles units
 */
export function vaneDesignManufacturedhome(floorArea: any[][], units?: any): any[][] {
  return overBlocks(["floorArea"], [floorArea], (oneArea) => {
    if (!isGiven(oneArea)) return NOTHING_YET;
    const system = readUnits(units);
    return system.fromCfm(manufacturedHomeVentilation(system.toFt2(readNeeded("floorArea", oneArea))));
  });
}

/**
 * Airflow that the ventilation fan has to bring once infiltration is credited, by ASHRAE 62.2-2019.
 *
 * @customfunction DESIGN.VENTILATIONFAN
 * @param total Whole-dwelling ventilation rate [cfm or L/s].
 * @param infiltration Effective annual infiltration, in the same unit; 0 gives no credit [cfm or L/s].
 * @param kind The word balanced where supply and exhaust fans move alike, else unbalanced.
 * @param [exterior] Part of the envelope that meets outdoor air, 0 to 1; 1, a detached house, when left out [ratio].
 * @returns Airflow of the fan, in the unit of the rate.
 */
export function vaneDesignVentilationfan(
  total: any[][],
  infiltration: any[][],
  kind: any[][],
  exterior?: any[][],
): any[][] {
  const names = ["total", "infiltration", "kind", "exterior"];
  return overBlocks(names, [total, infiltration, kind, exterior], (oneTotal, oneInfiltration, oneKind, oneExterior) => {
    if (!isGiven(oneTotal)) return NOTHING_YET;
    return ventilationFanAirflow(
      readNeeded("total", oneTotal),
      readNeededZero("infiltration", oneInfiltration),
      readOptionalZero("exterior", oneExterior, 1),
      readWord<VentilationKind>("kind", oneKind, ["balanced", "unbalanced"]),
    );
  });
}

/**
 * Minimum exhaust airflow of a kitchen or bath. The local code decides which rule binds.
 *
 * @customfunction DESIGN.EXHAUST
 * @param kind One of bath-on-demand, bath-continuous, kitchen-on-demand, kitchen-continuous, manufactured-home-bath, manufactured-home-kitchen.
 * @param [volume] Volume of the room; only kitchen-continuous needs it [ft3 or m3].
 * @param [units] "ip" (ft3, cfm) or "si" (m3, L/s); inch-pound when left out.
 * @returns Minimum exhaust airflow [cfm or L/s].
 * @roles units
 */
export function vaneDesignExhaust(kind: any[][], volume?: any[][], units?: any): any[][] {
  return overBlocks(["kind", "volume"], [kind, volume], (oneKind, oneVolume) => {
    if (!isGiven(oneKind)) return NOTHING_YET;
    const system = readUnits(units);
    const row = readWord("kind", oneKind, Object.keys(LOCAL_EXHAUST) as LocalExhaustKind[]);
    const rule: LocalExhaustRule = LOCAL_EXHAUST[row];
    const needsVolume = "leastChangesPerHour" in rule;
    const volumeFt3 = needsVolume
      ? system.toFt3(readNeeded("volume", oneVolume))
      : readOptional("volume", oneVolume, 0);
    return system.fromCfm(localExhaust(row, volumeFt3));
  });
}
