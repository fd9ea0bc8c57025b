/** The part of mathjs that workings need; whoever has loaded it hands it in, so that this layer never loads it. */
export interface UnitMath {
  evaluate(expression: string, scope: Map<string, unknown>): unknown;
  unit(value: number, unit: string): unknown;
  createUnit(units: Record<string, string>): unknown;
}

/**
 * Units of the trade that mathjs lacks, each by its definition.
 *
 * The inch of water is the conventional one of NIST Special Publication 811, a ton of refrigeration 12,000 Btu/h.
 */
const TRADE_UNITS: Readonly<Record<string, string>> = {
  fpm: "1 ft/minute",
  cfm: "1 ft^3/minute",
  inWG: "249.08891 Pa",
  tonRefrigeration: "12000 BTU/hour",
};

/** Makes the trade's units known to an instance of mathjs; call it once for each instance. */
export function addTradeUnits(math: UnitMath): void {
  math.createUnit({ ...TRADE_UNITS });
}
