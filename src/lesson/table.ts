/** Tables whose rows have names. */

/** The names of the rows of a table, in their order: those of its type, which has no others. */
export const namesIn = <Table extends object>(table: Table): readonly (keyof Table & string)[] =>
  Object.keys(table) as (keyof Table & string)[];
