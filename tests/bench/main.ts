/** Runs the benches and prints each figure with its ratio to a baseline of the same run. */
import { asBuilt } from "./as-built.ts";
import { bothEditing } from "./both-editing.ts";
import { chartText } from "./chart-text.ts";
import { editToPaint } from "./edit-to-paint.ts";
import { type Figure, told } from "./figure.ts";
import { fitting } from "./fitting.ts";
import { fittingInPage } from "./fitting-in-page.ts";
import { fittingKernel } from "./fitting-kernel.ts";
import { folding } from "./folding.ts";
import { listening } from "./listening.ts";
import { neck } from "./neck.ts";
import { pageWeight } from "./page-weight.ts";
import { sound } from "./sound.ts";
import { theoryWeight } from "./theory-weight.ts";
import { together } from "./together.ts";

const benches: Readonly<Record<string, () => Promise<readonly Figure[]> | readonly Figure[]>> = {
  "chart-text": chartText,
  checking: async () => (await asBuilt<typeof import("./checking.ts")>("checking")).checking(),
  fitting,
  "fitting-kernel": fittingKernel,
  "fitting-in-page": fittingInPage,
  folding,
  listening,
  neck,
  sound,
  "theory-weight": theoryWeight,
  "page-weight": pageWeight,
  "edit-to-paint": editToPaint,
  "both-editing": bothEditing,
  together,
};

const asked = process.argv.slice(2);
const unknown = asked.filter((name) => benches[name] === undefined);
if (unknown.length > 0) {
  console.error(`No bench is called ${unknown.join(", ")}. There are: ${Object.keys(benches)}`);
  process.exit(2);
}
console.log(`Node ${process.versions.node}, ${process.platform} ${process.arch}\n`);
for (const [name, bench] of Object.entries(benches)) {
  if (asked.length > 0 && !asked.includes(name)) continue;
  console.log(`== ${name}`);
  for (const figure of await bench()) console.log(told(figure));
}
