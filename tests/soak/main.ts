/**
 * The long run: `npm run soak -- [PART...] [--minutes N] [--seed N] [--state FILE] [--fresh]`.
 * Takes turns among its parts, once at least, until each has reached its goal or the time is over;
 * remembers after each portion how far it is, and goes on from there the next time. Ends with 1
 * when anything went wrong.
 */
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { parseArgs } from "node:util";
import { soakParts } from "./parts.ts";
import type { SoakPart } from "./portion.ts";

type Far = { readonly done: number; readonly faults: number; readonly nextSeed: number };
type State = { readonly seed: number; readonly parts: Readonly<Record<string, Far>> };

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    minutes: { type: "string", default: "10" },
    seed: { type: "string", default: "1" },
    state: { type: "string", default: ".halflap/soak.json" },
    fresh: { type: "boolean", default: false },
  },
});

const parts = soakParts.filter(
  ({ name }) => positionals.length === 0 || positionals.includes(name),
);
const minutes = Number(values.minutes);
const firstSeed = Number(values.seed);
if (parts.length === 0 || !(minutes > 0) || !Number.isSafeInteger(firstSeed)) {
  const names = soakParts.map(({ name }) => name).join(", ");
  console.error(`npm run soak -- [${names}] [--minutes N] [--seed N] [--state FILE] [--fresh]`);
  process.exit(2);
}

let state = readState();
const endsAt = performance.now() + minutes * 60_000;
console.log(`seed ${state.seed}, ${minutes} minutes, remembered in ${values.state}`);
for (const { name, portionMinutes } of parts.filter((part) => !hasTime(part))) {
  console.log(`${name}: left out, it takes --minutes ${portionMinutes}`);
}
do {
  for (const part of parts.filter(isOpen).filter(hasTime)) await runPortion(part);
} while (performance.now() < endsAt && parts.filter(isOpen).some(hasTime));
for (const part of parts) {
  const { done, faults } = farOf(part.name);
  console.log(`${part.name}: ${done} of ${part.goal} ${part.unit}, ${faults} faults`);
}
process.exit(parts.some(({ name }) => farOf(name).faults > 0) ? 1 : 0);

function isOpen({ name, goal }: SoakPart): boolean {
  return farOf(name).done < goal;
}

/** Short portions are begun as long as time lasts, a first one always; a minute is no matter. */
function hasTime({ portionMinutes = 0 }: SoakPart): boolean {
  return (endsAt - performance.now()) / 60_000 > portionMinutes - 1;
}

async function runPortion(part: SoakPart): Promise<void> {
  const far = farOf(part.name);
  const { done, told, faults } = await part.run(far.nextSeed, false);
  for (const fault of faults) console.log(`${part.name}: ${fault}`);
  console.log(`${part.name}: seeds from ${far.nextSeed}, ${done} ${part.unit}, ${told}`);
  const next = {
    done: far.done + done,
    faults: far.faults + faults.length,
    nextSeed: far.nextSeed + done,
  };
  state = { ...state, parts: { ...state.parts, [part.name]: next } };
  writeFileSync(values.state, `${JSON.stringify(state, undefined, 2)}\n`);
}

function farOf(name: string): Far {
  return state.parts[name] ?? { done: 0, faults: 0, nextSeed: state.seed };
}

function readState(): State {
  const fresh: State = { seed: firstSeed, parts: {} };
  if (values.fresh || !existsSync(values.state)) return fresh;
  const read: unknown = JSON.parse(readFileSync(values.state, "utf8"));
  const isOurs = typeof read === "object" && read !== null && "parts" in read && "seed" in read;
  if (!isOurs) throw new Error(`${values.state} is no state of a soak; --fresh begins anew`);
  return read as State;
}
