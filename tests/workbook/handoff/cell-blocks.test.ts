import { describe, expect, it } from "vitest";
import { cellBlocks } from "../../../src/workbook/index.js";

const kept = (address: string, reason = "why") => ({
  sheet: "Duct",
  address,
  functions: ["VANE.TRAVERSE.OVAL"],
  reasons: [reason],
});

const addresses = (cells: Parameters<typeof cellBlocks>[0]) => cellBlocks(cells).map(({ address }) => address);

describe("cells that keep their values", () => {
  it("are one block where they fill it, whatever their order", () => {
    expect(addresses(["B2", "A1", "B1", "A2", "C2", "C1"].map((address) => kept(address)))).toEqual(["A1:C2"]);
    expect(addresses([kept("D4")])).toEqual(["D4"]);
  });

  it("stay apart across a gap, over other rows, and for another reason", () => {
    expect(addresses(["A1", "A3", "B1"].map((address) => kept(address)))).toEqual(["A3", "A1:B1"]);
    expect(addresses(["A1", "A2", "B2"].map((address) => kept(address)))).toEqual(["A1:A2", "B2"]);
    expect(addresses([kept("A1"), kept("A2", "another")])).toEqual(["A1", "A2"]);
  });

  it("are never lost: every cell is in one block", () => {
    const cells = Array.from({ length: 60 }, (_, index) =>
      kept(`${"ABCDEF".charAt(index % 6)}${1 + ((index * 7) % 23)}`),
    );
    const inBlocks = addresses(cells).flatMap((address) => {
      const [from = "", to = from] = address.split(":");
      const [columns, rows] = [
        [from, to].map((one) => one.charCodeAt(0)),
        [from, to].map((one) => Number(one.slice(1))),
      ];
      const [[left = 0, right = 0], [top = 0, bottom = 0]] = [columns, rows] as const;
      return Array.from({ length: (right - left + 1) * (bottom - top + 1) }, (_, index) => {
        const width = right - left + 1;
        return `${String.fromCharCode(left + (index % width))}${top + Math.floor(index / width)}`;
      });
    });
    expect(inBlocks.sort()).toEqual([...new Set(cells.map(({ address }) => address))].sort());
  });
});
