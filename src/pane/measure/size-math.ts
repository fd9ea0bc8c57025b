/*
 * The part of mathjs that reads typed sizes: arithmetic with units of length, no functions, nothing that compiles text
 * into code. It stands in a chunk of its own, which loads when a size is first typed.
 */
import {
  addDependencies,
  create,
  divideDependencies,
  evaluateDependencies,
  multiplyDependencies,
  subtractDependencies,
  unaryMinusDependencies,
  unaryPlusDependencies,
} from "mathjs";
import type { SizeMath } from "../../workbook/index.js";

const math = create({
  ...addDependencies,
  ...divideDependencies,
  ...evaluateDependencies,
  ...multiplyDependencies,
  ...subtractDependencies,
  ...unaryMinusDependencies,
  ...unaryPlusDependencies,
});

export const sizeMath: SizeMath = { evaluate: (expression) => math.evaluate(expression) };
