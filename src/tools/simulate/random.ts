/** A source of chance that gives the same numbers again for the same seed. */
export interface Chance {
  /** From 0 to below 1. */
  readonly uniform: () => number;
  /** Normal, of mean 0 and standard deviation 1. */
  readonly normal: () => number;
}

/** Makes a source of chance: mulberry32 for uniform numbers, Box and Muller for normal ones. */
export function chanceOf(seed: number): Chance {
  let state = seed >>> 0;
  const uniform = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
  const normal = () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  return { uniform, normal };
}
