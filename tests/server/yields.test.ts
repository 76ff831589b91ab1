import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { HtmlValidate } from "html-validate";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { yieldCommand } from "../../src/commands/yield.js";
import { crownTests } from "../support/own-tests.js";
import { marrowBake } from "../support/scenarios.js";
import { type Served, serve } from "../support/served.js";
import { aTerminal } from "../support/terminal.js";

let served: Served;
beforeEach(async () => {
  served = await serve({ "marrow.yaml": marrowBake() });
});
afterEach(() => served.close());

const CROWN_TEST = "/yields/broccoli/test?form=crown&breakdown=florets";
const TYPED = {
  supplier: 'Field & "Co", Ltd',
  date: "2026-10-12",
  units: "4",
  apWeight: "1600",
  scaleStep: "1",
  "weight-0": "1001",
  "weight-1": "460",
  "weight-2": "100",
  loss: "39",
};

const file = () => join(served.folder, "yield-tests.csv");
const plain = (html: string) =>
  html
    .replaceAll("\u00a0", " ")
    .replace(/<[^>]*>/g, " ")
    .replaceAll("&amp;", "&")
    .replace(/\s+/g, " ");

function send(
  fields: Readonly<Record<string, string>>,
  { path = CROWN_TEST, origin = served.server.url.slice(0, -1) } = {},
) {
  return fetch(served.server.url.slice(0, -1) + path, {
    method: "POST",
    headers: { origin },
    body: new URLSearchParams(fields),
    redirect: "manual",
  });
}

describe("the yields of items", () => {
  it("are found from the first page, those weighed in this kitchen first", async () => {
    writeFileSync(file(), crownTests([1, 2]));
    expect((await served.get("/")).text).toContain('href="/yields/"');
    const { text } = await served.get("/yields/");
    const links = [...text.matchAll(/href="(\/yields\/[^"]+)"/g)].map(([, href]) => href ?? "");
    expect(links[0]).toBe("/yields/broccoli/");
    expect(plain(text)).toContain("Weighed in this kitchen broccoli 2 tests");
    expect(new Set(links).size).toBeGreaterThan(200);
    for (const link of ["/yields/leek/", "/yields/chicken/", "/yields/egg/", links.at(-1) ?? ""])
      expect((await served.get(link)).status).toBe(200);
    expect((await served.get("/yields/unicorn/")).status).toBe(404);
  });

  it("have the figures of the command, row by row", async () => {
    writeFileSync(file(), crownTests([1, 2, 3, 4, 5]));
    for (const item of ["broccoli", "salmon", "egg"]) {
      const { terminal, printed } = aTerminal(120);
      await yieldCommand(item, { kitchen: served.folder }, terminal);
      const words = plain((await served.get(`/yields/${item}/`)).text);
      const rows = printed.filter(
        (line) => /^ {4}\S.* \d+\.\d( |$)/.test(line) && !line.startsWith("    all"),
      );
      expect(rows.length).toBeGreaterThan(5);
      for (const row of rows) expect(words).toContain(row.trim().replace(/\s+/g, " "));
    }
  });

  it("and the forms are valid HTML", async () => {
    writeFileSync(file(), crownTests([1, 2, 3, 4, 5]));
    const validator = new HtmlValidate({ extends: ["html-validate:recommended"] });
    const pages = ["/yields/", "/yields/broccoli/", "/yields/chicken/", CROWN_TEST];
    const wrong = await (await send({ ...TYPED, supplier: '<b>"x"', date: "" })).text();
    for (const html of [
      ...(await Promise.all(pages.map((path) => served.get(path)))).map(({ text }) => text),
      wrong,
    ]) {
      const { results } = await validator.validateString(html);
      expect(
        results.flatMap(({ messages }) =>
          messages.map(({ ruleId, message, line }) => `${line} ${ruleId}: ${message}`),
        ),
      ).toEqual([]);
      expect(html.replace('<script src="/assets/missing.js" defer></script>', "")).not.toMatch(
        /<script|style=/,
      );
    }
    expect(wrong).not.toContain("<b>");
  });
});

describe("a yield test typed in", () => {
  it("is recorded, shown beside the published figures, and reaches the plans", async () => {
    const { status, headers } = await send(TYPED);
    expect([status, headers.get("location")]).toEqual([303, "/yields/broccoli/?saved=yes"]);
    expect(readFileSync(file(), "utf8")).toBe(
      crownTests([1]).replaceAll("Field & Co", '"Field & ""Co"", Ltd"'),
    );
    const page = plain((await served.get("/yields/broccoli/?saved=yes")).text);
    expect(page).toContain("Recorded.");
    expect(page).toContain("1 own test of 4 crowns, 1,600 g, 12 Oct 2026");
  });

  it("that does not close is not recorded; the missing grams stand at the weight, and what was typed is kept", async () => {
    const response = await send({ ...TYPED, "weight-1": "400", supplier: "Hill Farm" });
    expect(response.status).toBe(422);
    const html = await response.text();
    const field = /<label for="apWeight">.*?<\/p>/s.exec(html)?.[0] ?? "";
    expect(field).toMatch(
      /<\/label>\s*<span class="error"[^>]*>[^<]*60 g missing[^<]*<\/span>\s*<input[^>]*value="1600"/,
    );
    expect(html).toContain("Not recorded: one thing to put right.");
    for (const value of ["Hill Farm", "2026-10-12", "4", "1600", "1001", "400", "100", "39"])
      expect(html).toContain(`value="${value}"`);
    expect(existsSync(file())).toBe(false);
  });

  it("has each mistake at its own field", async () => {
    const html = await (
      await send({
        ...TYPED,
        supplier: "",
        date: "12 Oct",
        units: "many",
        scaleStep: "x",
        "weight-0": "1,001",
        "weight-2": "",
        loss: "-1",
      })
    ).text();
    const wrong = [...html.matchAll(/id="([^"]+)-error"/g)].map(([, name]) => name);
    expect(wrong).toEqual(["supplier", "date", "units", "scaleStep", "weight-0", "weight-2", "loss"]);
    expect(html).toContain("Not recorded: 7 things to put right.");
    expect(html).not.toMatch(/weight_g|ap_g|scale_step_g/);
  });

  it("is taken from these pages only, once, and from all who send at once", async () => {
    expect((await send(TYPED, { origin: "http://elsewhere.example" })).status).toBe(403);
    expect(existsSync(file())).toBe(false);
    const tests = [1, 2, 3, 4].map((number) => ({
      ...TYPED,
      "weight-0": String(1000 + number),
      loss: String(40 - number),
    }));
    const sent = await Promise.all(tests.map((typed) => send(typed)));
    expect(sent.map(({ status }) => status)).toEqual([303, 303, 303, 303]);
    const rows = readFileSync(file(), "utf8")
      .split("\n")
      .filter((row) => row.includes(",floret,"));
    expect(rows.map((row) => row.split(",floret,")[1]).sort()).toEqual([
      "1001,food",
      "1002,food",
      "1003,food",
      "1004,food",
    ]);
    const again = await send(TYPED);
    expect(again.status).toBe(422);
    expect(plain(await again.text())).toContain("is recorded already, to the gram");
  });

  it("is refused for what the tables do not hold", async () => {
    expect((await send(TYPED, { path: "/yields/broccoli/test?form=crown&breakdown=dice" })).status).toBe(404);
    expect((await served.get("/yields/broccoli/test")).status).toBe(404);
  });
});
