import fc from "fast-check";
import { CELL_ERROR_CODES, CellError } from "../../src/cells/index.js";

/** Numbers of every size that a cell can hold, and often those of the trade, so that many calls come through. */
const numbers = fc.oneof(
  { weight: 4, arbitrary: fc.integer({ min: -5, max: 2000 }) },
  { weight: 3, arbitrary: fc.double({ min: 0, max: 2, noNaN: true }) },
  { weight: 2, arbitrary: fc.double({ noNaN: true, noDefaultInfinity: true }) },
  {
    weight: 1,
    arbitrary: fc.constantFrom(0, -0, 5e-324, 2 ** -1022, 1e-9, 1e15, 9e307, Number.MAX_VALUE, -Number.MAX_VALUE),
  },
);

const words = fc.oneof(
  fc.constantFrom(
    "",
    " ",
    "ip",
    "si",
    "SI",
    "log",
    "equal area",
    "assumed",
    "published",
    "duct",
    "fpm",
    "12",
    "1,5",
    "=1+1",
    "TRUE",
  ),
  fc.string({ maxLength: 12 }),
);

const errors = fc.constantFrom(...CELL_ERROR_CODES).map((code) => new CellError(code, `the cell shows ${code}`));

/** One cell as a host hands it over: a blank is 0 in a range and null where an argument is left out. */
const cell = fc.oneof(
  { weight: 8, arbitrary: numbers },
  { weight: 2, arbitrary: fc.constant(null) },
  { weight: 2, arbitrary: words },
  { weight: 1, arbitrary: fc.boolean() },
  { weight: 1, arbitrary: errors },
);

/** A block of numbers and blanks alone, as a sheet in use has it. */
const wellFormed = fc
  .tuple(fc.integer({ min: 1, max: 6 }), fc.integer({ min: 1, max: 6 }))
  .chain(([rows, columns]) =>
    fc.array(fc.array(numbers, { minLength: columns, maxLength: columns }), { minLength: rows, maxLength: rows }),
  );

/** Any block: mixed, ragged, with empty rows, with no row at all. */
const anyBlock = fc.array(fc.array(cell, { maxLength: 4 }), { maxLength: 4 });

/** One argument of a cell function, whatever its declaration asks for. */
export const anyArgument = fc.oneof(
  { weight: 6, arbitrary: cell },
  { weight: 4, arbitrary: wellFormed },
  { weight: 2, arbitrary: anyBlock },
  { weight: 1, arbitrary: fc.constant(undefined) },
);
