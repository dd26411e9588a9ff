/**
 * Headers that every answer carries: what a page from here may load, and who may embed it (nobody).
 */
import type { MiddlewareHandler } from "hono";

const policy = [
  "default-src 'none'",
  // The fit's module of a few kilobytes is WebAssembly, and comes from here like every script; a
  // browser that refuses to compile it fits more slowly, in plain script.
  "script-src 'self' 'wasm-unsafe-eval'",
  "style-src 'self'",
  "connect-src 'self'",
  "img-src 'self' data: blob:",
  "media-src 'self' blob:",
  "worker-src 'self'",
  "font-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'", // the page's forms are heard by its script and never sent as forms
  "object-src 'none'",
  "frame-ancestors 'none'",
].join("; ");

const headers: Readonly<Record<string, string>> = {
  "Content-Security-Policy": policy,
  "X-Content-Type-Options": "nosniff",
  "Referrer-Policy": "no-referrer",
  "Cross-Origin-Opener-Policy": "same-origin",
  "Cross-Origin-Resource-Policy": "same-origin",
  "Permissions-Policy": "camera=(), display-capture=(), geolocation=(), microphone=(self), usb=()",
};

/** Adds them; behind TLS also that the site is reached by TLS alone for a year. */
export function secured(isBehindTls: boolean): MiddlewareHandler {
  return async (c, next) => {
    await next();
    for (const [name, value] of Object.entries(headers)) c.header(name, value);
    if (isBehindTls) c.header("Strict-Transport-Security", "max-age=31536000");
  };
}
