// Written by `npm run generate` from the JSDoc in this folder. Change that, not this.
import { vaneAirActual, vaneAirDensity, vaneAirStandard } from "./air.js";
import { vaneDuctLeakage, vaneDuctLeakagepercent, vaneRoomChanges, vaneRoomTransfer } from "./air-balance.js";
import { vaneAirflow, vaneAirflowDuct, vaneAirflowFace, vaneAirflowTarget } from "./airflow.js";
import { vaneBalanceCommon, vaneBalanceOrder, vaneBalanceRatio } from "./balance.js";
import { vaneBalanceAdvice, vaneBalanceLow } from "./balance-advice.js";
import { vaneBalanceKey, vaneBalanceTarget } from "./balance-setting.js";
import { vaneChangePercent, vaneChangeSweeps, vaneChangeVerdict } from "./change.js";
import { vaneDesignChanges, vaneDesignLoad, vaneDesignRooms, vaneDesignShare, vaneDesignTons } from "./design-airflow.js";
import { vaneDesignDecision, vaneDesignPercent, vaneDesignVerdict } from "./design-result.js";
import { vaneFanAirflow, vaneFanMotor, vaneFanPower, vaneFanPressure, vaneFanSpeed } from "./fan.js";
import { vaneHeatFactor, vaneHeatLatent, vaneHeatOutside, vaneHeatRise, vaneHeatSensible, vaneHeatTotal } from "./heat.js";
import { vaneOpeningFactor, vaneOpeningFree, vaneOpeningOval, vaneOpeningRect, vaneOpeningRound } from "./openings.js";
import { vaneTraverseAverage, vaneTraverseCheck, vaneTraversePressure, vaneTraverseSpread } from "./readings.js";
import { vaneSheetOutlets } from "./sheet.js";
import { vaneSweepAverage } from "./sweep.js";
import { vaneTraverseAngle, vaneTraverseDepths, vaneTraverseOval, vaneTraversePoints, vaneTraverseSite } from "./traverse-plan.js";
import { vaneUncertaintyAirflow, vaneUncertaintyBudget, vaneUncertaintyInstrument, vaneUncertaintyPitot, vaneUncertaintyRepeat } from "./uncertainty.js";
import { vaneDesignExhaust, vaneDesignManufacturedhome, vaneDesignVentilation, vaneDesignVentilationfan } from "./ventilation.js";
import { vaneWorkingsDuct, vaneWorkingsFace } from "./workings.js";
import type { CellFunctionCall } from "./declaration.js";

