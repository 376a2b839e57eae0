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
