import type { CellValue } from "../sheet.js";

/** Puts a value into a cell that holds no formula; null makes it blank. */
export interface ValueEdit {
  readonly kind: "value";
  readonly sheet: string;
  readonly address: string;
  readonly value: CellValue;
  /** "replace" lets the value take the place of a formula; otherwise that is refused. */
  readonly formula?: "keep" | "replace";
}

/** Replaces the stored result of a formula, or of a cell that an array formula fills; null stores empty text. */
export interface ResultEdit {
  readonly kind: "result";
  readonly sheet: string;
  readonly address: string;
  readonly value: CellValue;
  /**
   * Takes the stored result out instead of replacing it, and marks the formula to be calculated when the file is opened: a
   * program that keeps stored results on opening calculates where there is none.
   */
  readonly isOutdated?: true;
}

/** Replaces a cell's formula, or gives it one, together with the result to store. */
export interface FormulaEdit {
  readonly kind: "formula";
  readonly sheet: string;
  readonly address: string;
  /** As a file spells it, without the equals sign. */
  readonly formula: string;
  readonly result: CellValue;
  /**
   * keep: an array formula stays one over the same cells, dynamic or not, and any other becomes plain (the default);
   * plain: a plain formula of this one cell; array: an array formula that is no dynamic one; dynamic: a dynamic array, as
   * calls of add-in functions are stored.
   */
  readonly form?: "keep" | "plain" | "array" | "dynamic";
  /** The cells that an array formula fills from now on, its own cell first; by default those it filled, or its own. */
  readonly range?: string;
}

/** Takes a part out, with its content type and every relationship that leads to it. */
export interface PartRemoval {
  readonly kind: "removePart";
  readonly partName: string;
}

/** Adds a part or replaces one; a relationship and a content type are added when they are given and missing. */
export interface PartEdit {
  readonly kind: "part";
  readonly partName: string;
  readonly content: Uint8Array | string;
  readonly contentType?: string;
  /** From which part ("" for the package) and of which type (a full address). */
  readonly relationship?: { readonly from: string; readonly type: string };
}

/** One change to a workbook. */
export type WorkbookEdit = ValueEdit | ResultEdit | FormulaEdit | PartEdit | PartRemoval;

/** A change to a cell. */
export type CellEdit = ValueEdit | ResultEdit | FormulaEdit;
