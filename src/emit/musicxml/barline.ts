/** `<barline>`: styles, repeats and endings. */
import type { Barline, Ending } from '../../score/model/barline.ts';
import { element, leaf, type XmlNode } from './xml.ts';

const STYLES: Readonly<Record<Barline['style'], string | undefined>> = {
  regular: undefined,
  double: 'light-light',
  final: 'light-heavy',
  'reverse-final': 'heavy-light',
  heavy: 'heavy',
  dashed: 'dashed',
  dotted: 'dotted',
  none: 'none',
};

/** A bar line that is more than a plain one. */
export const barlineElement = (barline: Barline, location: 'left' | 'right'): XmlNode | undefined => {
  const { style, repeat, times, ending } = barline;
  if (STYLES[style] === undefined && !repeat && ending === undefined) return undefined;
  return element(
    'barline',
    { location },
    leaf('bar-style', STYLES[style]),
    ending && endingElement(ending, location),
    repeat ? repeatElement(times, location) : undefined,
  );
};

const repeatElement = (times: number, location: 'left' | 'right'): XmlNode =>
  element('repeat', {
    direction: location === 'left' ? 'forward' : 'backward',
    times: location === 'right' && times !== 2 ? times : undefined,
  });

/** An ending that shows no number has a blank for it (MusicXML 4.0, ending-number), and is counted when it is read. */
const endingElement = (ending: Ending, location: 'left' | 'right'): XmlNode => {
  const number = ending.text === '' ? ' ' : ending.numbers.join(', ');
  const stop = ending.close === 'open' ? 'discontinue' : 'stop';
  const text = location === 'left' && ending.text !== number ? ending.text : '';
  return leaf('ending', text, { number, type: location === 'left' ? 'start' : stop });
};
