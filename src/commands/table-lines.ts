/**
 * Lines of a table with its heads, each column as wide as its widest cell; columns empty in every row are left out.
 * `right` lists the columns of figures.
 */
export function tableLines(
  heads: readonly string[],
  rows: readonly (readonly string[])[],
  right: readonly number[],
): string[] {
  const shown = heads.flatMap((head, index) => {
    const cells = rows.map((row) => row[index] ?? "");
    if (cells.every((cell) => cell === "")) return [];
    const width = Math.max(head.length, ...cells.map((cell) => cell.length));
    const pad = (cell: string) => (right.includes(index) ? cell.padStart(width) : cell.padEnd(width));
    return [[head, ...cells].map(pad)];
  });
  return [heads, ...rows].map((_, line) =>
    shown
      .map((column) => column[line] ?? "")
      .join("  ")
      .trimEnd(),
  );
}
