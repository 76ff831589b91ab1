/**
 * Letters of Greek and Cyrillic that look like Latin ones: Unicode UTS #39, confusables.txt (these lines of it from
 * memory), the source first. Those that only resemble one another are left out.
 */
const LOOK_ALIKES: ReadonlyMap<string, string> = new Map(
  (
    "АA ВB ЕE ЅS ІI ЈJ КK МM НH ОO РP СC ТT УY ХX аa еe оo рp сc уy хx ѕs іi јj һh ԁd ԛq ԝw " +
    "ΑA ΒB ΕE ΖZ ΗH ΙI ΚK ΜM ΝN ΟO ΡP ΤT ΥY ΧX αa ιi οo ρp νv υu γy"
  )
    .split(" ")
    .map((pair) => [pair.slice(0, 1), pair.slice(1)]),
);

/**
 * What a name looks like: two names of one look are told apart by no cook. Width, spaces and letter case do not count,
 * nor which script a letter is of.
 */
export function lookOf(name: string): string {
  const plain = name.normalize("NFKC").trim().replace(/\s+/g, " ");
  const latin = Array.from(plain, (letter) => LOOK_ALIKES.get(letter) ?? letter).join("");
  return latin.toUpperCase().toLowerCase();
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
