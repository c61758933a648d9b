/** The two kinds of YAML file that there are: the codes of what is wrong in them, and where help is. */
export interface Kind {
  /** No YAML, or no keys and values. */
  readonly broken: string;
  readonly unknownKey: string;
  readonly badValue: string;
  /** Where to see what such a file looks like. */
  readonly example: string;
}

export const CONFIG: Kind = {
  broken: 'config-broken',
  unknownKey: 'config-unknown-key',
  badValue: 'config-bad-value',
  example: 'fretward config --help shows an example',
};

export const LESSON: Kind = {
  broken: 'lesson-broken',
  unknownKey: 'lesson-unknown-key',
  badValue: 'lesson-bad-value',
  example: 'fretward lesson --init writes a file to begin with',
};
