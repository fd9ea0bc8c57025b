import { Buffer } from "node:buffer";
import type { Dice } from "./dice.js";

type Change = (bytes: Buffer, dice: Dice) => Buffer;

/** Numbers that fit no field, or just. */
const ABSURD = [
  0, 1, 8, 0x7f, 0x80, 0xff, 0x100, 0x7fff, 0xffff, 0x10000, 0x7fffffff, 0x80000000, 0xfffffffe, 0xffffffff,
];

const LOCAL = Buffer.from("PK\x03\x04", "latin1");
const RECORD = Buffer.from("PK\x01\x02", "latin1");
const END = Buffer.from("PK\x05\x06", "latin1");

/** Fields of a header: where each stands, and how many bytes it has. */
const FIELDS: readonly {
  readonly signature: Buffer;
  readonly fields: readonly (readonly [at: number, bytes: number])[];
}[] = [
  {
    signature: LOCAL,
    fields: [
      [4, 2],
      [6, 2],
      [8, 2],
      [14, 4],
      [18, 4],
      [22, 4],
      [26, 2],
      [28, 2],
    ],
  },
  {
    signature: RECORD,
    fields: [
      [8, 2],
      [10, 2],
      [16, 4],
      [20, 4],
      [24, 4],
      [28, 2],
      [30, 2],
      [32, 2],
      [34, 2],
      [42, 4],
    ],
  },
  {
    signature: END,
    fields: [
      [4, 2],
      [6, 2],
      [8, 2],
      [10, 2],
      [12, 4],
      [16, 4],
      [20, 2],
    ],
  },
];

function placesOf(bytes: Buffer, signature: Buffer): readonly number[] {
  const places: number[] = [];
  for (let at = bytes.indexOf(signature); at >= 0; at = bytes.indexOf(signature, at + 1)) places.push(at);
  return places;
}

function stretch(bytes: Buffer, dice: Dice): readonly [start: number, end: number] {
  const start = dice.below(bytes.length);
  return [start, Math.min(bytes.length, start + 1 + dice.below(dice.oneOf([2, 16, 256, 4096])))];
}

const CHANGES: readonly Change[] = [
  function flipBits(bytes, dice) {
    const changed = Buffer.from(bytes);
    for (let count = 1 + dice.below(4); count > 0; count -= 1) {
      const at = dice.below(bytes.length);
      changed[at] = (changed[at] ?? 0) ^ (1 << dice.below(8));
    }
    return changed;
  },
  function truncate(bytes, dice) {
    return bytes.subarray(0, dice.below(bytes.length));
  },
  function loseStart(bytes, dice) {
    return bytes.subarray(dice.below(Math.min(bytes.length, 200)));
  },
  function insert(bytes, dice) {
    const at = dice.below(bytes.length + 1);
    const more = Buffer.from(Array.from({ length: 1 + dice.below(40) }, () => dice.below(256)));
    return Buffer.concat([bytes.subarray(0, at), more, bytes.subarray(at)]);
  },
  function remove(bytes, dice) {
    const [start, end] = stretch(bytes, dice);
    return Buffer.concat([bytes.subarray(0, start), bytes.subarray(end)]);
  },
  function duplicate(bytes, dice) {
    const [start, end] = stretch(bytes, dice);
    return Buffer.concat([bytes.subarray(0, end), bytes.subarray(start)]);
  },
  function overwrite(bytes, dice) {
    const changed = Buffer.from(bytes);
    const [start, end] = stretch(bytes, dice);
    bytes.copy(changed, dice.below(bytes.length), start, end);
    return changed;
  },
  changeField,
  changeField,
  changeField,
  changeField,
];

function changeField(bytes: Buffer, dice: Dice): Buffer {
  const { signature, fields } = dice.oneOf(FIELDS);
  const places = placesOf(bytes, signature);
  if (places.length === 0) return bytes;
  const [offset, size] = dice.oneOf(fields);
  const at = dice.oneOf(places) + offset;
  if (at + size > bytes.length) return bytes;
  const changed = Buffer.from(bytes);
  const before = bytes.readUIntLE(at, size);
  const choices = [before + 1, before - 1, before * 2, before ^ (1 << dice.below(16)), dice.oneOf(ABSURD)];
  const most = 2 ** (8 * size);
  changed.writeUIntLE((((dice.oneOf(choices) % most) + most) % most) >>> 0, at, size);
  return changed;
}

/** Changes the bytes of a zip file, its headers with preference. */
export function mutateZip(file: Uint8Array, dice: Dice): Uint8Array {
  if (file.length === 0) return file;
  const bytes = Buffer.from(file.buffer, file.byteOffset, file.byteLength);
  return new Uint8Array(dice.oneOf(CHANGES)(bytes, dice));
}
