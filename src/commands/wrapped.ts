/** The text in lines no longer than `width`, where its words allow; figures stay with their units. */
export function wrapped(text: string, width: number, first: string, others: string): string[] {
  const lines: string[] = [];
  for (const word of text.split(" ")) {
    const last = lines.at(-1);
    if (last === undefined || last.length + 1 + word.length > width) lines.push(word);
    else lines[lines.length - 1] = `${last} ${word}`;
  }
  return lines.map((line, index) => `${index === 0 ? first : others}${line.replaceAll("\u00a0", " ")}`);
}
