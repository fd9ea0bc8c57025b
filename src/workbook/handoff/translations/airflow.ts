import { PLAUSIBLE } from "../../../../shared/tables/plausible-ranges.js";
import { kgM3FromLbFt3, psiFromInchesOfMercury, psiFromPascals } from "../../../core/index.js";
import {
  allOf,
  anyMissing,
  anyOf,
  choose,
  inUnits,
  isOmitted,
  measured,
  needing,
  optional,
  optionalZero,
  part,
  quietWhenEmpty,
  WRONG,
} from "../formula-text.js";
import { overReadings } from "../readings-text.js";
import { type CallArguments, ofBlocks, ofValues, type Translation } from "../translation.js";
import { factorText, isDensity, squareText } from "./openings.js";
import { standardDensity } from "./readings.js";

/** m/s times m² is m³/s, and a thousand L/s. */
const flowScale = (units: string) => inUnits(units, "1", "1000");

function throughOpening(call: CallArguments, factor: string): string {
  const { text } = call;
  const units = text("units");
  const scale = inUnits(units, "144", "1000");
  const square = squareText(text("width"), text("height"));
  return overReadings(call, call.block("readings"), ({ mean }) => `${mean}*${square}*${factor}/${scale}`);
}

/** Saturation pressure in psi at an absolute temperature, below and above the triple point. */
function saturationText(t: string): string {
  const ice = `-10214.165/${t}-4.8932428-0.0053765794*${t}+1.9202377E-7*${t}^2+3.5575832E-10*${t}^3-9.0344688E-14*${t}^4+4.1635019*LN(${t})`;
  const water = `-10440.397/${t}-11.29465-0.027022355*${t}+1.289036E-5*${t}^2-2.4780681E-9*${t}^3+6.5459673*LN(${t})`;
  return `EXP(IF(${t}<=32.018+459.67,${ice},${water}))`;
}

/** A result from a density, refused where no air has it. */
function ofAir(text: CallArguments["text"], result: string): string {
  return `IF(${isDensity(text("density"), text("units"))},${result},${WRONG})`;
}

/** The pressure on site in psi: the barometer's, otherwise that of the elevation in the standard atmosphere. */
function sitePressure(text: CallArguments["text"]): string {
  const [units, barometer] = [text("units"), text("barometer")];
  const elevation = `(${optionalZero(text("elevation"), "0")})/${inUnits(units, "1", "0.3048")}`;
  const standard = `14.696*(1-6.8754E-6*(${elevation}))^5.2559`;
  const checked = `IF((${elevation})>${PLAUSIBLE.elevationFt.most},${WRONG},${standard})`;
  if (isOmitted(barometer)) return checked;
  const psi = `${part(barometer)}*${inUnits(units, `${psiFromInchesOfMercury(1)}`, `${psiFromPascals(1000)}`)}`;
  const { least, most } = PLAUSIBLE.barometerPsi;
  const isFar = allOf([`(${elevation})<>0`, `ABS(${psi}/(${standard})-1)>${PLAUSIBLE.barometerFromElevationRatio}`]);
  const isOdd = anyOf([`(${elevation})>${PLAUSIBLE.elevationFt.most}`, `${psi}<${least}`, `${psi}>${most}`, isFar]);
  const read = `IF(ISNUMBER(${barometer}),IF(${isOdd},${WRONG},${psi}),${WRONG})`;
  return choose(anyMissing([barometer]), checked, read);
}

/** Density of moist air: the perfect-gas relation of dry air with its water at the pressure on site. */
function densityOf(text: CallArguments["text"]): string {
  const [temperature, units] = [text("temperature"), text("units")];
  const t = `(${inUnits(units, part(temperature), `(${part(temperature)}*1.8+32)`)}+459.67)`;
  const pressure = `(${sitePressure(text)})`;
  const humidity = optional(text("humidity"), "0", "0 or more");
  const percent = humidity === "0" ? "0" : `IF(${allOf([`(${humidity})>0`, `(${humidity})<=1`])},${WRONG},${humidity})`;
  const vapor = `${percent}/100*${saturationText(t)}`;
  // (1 + W) · p / (1 + 1.607858 · W) with W = 0.621945 · pw / (p − pw), so that each of them stands there but twice.
  const water = `${1 - 0.621945}*${vapor}`;
  const moistPressure = `(${pressure}-${water})/(1-${1 - 1.607858 * 0.621945}*${vapor}/${pressure})`;
  const moist = `${humidity === "0" ? pressure : moistPressure}*144/53.35/${t}`;
  const bound = (which: "least" | "most") =>
    inUnits(units, `${PLAUSIBLE.temperatureF[which]}`, `${PLAUSIBLE.temperatureC[which]}`);
  const isOdd = anyOf([`${part(temperature)}<${bound("least")}`, `${part(temperature)}>${bound("most")}`]);
  const density = `${moist}*${inUnits(units, "1", `${kgM3FromLbFt3(1)}`)}`;
  return needing([[temperature, "any"]], `IF(${isOdd},${WRONG},${density})`);
}

export const AIRFLOWS: Readonly<Record<string, Translation>> = {
  AIRFLOW: ofValues((text) => {
    const [velocity, area] = [text("velocity"), text("freeArea")];
    const flow = `${part(velocity)}*${part(area)}*${flowScale(text("units"))}`;
    return measured(velocity, text("taken"), needing([[area, "above 0"]], flow));
  }),
  "AIRFLOW.FACE": ofBlocks(["readings"], (call) => throughOpening(call, factorText(call.text("factor")))),
  "AIRFLOW.DUCT": ofBlocks(["readings"], (call) => throughOpening(call, "1")),
  "AIRFLOW.TARGET": ofValues((text) => {
    const [design, area] = [text("design"), text("area")];
    const velocity = `${part(design)}/(${part(area)}*${factorText(text("factor"))})/${flowScale(text("units"))}`;
    const needed = needing(
      [
        [design, "0 or more"],
        [area, "above 0"],
      ],
      velocity,
    );
    return quietWhenEmpty([design, area], needed);
  }),
  "AIR.DENSITY": ofValues(densityOf),
  "AIR.ACTUAL": ofValues((text) => {
    const [velocity, density] = [text("standardVelocity"), text("density")];
    const actual = `${part(velocity)}*${standardDensity(text("units"))}/${part(density)}`;
    return measured(velocity, text("taken"), needing([[density, "above 0"]], ofAir(text, actual)));
  }),
  "AIR.STANDARD": ofValues((text) => {
    const [airflow, density] = [text("airflow"), text("density")];
    const standard = `${part(airflow)}*${part(density)}/${standardDensity(text("units"))}`;
    return measured(airflow, text("taken"), needing([[density, "above 0"]], ofAir(text, standard)));
  }),
  "DUCT.LEAKAGE": ofBlocks(["outlets"], (call) => lost(call, (fan, sum) => `${fan}-${sum}`)),
  "DUCT.LEAKAGEPERCENT": ofBlocks(["outlets"], (call) => lost(call, (fan, sum) => `100*(${fan}-${sum})/${fan}`)),
};

/** What a fan moves and the outlets do not show; quiet until both are measured. */
function lost(call: CallArguments, loss: (fan: string, sum: string) => string): string {
  const [fan, outlets] = [call.text("fan"), call.block("outlets")];
  const checked = needing([[fan, "0 or more"]], loss(part(fan), outlets.sum));
  const compared = overReadings(call, outlets, () => quietWhenEmpty([fan], checked));
  return `IF(ISTEXT(${fan})*(${part(fan)}<>""),${WRONG},${compared})`;
}
