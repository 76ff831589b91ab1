import { hazardsOf } from "../safety/index.js";
import type { ItemYields } from "../yields/index.js";
import type { Warning } from "./view.js";
import { capital, listed, once } from "./writing.js";

/** What is known to harm in the parts of an item, the gravest first, each with who says so. */
export function itemCautions({ name, forms }: Pick<ItemYields, "name" | "forms">): Warning[] {
  const parts = once(
    forms.flatMap(({ breakdowns }) =>
      breakdowns.flatMap(({ rows }) => rows.filter(({ kind }) => kind !== "").map(({ part }) => part)),
    ),
  );
  const found = parts.flatMap((part) =>
    hazardsOf(name, `${name} ${part}`).map((hazard) => ({ part, hazard })),
  );
  const gravity = { never: 0, "only if": 1, warn: 2 };
  return once(found.map(({ hazard }) => hazard))
    .sort((left, right) => gravity[left.rule.kind] - gravity[right.rule.kind])
    .map((each) => {
      const about = found.filter(({ hazard }) => hazard === each).map(({ part }) => part);
      const who = about.length === parts.length ? name : `${name}: ${listed(about)}`;
      const rule = each.rule.kind === "never" ? `DO NOT USE. ${each.rule.text}` : each.rule.text;
      return { text: `${capital(who)}. ${capital(each.hazard)}. ${rule}`, source: each.authority };
    });
}
