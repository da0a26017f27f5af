// OpenAPI JSON on standard input -> the TypeScript types of src/contract.ts on standard output.
import { compile } from "json-schema-to-typescript";

const banner = `/* Generated from the server's schemas; do not edit. To renew it, in the repository's top folder:
   python -m server.api.contract | node web/tools/contract.mjs > web/src/contract.ts */`;

const openapi = JSON.parse(await readAll(process.stdin));
const { PaginationMetadata: _, ...schemas } = openapi.components.schemas;
const kinds = Object.entries(openapi["x-kinds"]);
const plans = kinds.filter(([, name]) => schemas[`${name}Change`]);

// What the kinds share is said once instead of in each interface.
schemas.AsTyped = schemas.Vehicle.properties.as_typed;
for (const schema of Object.values(schemas)) {
  if (schema.properties?.as_typed) schema.properties.as_typed = ref("AsTyped");
  if (schema.properties?.kind && schema.properties.body) schema.properties.kind = { tsType: "Kind" };
}
for (const [, name] of plans) delete schemas[`${name}Change`];
schemas.Mutation.properties.body = { tsType: "Kinds[Kind] | Changes[keyof Changes]" };
schemas.Version.properties.body = { tsType: "Kinds[Kind]" };
schemas.CurrentRecord.properties.body = { tsType: "Kinds[Kind]" };
schemas.Kinds = register("kind -> its record", kinds, ref);
schemas.Changes = register("kind -> the body of an edit; log entries are never edited", plans, (name) => ({
  tsType: `Partial<${name}>`,
}));

// One wrapper that refers to all schemas makes the compiler emit each of them once.
const wrapper = {
  title: "Contract",
  type: "object",
  additionalProperties: false,
  properties: Object.fromEntries(Object.keys(schemas).map((name) => [name, ref(name)])),
  components: { schemas: plain(schemas) },
};
const types = await compile(wrapper, "Contract", {
  bannerComment: banner,
  additionalProperties: false,
  style: { printWidth: 110 },
  unreachableDefinitions: false,
});
process.stdout.write(
  `${types.replace(/export interface Contract \{.*?\n\}\n/s, "").replace("__items", "items")}export type Kind = keyof Kinds;\n`,
);

function ref(name) {
  return { $ref: `#/components/schemas/${name}` };
}

function register(description, wanted, type) {
  return {
    description,
    type: "object",
    additionalProperties: false,
    required: wanted.map(([kind]) => kind),
    properties: Object.fromEntries(wanted.map(([kind, name]) => [kind, type(name)])),
  };
}

// A length range would become a union of tuples; only a fixed length, such as [digits, unit], is a type.
// The compiler takes any object with a key `items` for an array: a property of that name is hidden from it.
function plain(node) {
  if (Array.isArray(node)) return node.map(plain);
  if (node === null || typeof node !== "object") return node;
  const copy = Object.fromEntries(Object.entries(node).map(([key, value]) => [key, plain(value)]));
  if (copy.type === "array" && copy.minItems !== copy.maxItems) {
    delete copy.minItems;
    delete copy.maxItems;
  }
  if (copy.properties?.items) {
    copy.properties.__items = copy.properties.items;
    delete copy.properties.items;
    copy.required = copy.required.map((name) => (name === "items" ? "__items" : name));
  }
  return copy;
}

async function readAll(stream) {
  let text = "";
  for await (const chunk of stream.setEncoding("utf8")) text += chunk;
  return text;
}
