/** A run that a signal ends between two tunes, so that no file is left half-written. */

/** Exit statuses as shells give them: 128 and the signal's number (POSIX.1-2017, XCU 2.8.2; numbers as in signal(7)). */
const STATUSES = { SIGINT: 130, SIGTERM: 143 } as const;

type Name = keyof typeof STATUSES;

export class Interruption {
  readonly #controller = new AbortController();
  #cause: Name | undefined;
  readonly #heard = (name: NodeJS.Signals): void => {
    this.#cause ??= name as Name;
    this.#controller.abort();
  };

  /** Listens from now on; a second signal of a kind ends the program at once. */
  constructor() {
    for (const name of Object.keys(STATUSES)) process.once(name, this.#heard);
  }

  get signal(): AbortSignal {
    return this.#controller.signal;
  }

  /** What ended the run, if something did. */
  get cause(): { readonly name: string; readonly status: number } | undefined {
    return this.#cause && { name: this.#cause, status: STATUSES[this.#cause] };
  }

  /** Listens no more. */
  end(): void {
    for (const name of Object.keys(STATUSES)) process.off(name, this.#heard);
  }
}
