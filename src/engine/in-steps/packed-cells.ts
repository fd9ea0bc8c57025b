/** Contents of cells by their address. */
type Contents = Readonly<Record<string, string | object | undefined>>;

/** Contents as texts of some cells each: a worker and the browser's storage take those at once. */
export type PackedCells = readonly string[];

const CELLS_A_PART = 1_000;

/** Packs contents one by one. */
export interface CellPacker {
  readonly add: (address: string, content: string) => void;
  /** All that was added; nothing may be added after it. */
  readonly packed: () => PackedCells;
}

export function cellPacker(): CellPacker {
  const parts: string[] = [];
  let part: string[] = [];
  const endPart = (): void => {
    parts.push(JSON.stringify(part));
    part = [];
  };
  return {
    add(address, content) {
      part.push(address, content);
      if (part.length === 2 * CELLS_A_PART) endPart();
    },
    packed() {
      if (part.length > 0 || parts.length === 0) endPart();
      return parts;
    },
  };
}

/** Packs contents, in steps. */
export function* packedCells(cells: Readonly<Record<string, string | undefined>>): Generator<undefined, PackedCells> {
  const packer = cellPacker();
  let count = 0;
  for (const address in cells) {
    const content = cells[address];
    if (content === undefined) continue;
    packer.add(address, content);
    count += 1;
    if (count % CELLS_A_PART === 0) yield;
  }
  return packer.packed();
}

/** Returns addresses and contents in turn, part by part, whether they are packed or not. */
export function* contentsOf(cells: Contents | PackedCells): Generator<readonly (string | object | undefined)[]> {
  if (!Array.isArray(cells)) {
    for (const address in cells as Contents) yield [address, (cells as Contents)[address]];
    return;
  }
  for (const text of cells) {
    const part = JSON.parse(text) as readonly string[] | Contents;
    // So did earlier versions keep them, and a browser may still.
    yield Array.isArray(part) ? part : Object.entries(part as Contents).flat();
  }
}

/** Returns contents in one, in steps. */
export function* unpackedCells(cells: Contents | PackedCells): Generator<undefined, Contents> {
  if (!Array.isArray(cells)) return cells as Contents;
  const all: Record<string, string | object | undefined> = {};
  for (const part of contentsOf(cells)) {
    for (let index = 0; index < part.length; index += 2) all[part[index] as string] = part[index + 1];
    yield;
  }
  return all;
}
