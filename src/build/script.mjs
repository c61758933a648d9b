/**
 * Turns the modules that esbuild made into scripts, since only modules can be split, and only scripts can be loaded
 * with the code that V8 made of them (src/start/load.ts). esbuild can do that too, but then looks an import up
 * through a getter each time that it is used; here it is taken out once. That is right as long as no two
 * scripts need each other (the build checks it) and no export changes after its script has run (values do not
 * change here; of the libraries, the tests know).
 */
import { init, parse } from 'es-module-lexer';

await init;

/** What esbuild writes, in short: `import a,{b as c}from"x"`, `import*as d from"x"`, `import"x"`. */
const CLAUSE =
  /^import\s*(?:\*\s*as\s+(?<all>[\w$]+)|(?<main>[\w$]+)?,?\s*(?:\{(?<some>[^}]*)\})?)\s*(?:from)?\s*["']/;

/** `a as b` as a property of an object to be taken apart, or to be made. */
const taken = names => names.replaceAll(/([\w$]+)\s+as\s+([\w$]+)/g, '$1:$2');
const given = names => names.replaceAll(/([\w$]+)\s+as\s+([\w$]+)/g, '$2:$1');

/** The kinds of import in es-module-lexer's words. */
const STATIC = 1;
const DYNAMIC = 2;
const META = 3;

/** Throws an Error where the module is written in a way that esbuild does not. */
export function scriptOf(module) {
  const [imports] = parse(module);
  let script = '"use strict";';
  let at = 0;
  const put = (start, end, text) => {
    script += module.slice(at, start) + text;
    at = end;
  };
  if (imports.some(({ t }) => t === META)) {
    script += "const moduleUrl=require('node:url').pathToFileURL(__filename).href;";
  }
  for (const { t: kind, ss: start, se: end, n: name } of imports) {
    if (kind === STATIC) put(start, end, requireOf(module.slice(start, end), name));
    else if (kind === DYNAMIC)
      put(start, end, `Promise.resolve().then(()=>require(${JSON.stringify(name)}))`);
    else if (kind === META) put(start, end + '.url'.length, 'moduleUrl');
    else throw new Error(`unknown import of ${name}`);
  }
  put(module.length, module.length, '');
  return script.replace(/export\s*\{([^}]*)\};\s*$/, (_, names) => `module.exports={${given(names)}};`);
}

/** An import statement as one that requires. What Node's own modules export by default is all of it. */
function requireOf(statement, name) {
  const clause = CLAUSE.exec(statement)?.groups;
  if (!clause) throw new Error(`unknown import: ${statement}`);
  const required = `require(${JSON.stringify(name)})`;
  const { all, main, some } = clause;
  const whole = all ?? main;
  const lines = [
    ...(whole ? [`const ${whole}=${required}`] : []),
    ...(some ? [`const {${taken(some)}}=${whole ?? required}`] : []),
  ];
  return lines.length > 0 ? lines.join(';') : required;
}

/** Throws an Error if one of esbuild's outputs (in its own words) needs itself by way of others. */
export function refuseCircles(outputs) {
  const done = new Set();
  const visit = (path, way) => {
    if (way.includes(path)) throw new Error(`circular import: ${[...way, path].join(' → ')}`);
    if (done.has(path)) return;
    for (const { path: next, kind } of outputs[path]?.imports ?? []) {
      if (kind === 'import-statement') visit(next, [...way, path]);
    }
    done.add(path);
  };
  for (const path of Object.keys(outputs)) visit(path, []);
}
