import express, { type Express, type Request, type Response } from "express";
import { send } from "../answers.js";
import type { Context } from "../context.js";
import { fromOwnPage } from "../guards.js";
import { text, typedFields } from "./typed.js";

/** What tables and own tests say of every item, and the yield tests to fill in. */
export function addYieldRoutes(app: Express, { folder, desk }: Context): void {
  app.get("/yields/", async (_request, response) => {
    send(await desk.run("yields", { folder: folder.path }), response);
  });

  app.get("/yields/:item/", async ({ params, query }, response) => {
    const saved = query.saved === "yes";
    send(await desk.run("itemYields", { folder: folder.path, item: params.item, saved }), response);
  });

  app
    .route("/yields/:item/test")
    .get(async (request, response) => {
      send(await desk.run("yieldTest", namedIn(request)), response);
    })
    .post(
      fromOwnPage,
      express.urlencoded({ extended: false, limit: "20kb" }),
      async (request: Request<{ item: string }>, response: Response) => {
        const fields = typedFields(request.body);
        send(await desk.run("recordTest", { ...namedIn(request), folder: folder.path, fields }), response);
      },
    );
}

/** The item, form and breakdown that the address names. */
function namedIn({ params, query }: Request<{ item: string }>) {
  return { item: params.item, form: text(query.form), breakdown: text(query.breakdown) };
}
