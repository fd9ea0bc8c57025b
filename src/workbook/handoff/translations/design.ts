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
  anyOf,
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

/** The two limits of a call as the cell functions read them, and what is wrong with them. */
export interface LimitsText {
  readonly minus: string;
  readonly plus: string;
  /** Puts a result behind the refusals of the cell functions. */
  readonly checked: (result: string) => string;
}

/** What is known of one limit from the call itself; a cell is asked when the copy calculates. */
function limitOf(text: string): {
  readonly value: string;
  readonly isUnknown: string;
  readonly isBlank: string;
  readonly isWord: string;
} {
  const [t, usual] = [part(text), `${DESIGN_LIMITS.minusPercent}`];
  if (isOmitted(text)) return { value: usual, isUnknown: "FALSE", isBlank: "TRUE", isWord: "FALSE" };
  if (/^"\s*none\s*"$/i.test(text)) return { value: "0", isUnknown: "FALSE", isBlank: "FALSE", isWord: "FALSE" };
  if (!Number.isNaN(Number(text))) {
    return { value: text, isUnknown: Number(text) === 0 ? "TRUE" : "FALSE", isBlank: "FALSE", isWord: "FALSE" };
  }
  return {
    value: `IF(ISTEXT(${text}),IF(${t}="",${usual},0),${t}+0)`,
    isUnknown: `${t}=0`,
    isBlank: `ISTEXT(${text})*(${t}="")`,
    isWord: `ISTEXT(${text})*(${t}<>"")*(LOWER(TRIM(${t}))<>"none")`,
  };
}

const either = (one: string, other: string) => {
  if (one === "TRUE" || other === "TRUE") return "TRUE";
  const open = [one, other].filter((condition) => condition !== "FALSE");
  return open.length === 0 ? "FALSE" : anyOf(open);
};

/** True where one of two is so and the other is not. */
const differing = (one: string, other: string) => {
  if (one === other && ["TRUE", "FALSE"].includes(one)) return "FALSE";
  const known = [one, other].every((condition) => ["TRUE", "FALSE"].includes(condition));
  return known ? "TRUE" : `(${one}+0)<>(${other}+0)`;
};

/** Both limits, or neither for the usual ones; a 0 may be a blank cell, and is refused. */
export function limitsText(minusText: string, plusText: string): LimitsText {
  const [minus, plus] = [limitOf(minusText), limitOf(plusText)];
  const isWrong = either(minus.isWord, plus.isWord);
  const beyond = [
    ...(/^\d/.test(minus.value) ? [] : [`(${minus.value})<0`]),
    ...(/^[\d.]+$/.test(minus.value) && Number(minus.value) <= 100 ? [] : [`(${minus.value})>100`]),
    ...(/^\d/.test(plus.value) ? [] : [`(${plus.value})<0`]),
  ];
  const isBeyond = beyond.length === 0 ? "FALSE" : anyOf(beyond);
  return {
    minus: minus.value,
    plus: plus.value,
    checked: (result) =>
      choose(
        either(minus.isUnknown, plus.isUnknown),
        WRONG,
        choose(
          isWrong,
          WRONG,
          choose(differing(minus.isBlank, plus.isBlank), MISSING, choose(isBeyond, WRONG, result)),
        ),
      ),
  };
}

function verdict(text: (name: string) => string): string {
  const [q, design] = [text("measured"), text("design")];
  const { minus, plus, checked } = limitsText(text("minus"), text("plus"));
  const word = verdictText(part(q), part(design), minus, plus);
  return measured(q, text("taken"), needing([[design, "above 0"]], checked(word)));
}

/** The verdict that holds at both ends of the ±, open where they differ. */
function decision(text: (name: string) => string): string {
  const [q, design, doubt] = [text("measured"), text("design"), text("plusMinus")];
  const { minus, plus, checked } = limitsText(text("minus"), text("plus"));
  const [flow, u] = [part(q), part(doubt)];
  const at = (end: string) => verdictText(end, part(design), minus, plus);
  const [lowest, highest] = [at(`(${flow}-${u})`), at(`(${flow}+${u})`)];
  const word = checked(`IF(${lowest}=${highest},${lowest},"open")`);
  const designed = needing([[design, "above 0"]], word);
  // A ± of 0 belongs to an airflow of 0 only.
  const without = `IF((${flow}=0)*(ISTEXT(${doubt})=FALSE),${designed},${MISSING})`;
  const stated = choose(
    anyMissing([doubt]),
    isOmitted(doubt) ? MISSING : without,
    needing(
      [
        [design, "above 0"],
        [doubt, "0 or more"],
      ],
      word,
    ),
  );
  return measured(q, text("taken"), stated);
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
  "DESIGN.DECISION": ofValues(decision),
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
