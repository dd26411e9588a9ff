/**
 * The page begins: styles in order, colours, the app, and the shell that also opens without a
 * network.
 */
import { render } from "solid-js/web";
import "./styles/layers.css";
import "./styles/reset.css";
import "./styles/tokens.css";
import "./styles/type.css";
import "./styles/controls.css";
import "./styles/print.css";
import { App } from "./app/App.tsx";
import { showTheme } from "./app/theme.ts";

showTheme();
const page = document.getElementById("page");
if (page !== null) render(() => <App />, page);

if (import.meta.env.PROD && "serviceWorker" in navigator) {
  addEventListener("load", () => {
    // Without it the page works as well, only not offline from the start.
    navigator.serviceWorker.register("/sw.js").catch(() => {});
  });
}
