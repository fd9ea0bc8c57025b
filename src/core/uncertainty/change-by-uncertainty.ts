import { DomainError } from "../check/domain-error.js";
import { requireAtLeast, requireFinite } from "../check/require.js";

/** The answer to "by how much is it known?". */
export interface ChangeByUncertainty {
  /** The change in multiples of its ±, the number Eₙ. */
  readonly normalizedError: number;
  /** The ± of the change (95 %), in the unit of the results. */
  readonly changeExpanded: number;
  readonly isShown: boolean;
  readonly words: string;
}

/**
 * Says a change with its ±, in the figures of whoever shows it.
 *
 * Three digits of the change and two of its ±
 *
 * @param change - The change [same unit]
 * @param changeExpanded - The ± of the change (95 %) [same unit]
 * @param isShown - Whether the change is larger than its ±
 * @param figure - Prints a number
 * @param unit - Behind the figures, with its space; "" where the column says it
 * @returns The words
 * @source JCGM 100:2008, 7.2.6: two digits of an uncertainty are enough (from memory, unverified)
 * @example
 * changeWords(130.4, 129.73, true, String, " cfm") // => "change 130 ± 130 cfm"
 */
export function changeWords(
  change: number,
  changeExpanded: number,
  isShown: boolean,
  figure: (value: number) => string,
  unit: string,
): string {
  const [changed, known] = [Number(change.toPrecision(3)), Number(changeExpanded.toPrecision(2))];
  return `change ${figure(changed)} ± ${figure(known)}${unit}${isShown ? "" : ": too small to state"}`;
}

/**
 * Answers by how much a change is known, by the full uncertainty of both results.
 *
 * Eₙ = |x₂ − x₁| / √(U₁² + U₂²), shown above 1
 *
 * This is the question for two instruments, two people or two openings. Between two results of one instrument at one
 * opening it is too strict: there the repeatability answers whether anything changed.
 *
 * @param before - Result before the work [same unit]
 * @param after - Result after the work [same unit]
 * @param beforeExpanded - The ± of the first (95 %), 0 or more [same unit]
 * @param afterExpanded - The ± of the second (95 %), 0 or more, not both 0 [same unit]
 * @returns The number Eₙ, the ± of the change, whether it is shown, and the sentence for the sheet
 * @throws {DomainError} When a result is not finite, an uncertainty is negative or both are 0
 * @source ISO 13528 and ISO/IEC 17043, number Eₙ (from memory, unverified)
 * @example
 * changeByUncertainty(850, 980, 85, 98).normalizedError // => 1.0021
 */
export function changeByUncertainty(
  before: number,
  after: number,
  beforeExpanded: number,
  afterExpanded: number,
): ChangeByUncertainty {
  requireFinite("before", before);
  requireFinite("after", after);
  requireAtLeast("beforeExpanded", beforeExpanded, 0);
  requireAtLeast("afterExpanded", afterExpanded, 0);
  const changeExpanded = Math.hypot(beforeExpanded, afterExpanded);
  if (changeExpanded === 0) throw new DomainError("afterExpanded", "above 0 when beforeExpanded is 0", afterExpanded);
  const normalizedError = Math.abs(after - before) / changeExpanded;
  const isShown = normalizedError > 1;
  const words = changeWords(after - before, changeExpanded, isShown, String, "");
  return { normalizedError, changeExpanded, isShown, words };
}
