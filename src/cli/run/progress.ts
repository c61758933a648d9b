/** How far a run is: a bar on a terminal, plain lines elsewhere. */
import type { TuneReport } from '../../batch/report.ts';
import { printable } from '../console.ts';

/** How far a run is. */
export interface Step {
  /** Tunes made so far, and in all. */
  readonly made: number;
  readonly toMake: number;
  /** Since the start. */
  readonly seconds: number;
  readonly file: string;
}

const BAR = 24;
/** Before that, nobody can say how long it will take. */
const FIRST_GUESS = 0.5;

/** "[########                ]  34/102  0:12 left  carols/coventry-carol.mxl", no wider than the terminal. */
export const progressLine = ({ made, toMake, seconds, file }: Step, columns: number): string => {
  const filled = Math.round((BAR * made) / toMake);
  const bar = `[${'#'.repeat(filled)}${' '.repeat(BAR - filled)}]`;
  const count = `${String(made).padStart(String(toMake).length)}/${toMake}`;
  const left = seconds < FIRST_GUESS ? '' : `  ${clock((seconds / made) * (toMake - made))} left`;
  return `${bar}  ${count}${left}  ${printable(file)}`.slice(0, Math.max(0, columns - 1));
};

/** "1:05"; hours only where there are any. */
const clock = (seconds: number): string => {
  const whole = Math.ceil(seconds);
  const [hours, minutes] = [Math.floor(whole / 3600), Math.floor(whole / 60) % 60];
  const rest = String(whole % 60).padStart(2, '0');
  return hours > 0 ? `${hours}:${String(minutes).padStart(2, '0')}:${rest}` : `${minutes}:${rest}`;
};

/** "34/102 carols/coventry-carol.mxl: written" */
export const plainLine = ({ file, result }: TuneReport, turn: number, turns: number): string =>
  `${String(turn).padStart(String(turns).length)}/${turns} ${printable(file)}: ${result}`;

/** A line at the foot of a terminal that other lines do not run into. */
export class FootLine {
  readonly #stream: NodeJS.WriteStream;
  #shown = false;

  constructor(stream: NodeJS.WriteStream) {
    this.#stream = stream;
  }

  show(step: Step): void {
    this.#stream.write(`\r\u001b[K${progressLine(step, this.#stream.columns || 80)}`);
    this.#shown = true;
  }

  /** Takes it away, so that something else can be written. */
  clear(): void {
    if (this.#shown) this.#stream.write('\r\u001b[K');
    this.#shown = false;
  }
}
