// Stands in for @xmldom/xmldom in the bundle: dom-parser.ts puts the only thing that is asked of it there.
module.exports = {};
