/** The few keywords of JSON Schema (draft 2020-12) that the generated schemas use, checked as the standard has them. */

type Rules = Readonly<Record<string, unknown>>;

export function fits(value: unknown, schema: Rules): boolean {
  return Object.entries(schema).every(([keyword, rule]) => keeps(value, keyword, rule, schema));
}

function keeps(value: unknown, keyword: string, rule: unknown, schema: Rules): boolean {
  const schemasOf = (list: unknown): readonly Rules[] => list as readonly Rules[];
  const number = typeof value === 'number' ? value : null;
  const text = typeof value === 'string' ? value : null;
  const items = Array.isArray(value) ? (value as readonly unknown[]) : null;
  const object = typeof value === 'object' && value !== null && items === null ? (value as Rules) : null;
  switch (keyword) {
    case 'type':
      return [rule].flat().some((type) => isOfType(value, String(type)));
    case 'const':
      return value === rule;
    case 'enum':
      return (rule as readonly unknown[]).includes(value);
    case 'anyOf':
      return schemasOf(rule).some((inner) => fits(value, inner));
    case 'allOf':
      return schemasOf(rule).every((inner) => fits(value, inner));
    case 'oneOf':
      return schemasOf(rule).filter((inner) => fits(value, inner)).length === 1;
    case 'not':
      return !fits(value, rule as Rules);
    case 'required':
      return object === null || (rule as readonly string[]).every((key) => key in object);
    case 'properties':
      return (
        object === null ||
        Object.entries(rule as Rules).every(
          ([key, inner]) => !(key in object) || fits(object[key], inner as Rules),
        )
      );
    case 'additionalProperties':
      return object === null || Object.keys(object).every((key) => key in (schema.properties as Rules));
    case 'maxProperties':
      return object === null || Object.keys(object).length <= Number(rule);
    case 'items':
      return items === null || items.every((item) => fits(item, rule as Rules));
    case 'minItems':
      return items === null || items.length >= Number(rule);
    case 'maxItems':
      return items === null || items.length <= Number(rule);
    case 'pattern':
      return text === null || new RegExp(String(rule), 'u').test(text);
    case 'maxLength':
      return text === null || [...text].length <= Number(rule);
    case 'minimum':
      return number === null || number >= Number(rule);
    case 'maximum':
      return number === null || number <= Number(rule);
    case 'exclusiveMinimum':
      return number === null || number > Number(rule);
    case 'exclusiveMaximum':
      return number === null || number < Number(rule);
    case 'title':
    case 'description':
    case 'examples':
    case '$schema':
    // Our own annotations, what is said of a key; a standard's reader passes over keywords that it does not know.
    case 'x-key':
    case 'x-takes':
      return true;
    default:
      throw new Error(`keyword ${keyword} is not checked`);
  }
}

function isOfType(value: unknown, type: string): boolean {
  if (type === 'null') return value === null;
  if (type === 'array') return Array.isArray(value);
  if (type === 'object') return typeof value === 'object' && value !== null && !Array.isArray(value);
  if (type === 'integer') return Number.isInteger(value);
  return typeof value === type;
}
