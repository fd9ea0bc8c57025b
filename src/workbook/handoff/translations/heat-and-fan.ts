import { PLAUSIBLE } from "../../../../shared/tables/plausible-ranges.js";
import {
  btuPerHourFromWatts,
  btuPerLbFromKilojoulesPerKg,
  cfmFromLitersPerSecond,
  kgM3FromLbFt3,
} from "../../../core/index.js";
import {
  allMissing,
  allOf,
  anyMissing,
  choose,
  EMPTY,
  inUnits,
  needing,
  part,
  quietWhenEmpty,
  WRONG,
} from "../formula-text.js";
import { ofValues, type Translation } from "../translation.js";
import { heatFactor } from "./design.js";
import { densityText } from "./openings.js";
import { standardDensity } from "./readings.js";

/** Minutes an hour times the heat of evaporation that the trade's 4840 rests on. */
const LATENT_INCH_POUND = 60 * 1076;
const WATTS_PER_BTUH_FLOW = cfmFromLitersPerSecond(1) / kgM3FromLbFt3(1) / btuPerHourFromWatts(1);
const LATENT_METRIC = LATENT_INCH_POUND * WATTS_PER_BTUH_FLOW;
const TOTAL_METRIC = 60 * WATTS_PER_BTUH_FLOW * btuPerLbFromKilojoulesPerKg(1);

type Text = (name: string) => string;

const density = (text: Text) => densityText(text("density"), standardDensity(text("units")), text("units"));

/** Heat of an airflow at a difference; quiet where no airflow stands. */
function heat(text: Text, constant: string): string {
  const [airflow, difference] = [text("airflow"), text("difference")];
  const product = `${constant}*${density(text)}*${part(airflow)}*${part(difference)}`;
  const needed = needing(
    [
      [airflow, "any"],
      [difference, "any"],
    ],
    product,
  );
  return choose(anyMissing([airflow]), EMPTY, needed);
}

function rise(text: Text): string {
  const [output, entering, leaving, units] = [text("output"), text("entering"), text("leaving"), text("units")];
  const difference = `(${part(leaving)}-${part(entering)})`;
  const flow = `IF(${difference}>0,${part(output)}/(${heatFactor(units)}*${density(text)}*${difference}),${WRONG})`;
  const needed = needing(
    [
      [output, "above 0"],
      [entering, "any"],
      [leaving, "any"],
    ],
    flow,
  );
  return quietWhenEmpty([entering, leaving], needed);
}

/** Refuses, as the function does, equal temperatures and a mixed one that lies outside the two. */
function outsideShare(text: Text): string {
  const given = [text("returnAir"), text("outsideAir"), text("mixedAir")] as const;
  const [returned, outside, mixed] = [part(given[0]), part(given[1]), part(given[2])];
  const isApart = `ABS(${returned}-${outside})>=${PLAUSIBLE.outsideDifference.least}`;
  const between = allOf([isApart, `(${returned}-${mixed})*(${mixed}-${outside})>=0`]);
  const share = `IF(${between},(${returned}-${mixed})/(${returned}-${outside}),${WRONG})`;
  const needed = needing(
    given.map((temperature) => [temperature, "any"] as const),
    share,
  );
  return quietWhenEmpty(given, needed);
}

/** A fan law with densities: standard air on both sides where neither is given. */
function lawWithDensity(text: Text, name: string, power: number): string {
  const [value, speed, next] = [text(name), text("speed"), text("newSpeed")];
  const law = `${part(value)}*(${part(next)}/${part(speed)})^${power}`;
  const [old, fresh] = [text("density"), text("newDensity")];
  const dense = needing(
    [
      [old, "above 0"],
      [fresh, "above 0"],
    ],
    `${law}*${part(fresh)}/${part(old)}`,
  );
  const needed = needing(
    [
      [value, "0 or more"],
      [speed, "above 0"],
      [next, "above 0"],
    ],
    choose(allMissing([old, fresh]), law, dense),
  );
  return quietWhenEmpty([value, speed, next], needed);
}

export const HEAT_AND_FAN: Readonly<Record<string, Translation>> = {
  "HEAT.SENSIBLE": ofValues((text) => heat(text, heatFactor(text("units")))),
  "HEAT.LATENT": ofValues((text) => heat(text, inUnits(text("units"), `${LATENT_INCH_POUND}`, `${LATENT_METRIC}`))),
  "HEAT.TOTAL": ofValues((text) => heat(text, inUnits(text("units"), "60", `${TOTAL_METRIC}`))),
  "HEAT.FACTOR": ofValues((text) => `${heatFactor(text("units"))}*${density(text)}`),
  "HEAT.RISE": ofValues(rise),
  "HEAT.OUTSIDE": ofValues(outsideShare),
  "FAN.AIRFLOW": ofValues((text) => {
    const [airflow, speed, next] = [text("airflow"), text("speed"), text("newSpeed")];
    const flow = `${part(airflow)}*${part(next)}/${part(speed)}`;
    const needed = needing(
      [
        [airflow, "0 or more"],
        [speed, "above 0"],
        [next, "above 0"],
      ],
      flow,
    );
    return quietWhenEmpty([airflow, speed, next], needed);
  }),
  "FAN.SPEED": ofValues((text) => {
    const [speed, airflow, wanted] = [text("speed"), text("airflow"), text("wanted")];
    const turns = `${part(speed)}*${part(wanted)}/${part(airflow)}`;
    const needed = needing(
      [
        [speed, "above 0"],
        [airflow, "above 0"],
        [wanted, "above 0"],
      ],
      turns,
    );
    return quietWhenEmpty([speed, airflow, wanted], needed);
  }),
  "FAN.PRESSURE": ofValues((text) => lawWithDensity(text, "pressure", 2)),
  "FAN.POWER": ofValues((text) => lawWithDensity(text, "power", 3)),
};
