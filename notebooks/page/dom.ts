type Child = Node | string;

/** Makes an element; attributes are set as written, event handlers go in `on…`. */
export function element<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes: Record<string, string | number | boolean | ((event: Event) => void)> = {},
  ...children: Child[]
): HTMLElementTagNameMap[K] {
  const node = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (typeof value === "function") node.addEventListener(name.slice(2), value);
    else if (value !== false) node.setAttribute(name, value === true ? "" : String(value));
  }
  node.append(...children);
  return node;
}

/** Radio buttons in their labels, and what checks one of them. */
export function radioChoices<T extends string>(
  name: string,
  options: readonly { value: T; label: string }[],
  choose: (value: T) => void,
) {
  const buttons = options.map(({ value, label }) => ({
    label,
    button: element("input", { type: "radio", name, value, onchange: () => choose(value) }),
  }));
  const check = (value: string) => {
    for (const { button } of buttons) button.checked = button.value === value;
  };
  return { choices: buttons.map(({ button, label }) => element("label", {}, button, label)), check };
}
