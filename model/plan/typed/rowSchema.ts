/** The schema of a plan's rows, in the units of a person. */
import { z } from "zod";
import { numberField, quantityField } from "../../input/fields.ts";
import { isPlain, toPerson, unitName } from "../../units/measures.ts";
import type { UnitSystem } from "../../units/units.ts";
import { type Fields, type ListRow, type Node, type NumberRow, UNITS_OF_THE_PLAN, type Union } from "./row.ts";

/** The shape of a strict object whose fields the rows describe. */
export type ShapeOf<F extends Fields> = { -readonly [K in keyof F]: SchemaOf<F[K]> };

type SchemaOf<N> = N extends { kind: "group"; fields: infer F extends Fields }
  ? N extends { isRequired: true }
    ? ObjectOf<F>
    : z.ZodPrefault<ObjectOf<F>>
  : Present<BareOf<N>, N>;

type Present<S extends z.ZodType, N> = N extends { default: null }
  ? z.ZodDefault<z.ZodNullable<S>>
  : N extends { default: NonNullable<unknown> }
    ? z.ZodDefault<S>
    : N extends { optional: true }
      ? z.ZodOptional<S>
      : S;

type BareOf<N> = N extends { kind: "number" }
  ? z.ZodNumber
  : N extends { kind: "choice"; values: readonly (infer V extends string)[] }
    ? z.ZodEnum<{ [K in V]: K }>
    : N extends { kind: "flag" }
      ? z.ZodBoolean
      : N extends { kind: "text" }
        ? z.ZodString
        : N extends { kind: "fixed"; value: (units: UnitSystem) => infer V extends string | number }
          ? z.ZodLiteral<V>
          : N extends { kind: "list"; fields: infer F extends Fields }
            ? z.ZodArray<ObjectOf<F>>
            : N extends { kind: "union"; key: infer K extends string; options: infer O extends Union["options"] }
              ? z.ZodDiscriminatedUnion<OptionOf<K, O>[], K>
              : z.ZodNever;

type ObjectOf<F extends Fields> = z.ZodObject<ShapeOf<F>, z.core.$strict>;

type OptionOf<K extends string, O extends Union["options"]> = {
  [V in keyof O & string]: z.ZodObject<{ [_ in K]: z.ZodLiteral<V> } & ShapeOf<O[V]>, z.core.$strict>;
}[keyof O & string];

export function shapeOf<F extends Fields>(fields: F, units: UnitSystem): ShapeOf<F> {
  const shape = Object.entries(fields).map(([name, node]) => [name, schemaOf(node, units)]);
  return Object.fromEntries(shape);
}

function schemaOf(node: Node, units: UnitSystem): z.ZodType {
  const schema = bareSchema(node, units);
  if (node.kind === "group") return node.isRequired ? schema : schema.prefault({});
  if ("optional" in node) return schema.optional();
  if (!("default" in node)) return schema;
  return node.default === null ? schema.nullable().default(null) : schema.default(typedDefault(node, units));
}

/** In the person's unit. */
function typedDefault(node: Exclude<Node, { kind: "group" | "fixed" }>, units: UnitSystem): unknown {
  if (node.kind === "number") return toPerson(Number(node.default), node.measure, units);
  return node.kind === "choice" && node.default === UNITS_OF_THE_PLAN ? units : node.default;
}

function bareSchema(node: Node, units: UnitSystem): z.ZodType {
  const { title } = node;
  switch (node.kind) {
    case "number":
      return numberSchema(node, units);
    case "choice":
      return z.enum(node.values).meta({ title });
    case "flag":
      return z.boolean().meta({ title, description: "true or false" });
    case "text":
      return z.string().max(node.longest).meta({ title });
    case "fixed":
      return z.literal(node.value(units)).meta({ title, ...(node.description && { description: node.description }) });
    case "list":
      return listSchema(node, units);
    case "group":
      return z.strictObject(shapeOf(node.fields, units)).meta({ title });
    case "union":
      return unionSchema(node, units);
  }
}

function numberSchema({ title, measure, range, unit, isWhole, metricHint }: NumberRow, units: UnitSystem): z.ZodType {
  const field = isPlain(measure)
    ? numberField(title, range, unit ?? measure)
    : quantityField(title, measure, units, range);
  const { description, ...meta } = field.meta() ?? {};
  if (isWhole) return field.int().meta({ ...meta, description: `a whole number ${description}` });
  return metricHint && units === "metric"
    ? field.meta({ ...meta, description: `${description} ${metricHint}` })
    : field;
}

function listSchema({ title, description, itemTitle, length, fields }: ListRow, units: UnitSystem): z.ZodType {
  const item = z.strictObject(shapeOf(fields, units));
  return z
    .array(itemTitle === undefined ? item : item.meta({ title: itemTitle }))
    .min(length.min)
    .max(length.max)
    .meta({ title, description });
}

function unionSchema({ title, key, options, wholes }: Union, units: UnitSystem): z.ZodType {
  const alternatives = Object.entries(options).map(([name, fields]) => {
    const option = z.strictObject({ [key]: z.literal(name), ...shapeOf(fields, units) });
    const whole = wholes?.[name];
    return whole ? option.meta({ title: whole.title, unit: unitName(whole.measure, units) }) : option;
  });
  return z.discriminatedUnion(key, alternatives as [z.ZodObject, ...z.ZodObject[]]).meta({ title });
}
