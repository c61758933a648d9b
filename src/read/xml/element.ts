/**
 * The element tree that a MusicXML file is parsed into, once. It has as much of the DOM as
 * musicxml-interfaces looks at (nodeName, children, attributes, textContent, getAttribute), and the
 * line each element stands on. Leaves share one empty list: most of a score is leaves.
 */

export class XmlAttribute {
  readonly name: string;
  readonly value: string;

  constructor(name: string, value: string) {
    this.name = name;
    this.value = value;
  }

  /** How the DOM tells an attribute from an element: `nodeType === ATTRIBUTE_NODE`. */
  get nodeType(): number {
    return 2;
  }

  get ATTRIBUTE_NODE(): number {
    return 2;
  }
}

/** Shared by all elements without attributes. */
export const NO_ATTRIBUTES: readonly XmlAttribute[] = Object.freeze([]);
/** Shared by all elements without children. */
export const NO_CHILDREN: readonly XmlElement[] = Object.freeze([]);

/** An element, as much of one as musicxml-interfaces asks for. */
export class XmlElement {
  readonly nodeName: string;
  readonly attributes: readonly XmlAttribute[];
  /** Filled by the parser alone, until the element ends; likewise the text. */
  children: readonly XmlElement[] = NO_CHILDREN;
  /** The text directly inside, where there are no children: MusicXML has no mixed content. */
  textContent = '';
  /** 1-based; the line on which the start tag ends. */
  readonly line: number;

  constructor(nodeName: string, line: number, attributes: readonly XmlAttribute[] = NO_ATTRIBUTES) {
    this.nodeName = nodeName;
    this.attributes = attributes;
    this.line = line;
  }

  get nodeType(): number {
    return 1;
  }

  get ATTRIBUTE_NODE(): number {
    return 2;
  }

  /** The attribute's value; null, as in the DOM, where there is none. */
  getAttribute(name: string): string | null {
    for (const attribute of this.attributes) if (attribute.name === name) return attribute.value;
    return null;
  }
}

/** A new element around children that are already parsed. */
export const wrap = (
  nodeName: string,
  line: number,
  children: readonly XmlElement[],
  attributes: readonly XmlAttribute[] = NO_ATTRIBUTES,
): XmlElement => {
  const element = new XmlElement(nodeName, line, attributes);
  element.children = children;
  return element;
};

/** The first child of that name. */
export const child = (element: XmlElement, name: string): XmlElement | undefined => {
  for (const each of element.children) if (each.nodeName === name) return each;
  return undefined;
};

/** The innermost element that is there of the element, a child of it, a child of that, …: where a fault lies. */
export const innermost = (element: XmlElement, ...names: readonly string[]): XmlElement =>
  names.reduce((within, name) => child(within, name) ?? within, element);

/** The trimmed text of the first child of that name; undefined where there is none or it is empty. */
export const childText = (element: XmlElement, name: string): string | undefined =>
  child(element, name)?.textContent.trim() || undefined;

/** A trimmed attribute; undefined where there is none or it is empty. */
export const attribute = (element: XmlElement, name: string): string | undefined =>
  element.getAttribute(name)?.trim() || undefined;
