import { DESIGN_LIMITS } from "../../../../shared/tables/design-limits.js";
import { DWELLING_VENTILATION, MANUFACTURED_HOME_VENTILATION } from "../../../../shared/tables/dwelling-ventilation.js";
import {
  btuPerHourFromWatts,
  cfmFromLitersPerSecond,
  fahrenheitDifferenceFromCelsius,
  kgM3FromLbFt3,
  LIMIT_TOLERANCE_RATIO,
  litersPerSecondFromCfm,
  squareFeetFromSquareMeters,
  TEST_RULE_CFM_PER_TON,
} from "../../../core/index.js";
import {
  anyMissing,
  choose,
  EMPTY,
  inUnits,
  isOmitted,
  MISSING,
  measured,
  needing,
  optional,
  optionalZero,
  part,
  quietWhenEmpty,
  WRONG,
} from "../formula-text.js";
import { ofBlocks, ofValues, type Translation } from "../translation.js";
import { densityText } from "./openings.js";
import { standardDensity } from "./readings.js";

const TOLERANCE = LIMIT_TOLERANCE_RATIO.toExponential().toUpperCase();
const LITERS_PER_CFM = litersPerSecondFromCfm(1);
const DENSITY_METRIC = kgM3FromLbFt3(1);

/** Sensible heat for each unit of airflow and degree at a density of 1, in the person's units. */
export const heatFactor = (units: string) =>
  inUnits(
    units,
    "14.4",
    `${((14.4 / DENSITY_METRIC) * fahrenheitDifferenceFromCelsius(1) * cfmFromLitersPerSecond(1)) / btuPerHourFromWatts(1)}`,
  );

/** Low, within or high; a limit met exactly on paper counts as met. */
export function verdictText(q: string, d: string, minus: string, plus: string): string {
  const low = `${q}<${d}*(1-(${minus})/100)*(1-${TOLERANCE})`;
  const high = `${q}>${d}*(1+(${plus})/100)*(1+${TOLERANCE})`;
  return `IF(${low},"low",IF(${high},"high","within"))`;
}

function verdict(text: (name: string) => string): string {
  const [q, design] = [text("measured"), text("design")];
  const minus = optionalZero(text("minus"), `${DESIGN_LIMITS.minusPercent}`);
  const plus = optionalZero(text("plus"), `${DESIGN_LIMITS.plusPercent}`);
  const word = verdictText(part(q), part(design), minus, plus);
  const limited = `IF(((${minus})=0)*((${plus})=0),${WRONG},IF(((${minus})<0)+((${minus})>100)+((${plus})<0),${WRONG},${word}))`;
  return measured(q, text("taken"), needing([[design, "above 0"]], limited));
}

/** Dwelling ventilation of an edition that the call names in plain words; null where a cell names it. */
function ventilation(text: (name: string) => string): string | null {
  const edition = text("edition").replaceAll('"', "").trim().toLowerCase();
  const year = isOmitted(text("edition")) ? "62.2-2019" : /^\d{4}$/.test(edition) ? `62.2-${edition}` : edition;
  const rates = Object.entries(DWELLING_VENTILATION).find(([name]) => name === year)?.[1];
  if (rates === undefined) return null;
  const [area, bedrooms] = [text("floorArea"), text("bedrooms")];
  const feet = inUnits(text("units"), "1", `${squareFeetFromSquareMeters(1)}`);
  const flow = `(${rates.areaRateCfmFt2}*${part(area)}*${feet}+${rates.personRateCfm}*(${part(bedrooms)}+1))*${inUnits(text("units"), "1", `${LITERS_PER_CFM}`)}`;
  const whole = `IF(${part(bedrooms)}=INT(${part(bedrooms)}),${flow},${WRONG})`;
  return choose(
    anyMissing([area]),
    EMPTY,
    needing(
      [
        [area, "above 0"],
        [bedrooms, "above 0"],
      ],
      whole,
    ),
  );
}

