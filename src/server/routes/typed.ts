/** A value of a request that is text; empty for any other. */
export function text(value: unknown): string {
  return typeof value === "string" ? value : "";
}

/** The fields of a form, in order, without blanks about what was typed. */
export function typedFields(body: unknown): ReadonlyMap<string, readonly string[]> {
  const fields = typeof body === "object" && body !== null ? Object.entries(body) : [];
  return new Map(
    fields.map(([name, value]: [string, unknown]) => {
      const all: unknown[] = Array.isArray(value) ? value : [value];
      return [name, all.map((each) => text(each).trim())];
    }),
  );
}

/** The first field of that name; empty where there is none. */
export function typedText(body: unknown, name: string): string {
  return typedFields(body).get(name)?.[0] ?? "";
}
