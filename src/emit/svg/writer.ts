/** The one place where SVG is spelled: numbers, escapes, elements. */

/** To a thousandth (of a millimetre), without padding; refuses what is not a number. */
export function number(value: number): string {
  if (!Number.isFinite(value)) throw new Error(`A drawing holds a coordinate that is no number: ${value}`);
  const rounded = Math.round(value * 1000) / 1000;
  return String(rounded === 0 ? 0 : rounded).replace(/^(-?)0\./, '$1.');
}

/** Numbers in path data need no space before a minus sign. */
export const numbers = (...values: readonly number[]): string =>
  values.map(number).join(' ').replaceAll(' -', '-');

const ESCAPES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

/** Escapes text, and leaves out the control characters that XML 1.0 cannot hold. */
export const text = (value: string): string =>
  value
    // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
    .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, '')
    .replace(/[&<>"]/g, character => ESCAPES[character]!);

export type Attributes = Readonly<Record<string, string | number | undefined>>;

/** An element; attributes that are undefined are left out. */
export function element(name: string, attributes: Attributes, content = ''): string {
  let head = `<${name}`;
  for (const [key, value] of Object.entries(attributes))
    if (value !== undefined) head += ` ${key}="${typeof value === 'number' ? number(value) : text(value)}"`;
  return content === '' ? `${head}/>` : `${head}>${content}</${name}>`;
}