function fanAfterInfiltration(text: (name: string) => string): string {
  const [total, infiltration, kind] = [text("total"), text("infiltration"), text("kind")];
  const exterior = optionalZero(text("exterior"), "1");
  const [q, i, k] = [part(total), part(infiltration), part(kind)];
  const fan = (share: string) => {
    const flow = `${q}-${share}*${i}*(${exterior})`;
    return `IF(${flow}>0,${flow},0)`;
  };
  const byKind = `IF(LOWER(TRIM(${kind}))="balanced",${fan("1")},IF(LOWER(TRIM(${kind}))="unbalanced",${fan(`${i}/${q}`)},${WRONG}))`;
  const checked = `IF(((${exterior})<0)+((${exterior})>1),${WRONG},IF((${k}="")+(${k}=0),${MISSING},${byKind}))`;
  const flows = `IF(ISTEXT(${infiltration}),IF(${i}="",${MISSING},${WRONG}),IF(${i}<0,${WRONG},${checked}))`;
  return choose(anyMissing([total]), EMPTY, needing([[total, "above 0"]], flows));
}

export const DESIGN: Readonly<Record<string, Translation>> = {
  "DESIGN.PERCENT": ofValues((text) => {
    const [q, design] = [text("measured"), text("design")];
    const percent = `${part(q)}/${part(design)}*100`;
    return measured(q, text("taken"), needing([[design, "above 0"]], percent));
  }),
  "DESIGN.VERDICT": ofValues(verdict),
  "DESIGN.SHARE": ofBlocks(["allLoads"], ({ text, block }) => {
    const [room, system] = [text("roomLoad"), text("systemAirflow")];
    const { sum, holdsText, countBelowZero } = block("allLoads");
    const share = `IF(${part(room)}<=${sum},${part(system)}*${part(room)}/${sum},${WRONG})`;
    const needed = needing(
      [
        [room, "0 or more"],
        [system, "0 or more"],
      ],
      share,
    );
    const loads = `IF((${holdsText})+(${countBelowZero}>0),${sum}+${WRONG},IF(${sum}=0,${MISSING},${needed}))`;
    return quietWhenEmpty([room], loads);
  }),
  "DESIGN.LOAD": ofValues((text) => {
    const [load, difference, units] = [text("sensible"), text("difference"), text("units")];
    const density = densityText(text("density"), standardDensity(units), units);
    const flow = `${part(load)}/(${heatFactor(units)}*${density}*${part(difference)})`;
    const needed = needing(
      [
        [load, "0 or more"],
        [difference, "above 0"],
      ],
      flow,
    );
    return choose(anyMissing([load]), EMPTY, needed);
  }),
  "DESIGN.TONS": ofValues((text) => {
    const [capacity, units] = [text("capacity"), text("units")];
    const metricRule = (TEST_RULE_CFM_PER_TON / cfmFromLitersPerSecond(1)) * (btuPerHourFromWatts(1000) / 12000);
    const perTon = optional(text("perTon"), inUnits(units, `${TEST_RULE_CFM_PER_TON}`, `${metricRule}`), "above 0");
    const needed = needing([[capacity, "0 or more"]], `${part(capacity)}*${perTon}`);
    return choose(anyMissing([capacity]), EMPTY, needed);
  }),
  "DESIGN.CHANGES": ofValues((text) => {
    const [changes, volume] = [text("changes"), text("volume")];
    const flow = `${part(changes)}*${part(volume)}/${inUnits(text("units"), "60", "3.6")}`;
    return choose(
      anyMissing([volume]),
      EMPTY,
      needing(
        [
          [changes, "0 or more"],
          [volume, "above 0"],
        ],
        flow,
      ),
    );
  }),
  "DESIGN.VENTILATION": ofValues(ventilation),
  "DESIGN.VENTILATIONFAN": ofValues(fanAfterInfiltration),
  "DESIGN.MANUFACTUREDHOME": ofValues((text) => {
    const { areaRateCfmFt2, leastCfm } = MANUFACTURED_HOME_VENTILATION;
    const area = text("floorArea");
    const feet = inUnits(text("units"), "1", `${squareFeetFromSquareMeters(1)}`);
    const byArea = `${areaRateCfmFt2}*${part(area)}*${feet}`;
    const flow = `IF(${byArea}>${leastCfm},${byArea},${leastCfm})*${inUnits(text("units"), "1", `${LITERS_PER_CFM}`)}`;
    return choose(anyMissing([area]), EMPTY, needing([[area, "above 0"]], flow));
  }),
  "ROOM.CHANGES": ofValues((text) => {
    const [airflow, volume] = [text("airflow"), text("volume")];
    const minutes = inUnits(text("units"), "60", "3.6");
    const changes = needing(
      [[volume, "above 0"]],
      `IF(${part(airflow)}>=0,${minutes}*${part(airflow)}/${part(volume)},${WRONG})`,
    );
    return quietWhenEmpty([airflow, volume], measured(airflow, text("taken"), changes));
  }),
};
