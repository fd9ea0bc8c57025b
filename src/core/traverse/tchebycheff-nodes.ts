import { realRootsBetween } from "./real-roots-between.js";

/** No equal-weight rule with more nodes has all of them real (S. Bernstein, 1937; from memory, unverified). */
const MOST_NODES = 9;

/**
 * Coefficients of the polynomial in s = t² whose roots are the squares of the nodes.
 *
 * Equal weights ask that the power sums of the nodes be pₖ = n/2 · ∫ tᵏ dt = n / (k + 1) for even k and 0 for odd k,
 * k = 1 … n. Newton's identities k · eₖ = Σ (−1)^(i−1) · e₍ₖ₋ᵢ₎ · pᵢ turn them into elementary symmetric sums; the odd
 * ones vanish, so that the polynomial is even, or t times an even one.
 */
function squaredNodePolynomial(count: number): readonly number[] {
  const evenSums = [1];
  for (let k = 2; k <= count; k += 2) {
    let sum = 0;
    for (let i = 2; i <= k; i += 2) sum -= ((evenSums[(k - i) / 2] ?? 0) * count) / (i + 1);
    evenSums.push(sum / k);
  }
  return evenSums.reverse();
}

/**
 * Returns the nodes on −1 to 1 whose plain mean integrates every polynomial up to degree `count` exactly.
 *
 * @param count - Number of nodes, 0 or more
 * @returns The nodes, ascending, or undefined where not all of them are real: 8 nodes, and 10 and more
 * @source Newton's identities; Abramowitz and Stegun, Handbook of Mathematical Functions, 25.4.28 (from memory,
 *   unverified)
 */
export function tchebycheffNodes(count: number): readonly number[] | undefined {
  if (count > MOST_NODES) return undefined;
  const positive = realRootsBetween(squaredNodePolynomial(count), 0, 1).map(Math.sqrt);
  const nodes = [...positive.map((node) => -node).reverse(), ...(count % 2 === 1 ? [0] : []), ...positive];
  return nodes.length === count ? nodes : undefined;
}
