/** Spells a column of a table, by its key, as a formula on another sheet names it. */
export type ColumnOf = (key: string) => string;

/** The columns of the three tables of a balance, each of which reads the others. */
export interface BalanceColumns {
  readonly outlets: ColumnOf;
  readonly rooms: ColumnOf;
  readonly systems: ColumnOf;
}
