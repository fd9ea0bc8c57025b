import type { BlockPiece } from "./block-text.js";
import { bare, type CallNode, type FormulaNode } from "./formula-tree.js";
import { givesCells } from "./native-functions.js";
import { isOneValue, type Sizes } from "./sizes.js";

const NUMBER = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/;

/**
 * The arguments that a call puts side by side, such as those of `CHOOSE({1,2,3},D2,F2,H2)` and of HSTACK; undefined for
 * any other call, and where they differ in size.
 */
export function scatteredIn(call: CallNode, { sizeOf }: Sizes): readonly FormulaNode[] | undefined {
  const chosen = chosenIn(call);
  if (chosen === undefined) return undefined;
  const sizes = chosen.map(sizeOf);
  const [first] = sizes;
  const isSame = sizes.every((size) => size?.rows === first?.rows && size?.columns === first?.columns);
  return first !== undefined && isSame ? chosen : undefined;
}

function chosenIn({ name, arguments: given }: CallNode): readonly FormulaNode[] | undefined {
  if (name === "HSTACK" || name === "VSTACK") return given;
  const [index, ...choices] = given;
  if (name !== "CHOOSE" || index === undefined) return undefined;
  const constants = bare(index);
  if (constants.kind !== "constants") return undefined;
  const chosen = constants.rows.flat().map((number) => choices[Number(number) - 1]);
  return chosen.includes(undefined) ? undefined : (chosen as readonly FormulaNode[]);
}

/**
 * Takes a block apart into what every spreadsheet program can be told of; undefined where it cannot be told what the
 * block is.
 *
 * @param write - Writes a part of the formula plainly
 */
export function piecesOf(
  node: FormulaNode,
  sizes: Sizes,
  write: (node: FormulaNode) => string,
): readonly BlockPiece[] | undefined {
  const inner = bare(node);
  const size = sizes.sizeOf(inner);
  const text = () => write(inner).trim();
  switch (inner.kind) {
    case "union":
      return joined(inner.items.map((item) => piecesOf(item, sizes, write)));
    case "constants":
      return inner.rows
        .flat()
        .map((constant) => ({ kind: NUMBER.test(constant) ? "number" : "value", text: constant }));
    case "reference":
    case "spilled":
      if (sizes.areaOf(inner) === undefined) break;
      return [{ kind: isOneValue(size) ? "cell" : "cells", text: text(), ...size }];
    case "span":
      return [{ kind: "cells", text: text() }];
    case "call": {
      const scattered = inner.id === undefined ? scatteredIn(inner, sizes) : undefined;
      if (scattered !== undefined) return joined(scattered.map((item) => piecesOf(item, sizes, write)));
      // What is put side by side in unequal sizes has no plain form.
      if (chosenIn(inner) !== undefined) return undefined;
      if (inner.id === undefined && givesCells(inner.name) && isReferenceFirst(inner)) {
        return [{ kind: "cells", text: text() }];
      }
      break;
    }
    default:
  }
  if (size === undefined) return undefined;
  const written = text();
  if (!isOneValue(size)) return [{ kind: "array", text: written, ...size }];
  return [{ kind: NUMBER.test(written) ? "number" : "value", text: written, ...size }];
}

/** Whether INDEX and OFFSET start from cells; INDIRECT always gives some. */
function isReferenceFirst({ name, arguments: [first] }: CallNode): boolean {
  const kind = first === undefined ? "omitted" : bare(first).kind;
  return name === "INDIRECT" || kind === "reference" || kind === "spilled";
}

function joined(lists: readonly (readonly BlockPiece[] | undefined)[]): readonly BlockPiece[] | undefined {
  return lists.includes(undefined) ? undefined : (lists as readonly (readonly BlockPiece[])[]).flat();
}
