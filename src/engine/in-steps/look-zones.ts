/** Gives the looks of a workbook numbers from 1, and keeps which cells of a sheet have which. */
export interface LookZones {
  /** The next cell of the sheet, column by column from the top. */
  add(look: object | string, col: number, row: number): void;
  /** The blocks of the cells since the last call, each with the number of its look. */
  zones(): Record<string, number>;
  readonly list: Record<number, object | string>;
}

interface Block {
  readonly left: number;
  readonly top: number;
  right: number;
  bottom: number;
}

/** The same look in whichever order it is written. */
function keyOf(look: object | string): string {
  return typeof look === "string" ? look : JSON.stringify(Object.entries(look).sort(([a], [b]) => (a < b ? -1 : 1)));
}

/**
 * Returns what collects looks.
 *
 * @param addressOf - Spells a cell
 */
export function lookZones(addressOf: (col: number, row: number) => string): LookZones {
  const list: Record<number, object | string> = {};
  const numbers = new Map<string, number>();
  const known = new Map<object | string, number>();
  /** The runs of one look in columns, each the last one to grow. */
  let blocks = new Map<number, Block[]>();
  const numberOf = (look: object | string): number => {
    const key = keyOf(look);
    const number = numbers.get(key) ?? numbers.size + 1;
    numbers.set(key, number);
    return number;
  };
  return {
    list,
    add(look, col, row) {
      const number = known.get(look) ?? numberOf(look);
      known.set(look, number);
      list[number] = look;
      const ofLook = blocks.get(number) ?? [];
      blocks.set(number, ofLook);
      const last = ofLook.at(-1);
      if (last !== undefined && last.left === col && last.bottom === row - 1) last.bottom = row;
      else ofLook.push({ left: col, right: col, top: row, bottom: row });
    },
    zones() {
      const zones: Record<string, number> = {};
      for (const [number, runs] of blocks) {
        for (const { left, top, right, bottom } of besideEachOther(runs)) {
          const first = addressOf(left, top);
          zones[left === right && top === bottom ? first : `${first}:${addressOf(right, bottom)}`] = number;
        }
      }
      blocks = new Map();
      return zones;
    },
  };
}

/** Joins runs of the same rows in columns beside each other. */
function besideEachOther(runs: readonly Block[]): readonly Block[] {
  const open = new Map<string, Block>();
  const joined: Block[] = [];
  for (const run of runs) {
    const rows = `${run.top} ${run.bottom}`;
    const beside = open.get(rows);
    if (beside?.right === run.left - 1) beside.right = run.right;
    else {
      open.set(rows, run);
      joined.push(run);
    }
  }
  return joined;
}
