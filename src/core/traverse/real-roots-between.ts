/** Value of c₀ + c₁x + c₂x² + … by Horner's rule. */
function valueAt(coefficients: readonly number[], x: number): number {
  return coefficients.reduceRight((sum, coefficient) => sum * x + coefficient, 0);
}

/** The root between two points of opposite sign, halved down to neighbouring numbers. */
function bisect(coefficients: readonly number[], low: number, high: number): number {
  const signAtLow = Math.sign(valueAt(coefficients, low));
  let [below, above] = [low, high];
  for (;;) {
    const middle = (below + above) / 2;
    if (middle <= below || middle >= above) return middle;
    if (Math.sign(valueAt(coefficients, middle)) === signAtLow) below = middle;
    else above = middle;
  }
}

/**
 * Returns the simple real roots of c₀ + c₁x + c₂x² + … between two numbers, ascending.
 *
 * Between neighbouring turning points, which are the roots of the derivative, a polynomial is monotonic: a change of
 * sign there holds exactly one root, and none is missed.
 */
export function realRootsBetween(coefficients: readonly number[], low: number, high: number): readonly number[] {
  if (coefficients.length < 2) return [];
  const derivative = coefficients.slice(1).map((coefficient, index) => coefficient * (index + 1));
  const marks = [low, ...realRootsBetween(derivative, low, high), high];
  return marks.slice(1).flatMap((right, index) => {
    const left = marks[index] ?? low;
    const changesSign = valueAt(coefficients, left) * valueAt(coefficients, right) < 0;
    return changesSign ? [bisect(coefficients, left, right)] : [];
  });
}
