/** Contents of cells by their address. */
type Contents = Readonly<Record<string, string | object | undefined>>;

/** Contents as texts of some cells each: a worker and the browser's storage take those at once. */
export type PackedCells = readonly string[];

const CELLS_A_PART = 1_000;

/** Packs contents, in steps. */
export function* packedCells(cells: Readonly<Record<string, string | undefined>>): Generator<undefined, PackedCells> {
  const parts: string[] = [];
  let part: Record<string, string> = {};
  let count = 0;
  for (const address in cells) {
    const content = cells[address];
    if (content === undefined) continue;
    part[address] = content;
    count += 1;
    if (count % CELLS_A_PART > 0) continue;
    parts.push(JSON.stringify(part));
    part = {};
    yield;
  }
  parts.push(JSON.stringify(part));
  return parts;
}

/** Returns contents part by part, whether they are packed or not. */
export function* contentsOf<Cells extends object>(cells: Cells | PackedCells): Generator<Cells> {
  if (!Array.isArray(cells)) yield cells as Cells;
  else for (const part of cells) yield JSON.parse(part) as Cells;
}

/** Returns contents in one, in steps. */
export function* unpackedCells(cells: Contents | PackedCells): Generator<undefined, Contents> {
  if (!Array.isArray(cells)) return cells as Contents;
  const all: Record<string, string | object | undefined> = {};
  for (const part of contentsOf<Contents>(cells)) {
    Object.assign(all, part);
    yield;
  }
  return all;
}
