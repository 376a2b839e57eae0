/** What follows from a plan's rows beside its schema: its values in the model's units, and the flat list of its inputs. */
import { fromPerson } from "../../units/measures.ts";
import type { UnitSystem } from "../../units/units.ts";
import type { PartName } from "./partNames.ts";
import type { ChoiceRow, Fields, Node, Row, Union } from "./row.ts";

/** A checked value, typed in a person's units, in the model's. */
export function inModelUnits<T extends object>(fields: Fields, checked: T, units: UnitSystem): T {
  const values = Object.entries(checked).map(([name, value]) => {
    const node = fields[name];
    return [name, node && value !== null && value !== undefined ? nodeInModelUnits(node, value, units) : value];
  });
  return Object.fromEntries(values);
}

function nodeInModelUnits(node: Node, value: unknown, units: UnitSystem): unknown {
  switch (node.kind) {
    case "number":
      return fromPerson(Number(value), node.measure, units);
    case "list":
      return (value as object[]).map((item) => inModelUnits(node.fields, item, units));
    case "group":
      return inModelUnits(node.fields, value as object, units);
    case "union":
      return inModelUnits(chosenFields(node, value as Record<string, string>), value as object, units);
    default:
      return value;
  }
}

const chosenFields = ({ options, key }: Union, value: Record<string, string>): Fields =>
  options[value[key] ?? ""] ?? {};

/** An input at its place in the plan. */
export interface Input<R extends Row = Row> {
  path: string;
  row: R;
  /** It applies where each of these choices has one of these values. */
  when: readonly Condition[];
  bearsOn: readonly PartName[];
}

export interface Condition {
  path: string;
  values: readonly string[];
}

type Place = Pick<Input, "path" | "when" | "bearsOn">;

/** Every input once; the choice between the options of a union stands before what they hold. */
export function inputsOf(fields: Fields): Input[] {
  return inputsAt(fields, { path: "", when: [], bearsOn: [] });
}

function inputsAt(fields: Fields, { path, ...rest }: Place): Input[] {
  return Object.entries(fields).flatMap(([name, node]) =>
    inputsOfNode(node, { path: path === "" ? name : `${path}.${name}`, ...rest }),
  );
}

function inputsOfNode(node: Node, { bearsOn: inherited, ...place }: Place): Input[] {
  const bearsOn = node.bearsOn ?? inherited;
  if (node.kind === "group") return inputsAt(node.fields, { ...place, bearsOn });
  return node.kind === "union" ? inputsOfUnion(node, { ...place, bearsOn }) : [{ ...place, row: node, bearsOn }];
}

/** A row that stands in several options is one input. */
function inputsOfUnion(union: Union, place: Place): Input[] {
  const names = Object.keys(union.options);
  const key = { ...place, path: `${place.path}.${union.key}`, row: keyRow(union) };
  const sites = new Map<string, { node: Node; name: string; values: string[] }[]>();
  for (const [option, fields] of Object.entries(union.options))
    for (const [name, node] of Object.entries(fields)) {
      const known = sites.get(name) ?? [];
      const same = known.find((site) => site.node === node);
      if (same) same.values.push(option);
      else sites.set(name, [...known, { node, name, values: [option] }]);
    }
  const inputs = [...sites.values()].flat().flatMap(({ node, name, values }) => {
    const when = values.length === names.length ? place.when : [...place.when, { path: key.path, values }];
    return inputsAt({ [name]: node }, { ...place, when });
  });
  return [key, ...inputs];
}

/** The choice between a union's options. */
function keyRow({ key, options, default: usual, title, style, labels, label, help, start }: Union): ChoiceRow {
  const chosen = (usual as Record<string, string> | undefined)?.[key] ?? start;
  return {
    ...{ kind: "choice", title, values: Object.keys(options) },
    ...(style && { style }),
    ...(labels && { labels }),
    ...(label && { label }),
    ...(help && { help }),
    ...(chosen && { start: chosen }),
  };
}
