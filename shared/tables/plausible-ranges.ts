/**
 * Between which figures an input is taken as meant: outside, it most likely is in another unit.
 *
 * Air between −60 and 400 degF from sea level to 15,000 ft has 0.026 to 0.099 lb/ft3 by the gas law; a velocity
 * pressure of 10 in.w.c. belongs to 12,700 fpm, which no duct of a building has; a barometer stands between that of
 * 15,000 ft in bad weather and the record at sea level. Standing: derived, and our choice.
 */
export const PLAUSIBLE = {
  densityLbFt3: { least: 0.025, most: 0.125 },
  velocityPressureInWg: { most: 10 },
  /** Of a velocity in either unit: a date is some 45,000 days after 1900. */
  velocity: { most: 30_000 },
  /** Of a side of an opening in in or mm: 30 m; a date is some 45,000 days after 1900. */
  length: { most: 30_000 },
  temperatureF: { least: -60, most: 250 },
  temperatureC: { least: -50, most: 60 },
  elevationFt: { most: 15_000 },
  /** A relative humidity in percent; below, it is a share of 1. */
  humidityPercent: { least: 1 },
  barometerPsi: { least: 7.9, most: 15.8 },
  /** How far a barometer on site may lie from the standard pressure of its elevation: weather takes 3 % or 4. */
  barometerFromElevationRatio: 0.06,
  /** Below so many degrees between return and outside air one degree shifts the share of outside air by a fifth. */
  outsideDifference: { least: 5 },
} as const;
