/// Words that are taught: one sentence each.
export interface Taught {
  key: string;
  word: string;
  means: string;
}
class Words {
  glossary: Taught[] = [
    { key: 'leg', word: 'leg', means: 'A piece of the way that is walked in one manner: along a line, or on a bearing.' },
    { key: 'kept', word: 'kept', means: 'A leg is kept when it ends where it should, at the first try.' },
    { key: 'bearing', word: 'bearing', means: 'The direction to walk, as the compass shows it: the declination is in it already.' },
    { key: 'double-pace', word: 'double pace', means: 'Two steps: count each time the same foot comes down. The figure already includes extra paces for rough or steep ground.' },
    { key: 'fix', word: 'fix', means: 'A place where a party can be sure where it is.' },
    { key: 'catching', word: 'catching feature', means: 'A line across your front that tells you the leg is over.' },
    { key: 'tick', word: 'tick-off feature', means: 'Something you pass on the way that tells you how far you have come.' },
    { key: 'aim-off', word: 'aim off', means: 'Steer to one side on purpose, so that you know which way to turn at the line.' },
    { key: 'slow-day', word: 'slow day', means: 'The time that 90 in 100 parties like this do not exceed.' },
    { key: 'turn-round', word: 'turn round', means: 'The last moment to go back and be down before last light.' },
    { key: 'escape', word: 'escape route', means: 'The fastest way from a leg to a road, a building or a valley.' },
    { key: 'keep-off', word: 'ground to keep off', means: 'Cliffs, water, slopes over the party’s limit, closed ground and your own areas.' },
    { key: 'predicted', word: 'predicted, simulated', means: 'Worked out from the errors that walkers make; counted by walking the way many times.' },
  ];
}
export const words = new Words();
