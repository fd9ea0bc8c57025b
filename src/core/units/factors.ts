/**
 * What one inch-pound unit measures in SI units.
 *
 * The international foot, the avoirdupois pound, standard gravity and the International Table Btu are defined
 * exactly, and every factor here follows from them without rounding. NIST Special Publication 811, appendix B.8,
 * prints the same factors to seven digits (read); the exact digits are derived.
 */

/** The international foot, by definition. */
export const METERS_PER_FOOT = 0.3048;

/** The international inch, by definition. */
export const MILLIMETERS_PER_INCH = 25.4;

/** Twelve inches to the foot, squared. */
export const SQUARE_INCHES_PER_SQUARE_FOOT = 144;

/** 0.3048². */
export const SQUARE_METERS_PER_SQUARE_FOOT = 0.09290304;

/** 0.3048³. */
export const CUBIC_METERS_PER_CUBIC_FOOT = 0.028316846592;

/** 0.3048 / 60. */
export const METERS_PER_SECOND_PER_FPM = 0.00508;

/** 1000 · 0.3048³ / 60. */
export const LITERS_PER_SECOND_PER_CFM = 0.4719474432;

/** The conventional inch of water: 0.0254 m of water at 1000 kg/m3 under 9.80665 m/s2. */
export const PASCALS_PER_INCH_OF_WATER = 249.08891;

/** The conventional inch of mercury: 0.0254 m of mercury at 13595.1 kg/m3 under 9.80665 m/s2. */
export const PASCALS_PER_INCH_OF_MERCURY = 13595.1 * 9.80665 * 0.0254;

/** The avoirdupois pound, by definition. */
const KILOGRAMS_PER_POUND = 0.45359237;

/** One pound under 9.80665 m/s2. */
const NEWTONS_PER_POUND_FORCE = KILOGRAMS_PER_POUND * 9.80665;

/** One pound-force on a square inch. */
export const PASCALS_PER_PSI = NEWTONS_PER_POUND_FORCE / 0.0254 ** 2;

/** One pound in a cubic foot. */
export const KG_M3_PER_LB_FT3 = KILOGRAMS_PER_POUND / CUBIC_METERS_PER_CUBIC_FOOT;

/** The International Table Btu, 1055.05585262 J, in an hour. */
export const WATTS_PER_BTU_PER_HOUR = 1055.05585262 / 3600;

/** The International Table Btu per pound, by its definition. */
export const KILOJOULES_PER_KG_PER_BTU_PER_LB = 2.326;

/** A ton of refrigeration, by definition. */
export const BTU_PER_HOUR_PER_TON = 12_000;

/** A mechanical horsepower: 550 foot pounds-force in a second. */
export const KILOWATTS_PER_HORSEPOWER = (550 * METERS_PER_FOOT * NEWTONS_PER_POUND_FORCE) / 1000;

/** Fahrenheit degrees in one Celsius degree, by definition. */
export const FAHRENHEIT_DEGREES_PER_CELSIUS_DEGREE = 1.8;

/** Fahrenheit temperature of 0 °C, by definition. */
export const FAHRENHEIT_AT_ZERO_CELSIUS = 32;

/** Rankine temperature of 0 °F, by definition. */
export const RANKINE_AT_ZERO_FAHRENHEIT = 459.67;
