import { basename } from "node:path";
import type { Problem } from "../reading/index.js";
import { noticeScreen } from "./frame.js";

/** What a request is answered with: a page, or the address of one to look at instead. */
export type PageAnswer = { readonly status: number; readonly html: string } | { readonly seeOther: string };

export function page(html: string, status = 200): PageAnswer {
  return { status, html };
}

/** A page that says one thing. */
export function notice(status: number, title: string, text: string): PageAnswer {
  return page(noticeScreen(title, text), status);
}

export function notHere(): PageAnswer {
  return notice(404, "Not here", "There is no such page. The scenarios are listed on the first one.");
}

/** Problems of files in the kitchen's folder, in one line of text. */
export function wordsOf(problems: readonly Problem[]): string {
  return problems.map(({ file, what, remedy }) => `${basename(file)}: ${what}. ${remedy}.`).join(" ");
}
