/** Boxes: x to the right, y downwards, in whatever unit the marks inside are in. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** The smallest box around all; undefined around none. */
export function union(boxes: readonly Box[]): Box | undefined {
  if (boxes.length === 0) return undefined;
  let { left, top, right, bottom } = boxes[0]!;
  for (const box of boxes) {
    left = Math.min(left, box.left);
    top = Math.min(top, box.top);
    right = Math.max(right, box.right);
    bottom = Math.max(bottom, box.bottom);
  }
  return { left, top, right, bottom };
}
