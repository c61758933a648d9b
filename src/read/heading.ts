/** Title, names and rights: from the score's own fields, else from what is printed on its first page. */
import type { Credit, CreditWords, ScoreHeader } from 'musicxml-interfaces';
import type { Heading } from '../score/model.ts';

/** Title, names and rights, from wherever the file has them. */
export const headingOf = (header: Partial<ScoreHeader>): Heading => {
  const credits = (header.credits ?? []).filter(each => !(each.page > 1));
  const creators = header.identification?.creators ?? [];
  const named = (...types: readonly string[]): string | undefined =>
    joined(
      creators.filter(each => types.includes((each.type ?? '').toLowerCase())).map(each => each.creator),
    ) ?? joined(credits.filter(each => each.creditTypes.some(type => types.includes(type))).flatMap(wordsOf));
  const untyped = joined(creators.filter(each => !each.type).map(each => each.creator));
  const heading = {
    title:
      clean(header.work?.workTitle) ??
      clean(header.movementTitle) ??
      joined(credits.filter(each => each.creditTypes.includes('title')).flatMap(wordsOf)) ??
      largest(credits),
    composer: named('composer') ?? untyped,
    lyricist: named('lyricist', 'poet'),
    arranger: named('arranger'),
  };
  const rights = (header.identification?.rights ?? []).flatMap(each => clean(each.rights) ?? []);
  const present = Object.fromEntries(Object.entries(heading).filter(([, value]) => value !== undefined));
  return { ...present, rights: rights.length > 0 ? rights : (named('rights')?.split('\n') ?? []) };
};

const clean = (text: string | undefined): string | undefined =>
  text?.replace(/\s+/g, ' ').trim() || undefined;

const joined = (texts: readonly (string | undefined)[]): string | undefined =>
  [...new Set(texts.flatMap(text => clean(text) ?? []))].join(', ') || undefined;

const wordsOf = (credit: Credit): readonly string[] => [credit.creditWords.map(each => each.words).join(' ')];

/** The title is what is printed largest, among credits that do not say what they are. */
const largest = (credits: readonly Credit[]): string | undefined => {
  const words = credits.filter(each => each.creditTypes.length === 0).flatMap(each => each.creditWords);
  const size = (each: CreditWords): number => Number.parseFloat(String(each.fontSize ?? '')) || 0;
  const best = words.reduce<CreditWords | undefined>(
    (most, each) => (most === undefined || size(each) > size(most) ? each : most),
    undefined,
  );
  return clean(best?.words);
};
