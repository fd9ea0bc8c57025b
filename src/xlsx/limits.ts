/**
 * Bounds on what a workbook file may ask of us. A contractor's workbook stays far below each of them; a file made to
 * exhaust memory or time meets one of them before it can. Chosen by us, no published source.
 */
export const WORKBOOK_LIMITS = {
  /** The file itself. */
  fileBytes: 128 * 2 ** 20,
  /** Entries of the archive. */
  entries: 10_000,
  /** A sheet or the string table, inflated. */
  partBytes: 128 * 2 ** 20,
  /** Any other part that is read, inflated. */
  smallPartBytes: 32 * 2 ** 20,
  /** All entries together, inflated, as the archive declares them. */
  totalBytes: 1024 * 2 ** 20,
  /** Inflated bytes to compressed bytes of an entry larger than `ratioFreeBytes`. */
  ratio: 100,
  ratioFreeBytes: 4 * 2 ** 20,
  /** Elements within elements. */
  xmlDepth: 256,
  /** Bytes from one "<" to the next: a tag with the text behind it. */
  xmlRunBytes: 2 ** 20,
  /** Attributes of one element. */
  xmlAttributes: 1_000,
  /** Rows and columns of a sheet. */
  rows: 1_048_576,
  columns: 16_384,
  /** Cells of one sheet, and of the string table its strings. */
  cells: 4_000_000,
  sheets: 1_024,
  /** Characters of one cell's text. */
  textLength: 32_767,
  /** Characters of one formula. */
  formulaLength: 8_192,
} as const;
