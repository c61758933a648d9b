/** The font that a teacher gives, for characters that the carried ones lack. */

/** A TrueType, OpenType or WOFF file. */
export interface FontFile {
  /** For messages. */
  readonly name: string;
  readonly bytes: Uint8Array;
}
