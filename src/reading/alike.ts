/**
 * Letters of Greek and Cyrillic that look like Latin ones: Unicode UTS #39, confusables.txt (these lines of it from
 * memory), the source first, each small letter by itself or by its capital. Those that only resemble one another are
 * left out.
 */
const LOOK_ALIKES: ReadonlyMap<string, string> = new Map(
  ("аa вb еe ѕs іi јj кk мm нh оo рp сc тt уy хx һh ԁd ԛq ԝw " + "αa βb εe ζz ηh ιi κk μm νn οo ρp τt υy χx")
    .split(" ")
    .map((pair) => [pair.slice(0, 1), pair.slice(1)]),
);

/**
 * What a name looks like: two names of one look are told apart by no cook. Width, spaces and letter case do not count,
 * nor which script a letter is of.
 */
export function lookOf(name: string): string {
  const seen = name.normalize("NFKC").replace(/\p{Default_Ignorable_Code_Point}/gu, "");
  const plain = seen.trim().replace(/\s+/g, " ");
  const small = plain.toUpperCase().toLowerCase();
  return Array.from(small, (letter) => LOOK_ALIKES.get(letter) ?? letter).join("");
}

/** For each name that looks like one before it and is not the same, that one's index. */
export function alikes(names: readonly string[]): ReadonlyMap<number, number> {
  const first = new Map<string, number>();
  const found = new Map<number, number>();
  names.forEach((name, index) => {
    const look = lookOf(name);
    const earlier = first.get(look);
    if (earlier === undefined) first.set(look, index);
    else if (names[earlier] !== name) found.set(index, earlier);
  });
  return found;
}
