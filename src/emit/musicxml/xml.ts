/** The one place where MusicXML is spelt: elements, indentation, escapes. */

type Value = string | number | undefined;

/** An element. */
export interface XmlNode {
  readonly name: string;
  readonly attributes: Readonly<Record<string, Value>>;
  readonly content: string | readonly XmlNode[];
}

/** What may stand among children: nothing (left out), a node, or a list of nodes. */
export type Child = XmlNode | undefined | readonly XmlNode[];

/** An element with attributes and children; attributes that are undefined are left out. */
export const element = (
  name: string,
  attributes: Readonly<Record<string, Value>>,
  ...children: readonly Child[]
): XmlNode => ({ name, attributes, content: children.flatMap(each => each ?? []) });

/** An element that holds text; undefined for undefined text. */
export function leaf(name: string, text: string | number, attributes?: XmlNode['attributes']): XmlNode;
export function leaf(name: string, text: Value, attributes?: XmlNode['attributes']): XmlNode | undefined;
export function leaf(name: string, text: Value, attributes: XmlNode['attributes'] = {}): XmlNode | undefined {
  return text === undefined ? undefined : { name, attributes, content: String(text) };
}

/** An element without attributes or children. */
export const empty = (name: string): XmlNode => element(name, {});

const ESCAPES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  '\n': '&#10;',
  '\t': '&#9;',
};

const escaped = (text: string): string => text.replace(/[&<>"\n\t]/g, character => ESCAPES[character]!);

/** The node as text, two spaces a level. */
export const serialise = (node: XmlNode, indent = ''): string => {
  const attributes = Object.entries(node.attributes)
    .filter(([, value]) => value !== undefined)
    .map(([name, value]) => ` ${name}="${escaped(String(value))}"`)
    .join('');
  const { name, content } = node;
  if (content.length === 0) return `${indent}<${name}${attributes}/>\n`;
  if (typeof content === 'string') return `${indent}<${name}${attributes}>${escaped(content)}</${name}>\n`;
  const inner = content.map(each => serialise(each, `${indent}  `)).join('');
  return `${indent}<${name}${attributes}>\n${inner}${indent}</${name}>\n`;
};
