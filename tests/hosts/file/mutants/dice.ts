/** Chooses for a mutation. The same numbers choose the same, so that a mutant can be made again and made smaller. */
export interface Dice {
  /** A whole number from 0 up to, and without, `sides`; 0 where there is no side. */
  readonly below: (sides: number) => number;
  /** One of a list; a list without anything in it is a mistake of the caller's. */
  readonly oneOf: <T>(list: readonly T[]) => T;
}

/**
 * Makes dice that throw what the numbers say, and go on from the last one when they are used up.
 *
 * @param numbers - Whole numbers below 2^31
 */
export function makeDice(numbers: readonly number[]): Dice {
  let at = 0;
  let state = 1;
  const next = (): number => {
    // The minimal standard generator of Park and Miller (1988), which stays within exact whole numbers.
    state = (((state + (numbers[at] ?? 0)) % 0x7ffffffe) + 1) * 16_807;
    state %= 0x7fffffff;
    at += 1;
    return state;
  };
  const below = (sides: number): number => (sides <= 0 ? 0 : next() % sides);
  return {
    below,
    oneOf(list) {
      if (list.length === 0) throw new Error("There is nothing to choose from.");
      return list[below(list.length)] as (typeof list)[number];
    },
  };
}
