/** What stands in the bracket of an ending: "1.", "1, 2.", or the file's own words. */
import type { Ending } from '../../score/model/barline.ts';

export const endingLabel = ({ text, numbers }: Ending): string => {
  const words = text || numbers.join(', ');
  return words === '' || /[.,]$/.test(words) ? words : `${words}.`;
};
