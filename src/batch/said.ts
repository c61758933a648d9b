/** Diagnostics of several steps, put together: each with its file, none twice. */
import type { Diagnostic, DiagnosticPlace } from '../score/diagnostic.ts';

/** Diagnostics with the file that they are about; those that name one keep it. */
export const inFile = (file: string, diagnostics: readonly Diagnostic[]): readonly Diagnostic[] =>
  diagnostics.map(each => ({ ...each, place: { file, ...each.place } }));

/** Where in a file an option stands that a diagnostic is about, by the diagnostic's code. */
export type SaidAt = Readonly<
  Partial<Record<string, Pick<Diagnostic, 'excerpt'> & { readonly place: DiagnosticPlace }>>
>;

/** Diagnostics about an option that a file sets, with its place there. */
export const atOptions = (saidAt: SaidAt, diagnostics: readonly Diagnostic[]): readonly Diagnostic[] =>
  diagnostics.map(each => ({ ...each, ...saidAt[each.code] }));

/** The same warning for the second sheet, part or edition is said once. */
export const withoutRepeats = (diagnostics: readonly Diagnostic[]): readonly Diagnostic[] => {
  const seen = new Set<string>();
  return diagnostics.filter(each => {
    const key = JSON.stringify(each);
    return !seen.has(key) && seen.add(key);
  });
};