export const cellCalls: readonly CellFunctionCall[] = [
  ["AIR.ACTUAL", 4, true, vaneAirActual],
  ["AIR.DENSITY", 5, true, vaneAirDensity],
  ["AIR.STANDARD", 4, true, vaneAirStandard],
  ["AIRFLOW", 4, true, vaneAirflow],
  ["AIRFLOW.DUCT", 5, false, vaneAirflowDuct],
  ["AIRFLOW.FACE", 6, false, vaneAirflowFace],
  ["AIRFLOW.TARGET", 4, true, vaneAirflowTarget],
  ["BALANCE.ADVICE", 15, false, vaneBalanceAdvice],
  ["BALANCE.COMMON", 3, false, vaneBalanceCommon],
  ["BALANCE.KEY", 5, true, vaneBalanceKey],
  ["BALANCE.LOW", 7, true, vaneBalanceLow],
  ["BALANCE.ORDER", 4, true, vaneBalanceOrder],
  ["BALANCE.RATIO", 3, true, vaneBalanceRatio],
  ["BALANCE.TARGET", 7, true, vaneBalanceTarget],
  ["CHANGE.PERCENT", 3, true, vaneChangePercent],
  ["CHANGE.SWEEPS", 6, false, vaneChangeSweeps],
  ["CHANGE.VERDICT", 9, true, vaneChangeVerdict],
  ["DESIGN.CHANGES", 3, true, vaneDesignChanges],
  ["DESIGN.DECISION", 6, true, vaneDesignDecision],
  ["DESIGN.EXHAUST", 3, true, vaneDesignExhaust],
  ["DESIGN.LOAD", 4, true, vaneDesignLoad],
  ["DESIGN.MANUFACTUREDHOME", 2, true, vaneDesignManufacturedhome],
  ["DESIGN.PERCENT", 3, true, vaneDesignPercent],
  ["DESIGN.ROOMS", 4, true, vaneDesignRooms],
  ["DESIGN.SHARE", 3, true, vaneDesignShare],
  ["DESIGN.TONS", 3, true, vaneDesignTons],
  ["DESIGN.VENTILATION", 4, true, vaneDesignVentilation],
  ["DESIGN.VENTILATIONFAN", 4, true, vaneDesignVentilationfan],
  ["DESIGN.VERDICT", 5, true, vaneDesignVerdict],
  ["DUCT.LEAKAGE", 3, false, vaneDuctLeakage],
  ["DUCT.LEAKAGEPERCENT", 3, false, vaneDuctLeakagepercent],
  ["FAN.AIRFLOW", 3, true, vaneFanAirflow],
  ["FAN.MOTOR", 2, true, vaneFanMotor],
  ["FAN.POWER", 5, true, vaneFanPower],
  ["FAN.PRESSURE", 5, true, vaneFanPressure],
  ["FAN.SPEED", 3, true, vaneFanSpeed],
  ["HEAT.FACTOR", 2, true, vaneHeatFactor],
  ["HEAT.LATENT", 4, true, vaneHeatLatent],
  ["HEAT.OUTSIDE", 3, true, vaneHeatOutside],
  ["HEAT.RISE", 5, true, vaneHeatRise],
  ["HEAT.SENSIBLE", 4, true, vaneHeatSensible],
  ["HEAT.TOTAL", 4, true, vaneHeatTotal],
  ["OPENING.FACTOR", 2, true, vaneOpeningFactor],
  ["OPENING.FREE", 3, true, vaneOpeningFree],
  ["OPENING.OVAL", 3, true, vaneOpeningOval],
  ["OPENING.RECT", 3, true, vaneOpeningRect],
  ["OPENING.ROUND", 2, true, vaneOpeningRound],
  ["ROOM.CHANGES", 4, true, vaneRoomChanges],
  ["ROOM.TRANSFER", 4, true, vaneRoomTransfer],
  ["SHEET.OUTLETS", 9, true, vaneSheetOutlets],
  ["SWEEP.AVERAGE", 3, false, vaneSweepAverage],
  ["TRAVERSE.ANGLE", 2, false, vaneTraverseAngle],
  ["TRAVERSE.AVERAGE", 2, false, vaneTraverseAverage],
  ["TRAVERSE.CHECK", 3, false, vaneTraverseCheck],
  ["TRAVERSE.DEPTHS", 7, true, vaneTraverseDepths],
  ["TRAVERSE.OVAL", 7, true, vaneTraverseOval],
  ["TRAVERSE.POINTS", 5, true, vaneTraversePoints],
  ["TRAVERSE.PRESSURE", 5, false, vaneTraversePressure],
  ["TRAVERSE.SITE", 5, true, vaneTraverseSite],
  ["TRAVERSE.SPREAD", 2, false, vaneTraverseSpread],
  ["UNCERTAINTY.AIRFLOW", 8, true, vaneUncertaintyAirflow],
  ["UNCERTAINTY.BUDGET", 7, true, vaneUncertaintyBudget],
  ["UNCERTAINTY.INSTRUMENT", 3, true, vaneUncertaintyInstrument],
  ["UNCERTAINTY.PITOT", 7, false, vaneUncertaintyPitot],
  ["UNCERTAINTY.REPEAT", 3, false, vaneUncertaintyRepeat],
  ["WORKINGS.DUCT", 9, true, vaneWorkingsDuct],
  ["WORKINGS.FACE", 8, true, vaneWorkingsFace],
];
