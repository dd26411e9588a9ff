/**
 * How the page is built: Solid, the offline shell, and a smaller copy of each file for the server
 * to send.
 */
import { readdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { promisify } from "node:util";
import { gzip } from "node:zlib";
import { defineConfig, type Plugin } from "vite";
import { VitePWA } from "vite-plugin-pwa";
import solid from "vite-plugin-solid";

const server = "http://127.0.0.1:4321";
/** What the server answers itself, so the offline shell must not. */
const serverPaths = [/^\/api\//, /^\/sync\//, /^\/healthz/];
const worthCompressing = /\.(js|css|html|svg|webmanifest)$/;

/**
 * Writes file.gz beside every text file of the build; the server sends it to whoever takes gzip.
 */
function compressedCopies(): Plugin {
  let folder = "dist";
  return {
    name: "compressed-copies",
    apply: "build",
    enforce: "post",
    configResolved(config) {
      folder = config.build.outDir;
    },
    closeBundle: {
      order: "post",
      sequential: true,
      async handler() {
        for (const entry of await readdir(folder, { recursive: true, withFileTypes: true })) {
          if (!entry.isFile() || !worthCompressing.test(entry.name)) continue;
          const path = join(entry.parentPath, entry.name);
          await writeFile(`${path}.gz`, await promisify(gzip)(await readFile(path), { level: 9 }));
        }
      },
    },
  };
}

export default defineConfig({
  plugins: [
    solid(),
    VitePWA({
      registerType: "prompt",
      injectRegister: false,
      manifest: {
        name: "Halflap",
        short_name: "Halflap",
        description: "The board on which two guitarists fit their parts together",
        start_url: "/",
        display: "standalone",
        background_color: "#f4eee2",
        theme_color: "#f4eee2",
        icons: [{ src: "/halflap.svg", sizes: "any", type: "image/svg+xml" }],
      },
      workbox: {
        globPatterns: ["**/*.{js,css,html,svg,woff2,webmanifest,wasm}"],
        navigateFallback: "/index.html",
        navigateFallbackDenylist: serverPaths,
        cleanupOutdatedCaches: true,
        clientsClaim: true,
      },
    }),
    compressedCopies(),
  ],
  build: {
    target: ["chrome123", "edge123", "firefox120", "safari17.5"], // the first with light-dark()
    modulePreload: { polyfill: false }, // the polyfill is an inline script
    assetsInlineLimit: 0, // fonts come from this server, as the content security policy says
    rolldownOptions: {
      // tonal fills dictionaries of chords and scales when it loads; without them the page works.
      treeshake: { moduleSideEffects: [{ test: /node_modules\/@?tonal/, sideEffects: false }] },
    },
  },
  server: {
    proxy: { "/api": server, "/sync": { target: server, ws: true } },
  },
});
