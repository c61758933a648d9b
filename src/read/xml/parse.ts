/**
 * XML text → element tree, in one pass of saxes. Entities beyond XML's own five are refused, never
 * expanded; nothing outside the text is ever fetched. Elements are built on a stack of our own, so
 * depth costs no call stack, and is limited.
 */
import { SaxesParser } from 'saxes';
import { Refusal } from '../../score/diagnostic.ts';
import { NO_ATTRIBUTES, NO_CHILDREN, XmlAttribute, XmlElement } from './element.ts';

/** MusicXML's deepest element lies about ten levels down. */
const MAX_DEPTH = 100;

/** No element but these has many children; the library copies lists, which takes long for long ones. */
const MAX_CHILDREN = 1000;
const LONG: ReadonlySet<string> = new Set([
  'score-partwise',
  'score-timewise',
  'part-list',
  'part',
  'measure',
]);

/** Where and how a program set a thing on its own page: most attributes of most files, and of no use here. */
const LOOKS: ReadonlySet<string> = new Set([
  ...['default-x', 'default-y', 'relative-x', 'relative-y', 'width', 'color', 'justify', 'halign', 'valign'],
  ...['font-family', 'font-style', 'font-weight'],
]);

/** The root element of an XML document. Throws a Refusal with line and column for broken XML. */
export const parseXml = (text: string): XmlElement => {
  const parser = new SaxesParser({ position: false });
  const stack: XmlElement[] = [];
  let top: XmlElement | undefined;
  let root: XmlElement | undefined;

  let attributes: XmlAttribute[] | undefined;

  parser.on('attribute', ({ name, value }) => {
    if (LOOKS.has(name)) return;
    attributes ??= [];
    attributes.push(new XmlAttribute(name, value));
  });
  parser.on('opentag', tag => {
    if (stack.length >= MAX_DEPTH) throw tooDeep(parser.line);
    const element = new XmlElement(tag.name, parser.line, attributes ?? NO_ATTRIBUTES);
    attributes = undefined;
    if (top === undefined) root = element;
    else if (top.children === NO_CHILDREN) top.children = [element];
    else {
      const count = (top.children as XmlElement[]).push(element);
      if (count > MAX_CHILDREN && !LONG.has(top.nodeName)) throw tooMany(top.nodeName, parser.line);
    }
    stack.push(element);
    top = element;
  });
  const addText = (chunk: string): void => {
    if (top !== undefined && top.children === NO_CHILDREN) top.textContent += chunk;
  };
  parser.on('text', addText);
  parser.on('cdata', addText);
  parser.on('closetag', () => {
    stack.pop();
    top = stack[stack.length - 1];
  });
  parser.on('error', error => {
    if (root === undefined && !/^\ufeff?\s*</.test(text)) throw notXml();
    throw brokenXml(error.message, parser.line, parser.column);
  });

  parser.write(text).close();
  if (root === undefined) throw brokenXml('document must contain a root element', 1, 0);
  return root;
};

const brokenXml = (reason: string, line: number, column: number): Refusal => {
  const what = reason.replace(/^\d+:\d+: /, '').replace(/\.$/, '');
  const place = { line, column: column + 1 };
  return /entity/.test(what)
    ? new Refusal({
        severity: 'error',
        code: 'foreign-entity',
        message: `the file uses an XML entity that is not one of XML's own (${what})`,
        hint: 'replace the entity by the character it stands for; fretward expands none, to be safe with files from anywhere',
        place,
      })
    : new Refusal({
        severity: 'error',
        code: 'broken-xml',
        message: `the XML is broken: ${what}`,
        hint: 'export the tune again as MusicXML; the file may have been cut off or edited by hand',
        place,
      });
};

/** A picture, a page, a list: exported in another format, or another file than was meant. */
const notXml = (): Refusal =>
  new Refusal({
    severity: 'error',
    code: 'broken-xml',
    message: 'this is not XML, and so not MusicXML',
    hint: 'name a MusicXML file, or export the tune as MusicXML (.mxl or .musicxml)',
    place: { line: 1 },
  });

const tooMany = (name: string, line: number): Refusal =>
  new Refusal({
    severity: 'error',
    code: 'too-many-elements',
    message: `<${name}> has more than ${MAX_CHILDREN} elements in it, which no MusicXML file needs`,
    hint: 'export the tune again as MusicXML',
    place: { line },
  });

const tooDeep = (line: number): Refusal =>
  new Refusal({
    severity: 'error',
    code: 'too-deep',
    message: `elements are nested more than ${MAX_DEPTH} deep, which no MusicXML file needs`,
    hint: 'export the tune again as MusicXML',
    place: { line },
  });
