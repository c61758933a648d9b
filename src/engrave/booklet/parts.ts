/** The pages of each kind of content of a pack: one row a kind. */
import type { Content } from '../../lesson/pack/make.ts';
import type { Part } from '../../lesson/pack/pack.ts';
import { type Engraving, engrave } from '../engrave.ts';
import type { Layout } from './sheet.ts';

const ENGRAVERS: {
  readonly [K in Content['kind']]: (content: Extract<Content, { kind: K }>, layout: Layout) => Engraving;
} = {
  music: ({ tune, arrangement, sheet, of }, layout) => {
    if (of === 'tune') return engrave(tune, arrangement, { ...layout, sheet });
    const { title: _, subtitle: __, ...own } = layout;
    return engrave(tune, arrangement, { ...own, sheet, fingers: layout.fingers ?? 'all', positions: true });
  },
};

/** The pages of a part, as a sheet that stands alone. */
export const partPages = ({ content }: Part, layout: Layout): Engraving =>
  ENGRAVERS[content.kind](content, layout);
