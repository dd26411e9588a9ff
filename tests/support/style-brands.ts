/** Style rule about branded quantities: a plain value gets its unit in one place only. */
import { isTest } from "./arrows.ts";
import { asNode, lineAt, type Node, type Source, textOf, walk } from "./sources.ts";

/** The branded types declared anywhere: `type Fret = number & { readonly unit: "Fret" }`. */
export function brandsIn(sources: readonly Source[]): ReadonlySet<string> {
  const declared = /type (\w+) = \w+ & \{ readonly unit: "\1" \}/g;
  return new Set(
    sources.flatMap((source) => [...source.text.matchAll(declared)].map((match) => match[1] ?? "")),
  );
}

/**
 * Casts to a brand outside a function that returns that brand; tests may make values as they need.
 */
export function castsOutside(sources: readonly Source[], brands: ReadonlySet<string>): string[] {
  return sources
    .filter((source) => !isTest(source.path))
    .flatMap((source) => {
      const found: string[] = [];
      for (const statement of source.body) {
        walk(statement, (node, parents) => {
          const brand = castTo(node);
          if (brand === undefined || !brands.has(brand)) return;
          if (parents.some((parent) => returns(source.text, parent, brand))) return;
          found.push(`${source.path}:${lineAt(source.text, node.start)}: as ${brand}`);
        });
      }
      return found;
    });
}

function castTo(node: Node): string | undefined {
  if (node.type !== "TSAsExpression") return undefined;
  return textOf(asNode(asNode(node.typeAnnotation)?.typeName), "name");
}

function returns(text: string, node: Node, brand: string): boolean {
  const returned = asNode(node.returnType);
  return returned !== undefined && text.slice(returned.start, returned.end).includes(brand);
}
