import { itemYields, type TableItem, type YieldsAndTests } from "../yields/index.js";
import { itemYieldsPage } from "./item-yields.js";
import type { Page } from "./render.js";
import { yieldTestPage } from "./yield-test.js";

/** An item's page for a folder, with a blank yield test for each breakdown of the forms given. */
export function itemToPrint(forms: readonly TableItem[], yields: YieldsAndTests): Page[] {
  const page = itemYieldsPage(itemYields(forms, yields), {
    testOf: (form, breakdown) => `${slugOf(form, breakdown)}.html`,
  });
  const nav = [{ href: `${page.slug}.html`, text: page.title }];
  const tests = forms.flatMap((item) =>
    item.breakdowns.map((breakdown) => ({
      ...yieldTestPage(item, breakdown, { nav }),
      slug: slugOf(item.form, breakdown.name),
    })),
  );
  return [page, ...tests];
}

function slugOf(form: string, breakdown: string): string {
  const plain = `${form} ${breakdown}`.normalize("NFKD").toLowerCase();
  return ["yield-test", ...(plain.match(/[a-z0-9]+/g) ?? [])].join("-");
}
