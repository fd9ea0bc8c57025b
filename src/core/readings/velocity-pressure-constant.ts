import { KG_M3_PER_LB_FT3, METERS_PER_SECOND_PER_FPM, PASCALS_PER_INCH_OF_WATER } from "../units/factors.js";

/**
 * Joins inches of water, lb/ft3 and fpm in V = C · √(pv / ρ): 1097.787.
 *
 * It is √(2 · pv / ρ) in SI units, converted exactly with the conventional inch of water, so that a traverse gives
 * the same airflow in both unit systems. The printed 1096.7 and its 4005 at 0.075 lb/ft3 are the same law with
 * water at about 70 degF in the manometer; they lie 0.09 % lower.
 */
export const VELOCITY_PRESSURE_CONSTANT =
  Math.sqrt((2 * PASCALS_PER_INCH_OF_WATER) / KG_M3_PER_LB_FT3) / METERS_PER_SECOND_PER_FPM;
