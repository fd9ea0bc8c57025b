import { type Translation, valueOnly } from "./translation.js";
import { AIRFLOWS } from "./translations/airflow.js";
import { BLOCKS } from "./translations/blocks.js";
import { DESIGN } from "./translations/design.js";
import { HEAT_AND_FAN } from "./translations/heat-and-fan.js";
import { OPENINGS } from "./translations/openings.js";
import { READINGS } from "./translations/readings.js";
import { TRUST } from "./translations/trust.js";

const BLOCK_RESULT = "Its result is a block of cells, which older programs cannot spill.";
const WORK_ORDER = "It weighs the outlets of a block against each other, step by step.";
const WORDS = "Its result is a sentence put together from several findings.";

/** Every cell function, by id, and the plain formula that takes its place. */
export const TRANSLATIONS: Readonly<Record<string, Translation>> = {
  ...OPENINGS,
  ...READINGS,
  ...AIRFLOWS,
  ...DESIGN,
  ...HEAT_AND_FAN,
  ...TRUST,
  ...BLOCKS,
  "BALANCE.ADVICE": valueOnly(WORDS),
  "BALANCE.COMMON": valueOnly(WORK_ORDER),
  "BALANCE.KEY": valueOnly(WORK_ORDER),
  "BALANCE.LOW": valueOnly(WORK_ORDER),
  "BALANCE.ORDER": valueOnly(WORK_ORDER),
  "BALANCE.TARGET": valueOnly(WORK_ORDER),
  "DESIGN.EXHAUST": valueOnly("It looks its minimum airflow up by the kind of room."),
  "DESIGN.ROOMS": valueOnly(BLOCK_RESULT),
  "FAN.MOTOR": valueOnly(WORDS),
  "ROOM.TRANSFER": valueOnly("Which of its airflows count depends on how many were measured."),
  "TRAVERSE.DEPTHS": valueOnly("The positions follow from rules that no short formula holds."),
  "TRAVERSE.OVAL": valueOnly("The places follow from areas that no short formula halves."),
  "TRAVERSE.POINTS": valueOnly("The usual counts follow from rules that no short formula holds."),
  "UNCERTAINTY.BUDGET": valueOnly(BLOCK_RESULT),
  "WORKINGS.DUCT": valueOnly(BLOCK_RESULT),
  "WORKINGS.FACE": valueOnly(BLOCK_RESULT),
};
