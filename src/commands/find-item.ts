import { didYouMean } from "../reading/index.js";
import type { TableItem } from "../yields/index.js";

/** The tables' entries for "ITEM" or "ITEM, FORM", by its name or another it is bought under; one a form. */
export function findItems(items: readonly TableItem[], wanted: string): TableItem[] {
  const plain = (name: string) => name.trim().toLowerCase();
  const isNamed = (item: TableItem, name: string) =>
    [item.name, ...item.alsoCalled].some((each) => plain(each) === plain(name));
  const byName = items.filter((item) => isNamed(item, wanted));
  if (byName.length > 0) return byName;
  const comma = wanted.indexOf(",");
  if (comma < 0) return [];
  const [name, form] = [wanted.slice(0, comma), wanted.slice(comma + 1)];
  return items.filter((item) => isNamed(item, name) && plain(item.form) === plain(form));
}

/** What to say of an item that the tables do not hold. */
export function unknownItem(wanted: string, items: readonly TableItem[]): string {
  const names = [...new Set(items.map(({ name }) => name))];
  const near = didYouMean(wanted.split(",")[0] ?? "", [
    ...names,
    ...items.flatMap(({ alsoCalled }) => alsoCalled),
  ]);
  const forms = items.filter(({ name }) => name === near).map(({ form }) => `"${near}, ${form}"`);
  const remedy =
    near === null
      ? `Write one of: ${names.join(", ")}.`
      : `Did you mean ${[`"${near}"`, ...forms].join(" or ")}?`;
  return `The yield tables hold no "${wanted}". ${remedy}`;
}
