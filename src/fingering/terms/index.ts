/** All cost terms. A new one is a file beside this one and a line here. */
import { astray, outside, rescue } from './astray.ts';
import { crossing } from './crossing.ts';
import { drawBack } from './draw-back.ts';
import { crossedFingers, fingerOrder, substitution } from './finger-order.ts';
import { guideFinger } from './guide-finger.ts';
import { height } from './height.ts';
import { landing } from './landing.ts';
import { openString } from './open-string.ts';
import { pairSpread } from './pair-spread.ts';
import { reentrantString } from './reentrant-string.ts';
import { stopsRinging } from './ringing.ts';
import { hop, roll, slide } from './same-finger.ts';
import { barre, chordSpread, fingersDown } from './shape.ts';
import { shiftCount, shiftDistance } from './shift.ts';
import { slurBreak } from './slur-break.ts';
import { squeeze } from './squeeze.ts';
import { reach, stretch } from './stretch.ts';
import type { FingerTerm, GripTerm, HandTerm } from './term.ts';
import { weakFinger } from './weak-finger.ts';

export const GRIP_TERMS: readonly GripTerm[] = [
  reach,
  stretch,
  squeeze,
  drawBack,
  weakFinger,
  height,
  openString,
  reentrantString,
  outside,
  astray,
  rescue,
  barre,
  fingersDown,
  chordSpread,
];

export const HAND_TERMS: readonly HandTerm[] = [shiftCount, shiftDistance];

export const FINGER_TERMS: readonly FingerTerm[] = [
  guideFinger,
  landing,
  slide,
  roll,
  hop,
  crossing,
  crossedFingers,
  fingerOrder,
  substitution,
  pairSpread,
  slurBreak,
  stopsRinging,
];
