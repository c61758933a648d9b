declare module 'unicode-properties' {
  /** Name of the script of a code point: "Cyrillic", "Common". */
  export function getScript(codePoint: number): string;
}
