/** Words of parts whose weight nature sets and not the knife (common practice, no source). */
const SET_BY_NATURE = new Set(
  (
    "back backbone bone bones carcass cob cobs feet frame frames gill gills gut guts head heads husk husks liver " +
    "neck pod pods scales seed seeds shell shells spent stomach stone stones"
  ).split(" "),
);

/** Whether an inedible part is peel by its name: of thick peeling there is more, of filleting a fish no less bone. */
export function isNamedPeel(part: string): boolean {
  return !part
    .toLowerCase()
    .split(/[^\p{L}]+/u)
    .some((word) => SET_BY_NATURE.has(word));
}
