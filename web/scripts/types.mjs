// types.mjs - the page's types, made from api/openapi.json: one exported type a schema of `components`, nothing else.
// The document keeps to a plain subset of JSON Schema; a word this script does not know is an error, so that no type is silently wrong.
import { mkdir, readFile, writeFile } from "node:fs/promises";

const source = new URL("../../api/openapi.json", import.meta.url);
const target = new URL("../src/api/types.ts", import.meta.url);
const known = new Set(
  "$ref type properties required items enum const oneOf anyOf allOf additionalProperties prefixItems description title default format pattern examples minimum maximum exclusiveMinimum exclusiveMaximum minLength maxLength minItems maxItems".split(
    " ",
  ),
);
const plain = { string: "string", number: "number", integer: "number", boolean: "boolean", null: "null" };

function typeOf(schema, where) {
  if (schema === true || Object.keys(schema).length === 0) return "unknown";
  for (const word of Object.keys(schema)) if (!known.has(word)) throw new Error(`${where}: "${word}" is not a word this script knows`);
  if (schema.$ref) return schema.$ref.replace("#/components/schemas/", "");
  if ("const" in schema) return JSON.stringify(schema.const);
  if (schema.enum) return schema.enum.map((word) => JSON.stringify(word)).join(" | ");
  const choice = schema.oneOf ?? schema.anyOf;
  if (choice) return choice.map((one) => typeOf(one, where)).join(" | ");
  if (schema.allOf) return schema.allOf.map((one) => `(${typeOf(one, where)})`).join(" & ");
  if (Array.isArray(schema.type)) return schema.type.map((type) => typeOf({ ...schema, type }, where)).join(" | ");
  if (schema.type === "array") {
    if (schema.prefixItems) return `[${schema.prefixItems.map((one) => typeOf(one, where)).join(", ")}]`;
    return `(${typeOf(schema.items ?? {}, where)})[]`;
  }
  if (schema.type === "object" || schema.properties) return objectOf(schema, where);
  const word = plain[schema.type];
  if (!word) throw new Error(`${where}: no type for ${JSON.stringify(schema)}`);
  return word;
}

function objectOf(schema, where) {
  const needed = new Set(schema.required ?? []);
  const members = Object.entries(schema.properties ?? {}).map(([key, value]) => {
    const says = value.description ? `/** ${value.description} */ ` : "";
    return `${says}${JSON.stringify(key)}${needed.has(key) ? "" : "?"}: ${typeOf(value, `${where}.${key}`)};`;
  });
  const more = schema.additionalProperties;
  if (members.length === 0) return more && more !== true ? `Record<string, ${typeOf(more, where)}>` : "Record<string, unknown>";
  return `{ ${members.join(" ")} }`;
}

const api = JSON.parse(await readFile(source, "utf8"));
const lines = ["// Made from api/openapi.json by scripts/types.mjs."];
for (const [name, schema] of Object.entries(api.components.schemas)) {
  if (schema.description) lines.push(`/** ${schema.description.replaceAll("*/", "* /")} */`);
  lines.push(`export type ${name} = ${typeOf(schema, name)};`);
}
await mkdir(new URL(".", target), { recursive: true });
await writeFile(target, `${lines.join("\n")}\n`);
