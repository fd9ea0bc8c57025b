/** The part of psychrolib that the tests ask; the package ships no types. */
declare module "psychrolib" {
  interface Psychrolib {
    readonly IP: number;
    SetUnitSystem(system: number): void;
    GetStandardAtmPressure(elevationFt: number): number;
    GetSatVapPres(tempF: number): number;
    GetHumRatioFromRelHum(tempF: number, relativeHumidityRatio: number, pressurePsi: number): number;
    GetMoistAirEnthalpy(tempF: number, humidityRatio: number): number;
    GetTDryBulbFromEnthalpyAndHumRatio(enthalpyBtuPerLb: number, humidityRatio: number): number;
    GetMoistAirDensity(tempF: number, humidityRatio: number, pressurePsi: number): number;
  }
  const psychrolib: Psychrolib;
  export default psychrolib;
}
