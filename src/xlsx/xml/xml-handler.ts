/** Attributes by name as written, prefix included; the object has no prototype. */
export type XmlAttributes = Readonly<Record<string, string>>;

/** What a reader wants to hear. Offsets are in bytes from the start of the part; depth counts from 1 at the root. */
export interface XmlHandler {
  /** `name` is the local name; `start` is at "<" and `end` after ">". */
  readonly open?: (name: string, attributes: XmlAttributes, depth: number, start: number, end: number) => void;
  readonly text?: (text: string) => void;
  readonly close?: (name: string, depth: number, start: number, end: number) => void;
}

/** Bytes from `start` up to `end`. */
export interface ByteRange {
  readonly start: number;
  readonly end: number;
}
