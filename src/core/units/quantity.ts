declare const unit: unique symbol;

/**
 * A number whose unit the type checker knows.
 *
 * The mark is optional and never exists at run time: literals and arithmetic pass, while inches of water
 * where feet per minute belong do not compile.
 */
export type Quantity<Unit extends string> = number & { readonly [unit]?: Unit };

export type Inch = Quantity<"in">;
export type Foot = Quantity<"ft">;
export type SquareInch = Quantity<"in2">;
export type SquareFoot = Quantity<"ft2">;
export type CubicFoot = Quantity<"ft3">;
export type Fpm = Quantity<"fpm">;
export type Cfm = Quantity<"cfm">;
/** An airflow where only shares of another matter: in either unit, the same throughout one call. */
export type Airflow = Cfm | LiterPerSecond;
export type InWg = Quantity<"inWG">;
export type Psi = Quantity<"psi">;
export type LbFt3 = Quantity<"lb/ft3">;
export type Fahrenheit = Quantity<"degF">;
export type FahrenheitDifference = Quantity<"degF difference">;
export type BtuPerHour = Quantity<"Btu/h">;
export type BtuPerLb = Quantity<"Btu/lb">;
export type BtuPerHourCfmF = Quantity<"Btu/(h cfm degF)">;
export type CfmPerTon = Quantity<"cfm/ton">;
export type Ton = Quantity<"ton">;
export type Second = Quantity<"s">;
export type Horsepower = Quantity<"hp">;
export type RevolutionsPerMinute = Quantity<"rpm">;
export type PerHour = Quantity<"1/h">;
export type Ratio = Quantity<"ratio">;
export type Percent = Quantity<"%">;
export type Count = Quantity<"count">;
export type InHg = Quantity<"inHg">;
export type LbLb = Quantity<"lb/lb">;

export type Millimeter = Quantity<"mm">;
export type Meter = Quantity<"m">;
export type SquareMeter = Quantity<"m2">;
export type CubicMeter = Quantity<"m3">;
export type MeterPerSecond = Quantity<"m/s">;
export type LiterPerSecond = Quantity<"L/s">;
export type Pascal = Quantity<"Pa">;
export type KgM3 = Quantity<"kg/m3">;
export type Celsius = Quantity<"degC">;
export type CelsiusDifference = Quantity<"degC difference">;
export type KilojoulePerKg = Quantity<"kJ/kg">;
export type Watt = Quantity<"W">;
export type Kilowatt = Quantity<"kW">;
