/** A mutant is killed by the first case that fails; the smallest such case is of no interest. */
import fc from 'fast-check';

fc.configureGlobal({ endOnFailure: true });
