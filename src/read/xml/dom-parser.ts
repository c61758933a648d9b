/**
 * Gives musicxml-interfaces a DOMParser of ours. The library takes the one that @xmldom/xmldom
 * exports when it is first loaded, and its parse functions pass their argument straight to it; so we
 * pass elements that are already parsed, and the parser hands them back. (In the bundle an empty
 * module stands in for @xmldom/xmldom: see src/build/build.mjs.) Import this before the library.
 */
import xmldom from '@xmldom/xmldom';
import type { XmlElement } from './element.ts';

class HandedOn {
  parseFromString(element: XmlElement): { documentElement: XmlElement } {
    return { documentElement: element };
  }
}

(xmldom as { DOMParser: unknown }).DOMParser = HandedOn;

/** What a parse function of the library takes for "XML text". */
export const asText = (element: XmlElement): string => element as unknown as string;
