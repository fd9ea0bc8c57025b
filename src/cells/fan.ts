import { STANDARD_AIR } from "../../shared/tables/standard-air.js";
import {
  fanAirflowAtSpeed,
  fanMotorCaution,
  fanPowerAtSpeed,
  fanPressureAtSpeed,
  fanSpeedForAirflow,
} from "../core/index.js";
import type { CellResult } from "./guard.js";
import { overBlocks } from "./over-blocks.js";
import { quietWhenEmpty } from "./quiet-when-empty.js";
import { isGiven, readNeeded } from "./read-range.js";

/**
 * Airflow of a fan at another speed. Same fan, same unchanged system; stay below the wheel's highest allowed speed.
 *
 * @customfunction FAN.AIRFLOW
 * @param airflow Airflow at the present speed, in any unit [cfm or L/s].
 * @param speed Present speed [rpm].
 * @param newSpeed Other speed [rpm].
 * @returns Airflow at the other speed, in the unit of the airflow.
 */
export function vaneFanAirflow(airflow: any[][], speed: any[][], newSpeed: any[][]): any[][] {
  return overBlocks(["airflow", "speed", "newSpeed"], [airflow, speed, newSpeed], (oneAirflow, oneSpeed, oneNew) =>
    quietWhenEmpty([oneAirflow, oneSpeed, oneNew], () =>
      fanAirflowAtSpeed(
        readNeeded("airflow", oneAirflow),
        readNeeded("speed", oneSpeed),
        readNeeded("newSpeed", oneNew),
      ),
    ),
  );
}

/**
 * Fan speed that would bring a wanted airflow. Ten percent more air takes 33 percent more power: check FAN.POWER and
 * the motor first, then set the speed and measure again.
 *
 * @customfunction FAN.SPEED
 * @param speed Present speed [rpm].
 * @param airflow Airflow at the present speed [cfm or L/s].
 * @param wanted Wanted airflow, in the same unit [cfm or L/s].
 * @returns Speed [rpm].
 */
export function vaneFanSpeed(speed: any[][], airflow: any[][], wanted: any[][]): any[][] {
  return overBlocks(["speed", "airflow", "wanted"], [speed, airflow, wanted], (oneSpeed, oneAirflow, oneWanted) =>
    quietWhenEmpty([oneSpeed, oneAirflow, oneWanted], () =>
      fanSpeedForAirflow(
        readNeeded("speed", oneSpeed),
        readNeeded("airflow", oneAirflow),
        readNeeded("wanted", oneWanted),
      ),
    ),
  );
}

type DensityLaw = (value: number, speed: number, newSpeed: number, density: number, newDensity: number) => number;

/** A fan law that depends on speed and density; without densities both are those of standard air. */
function byDensityLaw(name: string, blocks: readonly unknown[], law: DensityLaw): CellResult[][] {
  const names = [name, "speed", "newSpeed", "density", "newDensity"];
  return overBlocks(names, blocks, (value, speed, newSpeed, density, newDensity) =>
    quietWhenEmpty([value, speed, newSpeed], () => {
      const standard = !isGiven(density) && !isGiven(newDensity);
      return law(
        readNeeded(name, value),
        readNeeded("speed", speed),
        readNeeded("newSpeed", newSpeed),
        standard ? STANDARD_AIR.densityLbFt3 : readNeeded("density", density),
        standard ? STANDARD_AIR.densityLbFt3 : readNeeded("newDensity", newDensity),
      );
    }),
  );
}

/**
 * Pressure of a fan at another speed, and at another air density where both densities are given.
 *
 * @customfunction FAN.PRESSURE
 * @param pressure Pressure at the present speed, in any unit [in.w.c. or Pa].
 * @param speed Present speed [rpm].
 * @param newSpeed Other speed [rpm].
 * @param [density] Present density of the air [lb/ft3 or kg/m3].
 * @param [newDensity] Other density of the air, in the same unit [lb/ft3 or kg/m3].
 * @returns Pressure at the other speed, in the unit of the pressure.
 */
export function vaneFanPressure(
  pressure: any[][],
  speed: any[][],
  newSpeed: any[][],
  density?: any[][],
  newDensity?: any[][],
): any[][] {
  return byDensityLaw("pressure", [pressure, speed, newSpeed, density, newDensity], fanPressureAtSpeed);
}

/**
 * Shaft power of a fan at another speed, and at another air density where both densities are given. Compare it with
 * the motor by FAN.MOTOR and measure the motor current after the change.
 *
 * @customfunction FAN.POWER
 * @param power Shaft power at the present speed, in any unit [hp or kW].
 * @param speed Present speed [rpm].
 * @param newSpeed Other speed [rpm].
 * @param [density] Present density of the air [lb/ft3 or kg/m3].
 * @param [newDensity] Other density of the air, in the same unit [lb/ft3 or kg/m3].
 * @returns Shaft power at the other speed, in the unit of the power.
 */
export function vaneFanPower(
  power: any[][],
  speed: any[][],
  newSpeed: any[][],
  density?: any[][],
  newDensity?: any[][],
): any[][] {
  return byDensityLaw("power", [power, speed, newSpeed, density, newDensity], fanPowerAtSpeed);
}

/**
 * Says whether a fan's shaft power stays within its motor's rated power, with the cautions that go with it.
 *
 * @customfunction FAN.MOTOR
 * @param power Shaft power that the fan would take [hp or kW].
 * @param ratedPower Rated power of the motor, in the same unit [hp or kW].
 * @returns Caution in words.
 */
export function vaneFanMotor(power: any[][], ratedPower: any[][]): any[][] {
  return overBlocks(["power", "ratedPower"], [power, ratedPower], (onePower, oneRated) =>
    quietWhenEmpty([onePower, oneRated], () => {
      const { loadPercent, caution } = fanMotorCaution(
        readNeeded("power", onePower),
        readNeeded("ratedPower", oneRated),
      );
      return `${loadPercent.toFixed(0)} % of rated power. ${caution}`;
    }),
  );
}
