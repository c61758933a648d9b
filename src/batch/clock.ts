/** Milliseconds since some moment. (Node loads a dozen files of its own for `performance`.) */
export const milliseconds = (): number => Number(process.hrtime.bigint()) / 1e6;
