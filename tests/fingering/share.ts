/**
 * Heavy property tests draw all their cases, unless the environment variable CASE_SHARE asks for a share of
 * them, 0 … 1: mutation testing runs them once for each mutant.
 */
const SHARE = Number(process.env.CASE_SHARE ?? 1);

/** That share of a number of cases. */
export const shareOf = (cases: number): number => Math.floor(cases * SHARE);
