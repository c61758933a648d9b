/** The one place where SVG is spelled: numbers, escapes, elements. */

/** To a thousandth (of a millimetre), without padding; refuses what is not a number. */
export function number(value: number): string {
  const thousandths = Math.round(value * 1000);
  if (!Number.isSafeInteger(thousandths)) throw new Error(`a coordinate is no number: ${value}`);
  const size = Math.abs(thousandths);
  const part = size % 1000;
  const whole = (size - part) / 1000;
  if (part === 0) return thousandths < 0 ? `-${whole}` : `${whole}`;
  DECIMALS[part] ??= `.${String(part).padStart(3, '0').replace(/0+$/, '')}`;
  return `${thousandths < 0 ? '-' : ''}${whole === 0 ? '' : whole}${DECIMALS[part]}`;
}

/** How so many thousandths are written, once they were. */
const DECIMALS: string[] = [];

/** Numbers in path data need no space before a minus sign. */
export function numbers(...values: readonly number[]): string {
  let joined = '';
  for (const value of values) {
    const written = number(value);
    joined += joined === '' || written.startsWith('-') ? written : ` ${written}`;
  }
  return joined;
}

const ESCAPES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

/** Escapes text, and leaves out the control characters that XML 1.0 cannot hold. */
export const text = (value: string): string =>
  SPECIAL.test(value) ? value.replace(EVERY_SPECIAL, character => ESCAPES[character] ?? '') : value;

// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
const SPECIAL = /[&<>"\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/;
const EVERY_SPECIAL = new RegExp(SPECIAL, 'g');

export type Attributes = Readonly<Record<string, string | number | undefined>>;

/** An element; attributes that are undefined are left out. */
export function element(name: string, attributes: Attributes, content = ''): string {
  let head = `<${name}`;
  for (const key in attributes) {
    const value = attributes[key];
    if (value !== undefined) head += ` ${key}="${typeof value === 'number' ? number(value) : text(value)}"`;
  }
  return content === '' ? `${head}/>` : `${head}>${content}</${name}>`;
}
