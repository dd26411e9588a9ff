/** The built page: its files as they are, and index.html for every address of the page's own. */
import { existsSync } from "node:fs";
import { join } from "node:path";
import { serveStatic } from "@hono/node-server/serve-static";
import { Hono, type MiddlewareHandler } from "hono";

/** Vite puts a hash of the content into these names, so what they hold never changes. */
const hashed = /^\/assets\/.+-[A-Za-z0-9_-]{8,}\.[a-z0-9]+$/;

/** Serves a folder; a page that has not been built says so. */
export function pageRoutes(folder: string): Hono {
  const routes = new Hono();
  routes.use(cacheFor);
  let files: MiddlewareHandler | undefined; // made when the folder is there: a build may come later
  routes.use(async (c, next) => {
    if (existsSync(folder)) files ??= serveStatic({ root: folder, precompressed: true });
    return files === undefined ? next() : files(c, next);
  });
  routes.get("*", async (c, next) => {
    // An address with a dot in its last part means a file, and a missing file is missing.
    if (/\.[^/]*$/.test(c.req.path)) return c.text("There is no such file.", 404);
    if (!existsSync(join(folder, "index.html"))) return c.text("The page is not built yet.", 503);
    return serveStatic({ root: folder, path: "index.html", precompressed: true })(c, next);
  });
  return routes;
}

const cacheFor: MiddlewareHandler = async (c, next) => {
  await next();
  const isKept = hashed.test(c.req.path) && c.res.status === 200;
  c.header("Cache-Control", isKept ? "public, max-age=31536000, immutable" : "no-cache");
};
